// Words that the page carries in the patient's language.

export function text(key, values = {}) {
  const found = document.querySelector(`#texts [data-text="${key}"]`)?.textContent ?? key;
  return found.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

const language = () => document.documentElement.lang;

export function dayWords(iso) {
  const [year, month, day] = iso.split("-").map(Number);
  return new Date(year, month - 1, day).toLocaleDateString(language(), { weekday: "long", day: "numeric", month: "long" });
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

export function byId(id) {
  return document.getElementById(id);
}
