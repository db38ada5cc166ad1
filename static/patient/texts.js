// Words that the page carries in the patient's language.

import { numberWords, pluralForm } from "../shared/dates.js";

export function text(key, values = {}) {
  const found = document.querySelector(`#texts [data-text="${key}"]`)?.textContent ?? key;
  return found.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

// A text with a number in it, in the plural form that the language has for it.
export function countedText(key, count) {
  return text(`${key}.${pluralForm(count)}`, { count: numberWords(count) });
}
