// Words that the page carries in the patient's language.

export function text(key, values = {}) {
  const found = document.querySelector(`#texts [data-text="${key}"]`)?.textContent ?? key;
  return found.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

// A text with a number in it, in the plural form that the language has for it.
export function countedText(key, count) {
  return text(`${key}.${new Intl.PluralRules(language()).select(count)}`, { count: numberWords(count) });
}

const FORMATS = { en: "en-GB" };
const language = () => FORMATS[document.documentElement.lang] ?? document.documentElement.lang;

export function dayWords(iso) {
  const [year, month, day] = iso.split("-").map(Number);
  return new Date(year, month - 1, day).toLocaleDateString(language(), { weekday: "long", day: "numeric", month: "long" });
}

// A day, or a day with its time: 2027-03-12 09:40.
export function whenWords(when) {
  const [day, clock] = when.split(" ");
  return clock ? `${dayWords(day)}, ${timeWords(new Date(`${day}T${clock}`))}` : dayWords(day);
}

export function whenOf({ target, starts }) {
  return starts ? `${target} ${starts}` : target;
}

export function timeWords(at) {
  return at.toLocaleTimeString(language(), { hour: "2-digit", minute: "2-digit" });
}

export function momentWords(at) {
  return at.toLocaleString(language(), { weekday: "short", hour: "2-digit", minute: "2-digit" });
}

export function numberWords(value) {
  return value.toLocaleString(language(), { maximumFractionDigits: 1 });
}

export function percentWords(value) {
  return (value / 100).toLocaleString(language(), { style: "percent" });
}

// Several things in one sentence: “one and two”.
export function listWords(things) {
  return new Intl.ListFormat(language(), { type: "conjunction" }).format(things);
}

export function byId(id) {
  return document.getElementById(id);
}
