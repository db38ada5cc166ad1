// Days, times and numbers in words, in the language of the page: browsers make them here and nowhere else.

const FORMATS = { en: "en-GB" };
const language = () => FORMATS[document.documentElement.lang] ?? document.documentElement.lang;
const two = (n) => String(n).padStart(2, "0");

// A day as records have it: 2027-03-12. Days as text sort by time.
export function isoDay(date) {
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

// A time of day as fields for times have it: 09:40.
export function isoClock(at) {
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** @param {"long" | "short"} length */
export function dayWords(iso, length = "long") {
  const [year, month, day] = iso.split("-").map(Number);
  return new Date(year, month - 1, day).toLocaleDateString(language(), { weekday: length, day: "numeric", month: length });
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

// Heights in order: “20 m and 2,500 m”.
export function metresWords(heights) {
  return listWords(heights.map((metres) => metres.toLocaleString(language(), { style: "unit", unit: "meter" })));
}

// Which plural form the language has for this number: `one`, `other`, …
export function pluralForm(count) {
  return new Intl.PluralRules(language()).select(count);
}

// Several things in one sentence: “one and two”.
export function listWords(things) {
  return new Intl.ListFormat(language(), { type: "conjunction" }).format(things);
}
