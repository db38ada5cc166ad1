// The acuity table: keys are lower case without spaces; bare numbers stand under a notation's prefix.
// What people type is brought into that form here; what it means is in the table alone.

import { timed } from "../shared/requests.js";

export async function loadTable(address) {
  const answer = await timed(address);
  return answer.ok ? answer.json() : {};
}

const COUNTING = "counting fingers", MOVEMENTS = "hand movements", LIGHT = "light perception", NO_LIGHT = "no light perception";
const CATEGORIES = {
  cf: COUNTING, cfs: COUNTING, fc: COUNTING, countingfingers: COUNTING, countsfingers: COUNTING, countfingers: COUNTING,
  hm: MOVEMENTS, hms: MOVEMENTS, handmovements: MOVEMENTS, handmovement: MOVEMENTS, handmotion: MOVEMENTS, handmotions: MOVEMENTS,
  lp: LIGHT, pl: LIGHT, "lp+": LIGHT, "pl+": LIGHT, lightperception: LIGHT, perceptionoflight: LIGHT,
  nlp: NO_LIGHT, npl: NO_LIGHT, nolightperception: NO_LIGHT, noperceptionoflight: NO_LIGHT,
};
const DISTANCE = /(?:at|@)?(?:(?:\d+(?:\.\d+)?|\.\d+)(?:m|metres?|meters?|cm|ft|foot|feet)|(?:the)?face)$/;
const CORRECTIONS = { ph: "pinhole", pinhole: "pinhole", unaided: "unaided", glasses: "glasses" };
const LINES_CALLED_BY_NUMBER = ["6", "20"];

// Charts whose lines are called by their lower number alone.
const CHARTS = ["6/", "20/"];

// What was typed: `row` of the table or `category`, or `ask` (between what), or nothing; and the `correction` it names.
export function lookUp(table, typed, notation) {
  const plain = typed.toLowerCase().replace(/\s+/g, "").replace(/,/g, ".").replace(/[−–‒]/g, "-").replace(/[⁄∕]/g, "/").replace(/＋/g, "+");
  const [, before, reading, after] = plain.match(/^(ph|pinhole|unaided|glasses)?:?(.*?)(?:(?:with)?\(?(ph|pinhole|unaided|glasses)\)?)?$/);
  const correction = reading ? CORRECTIONS[before ?? after] : undefined;
  const found = read(table, correction ? reading : plain, notation);
  return correction ? { ...found, correction } : found;
}

function read(table, plain, notation) {
  if (CHARTS.includes(notation)) return read(table, onChart(table, plain, notation), "");
  if (/^(pl|lp)-(ve)?$/.test(plain)) return { ask: "light perception (LP) or no light perception (NLP)" };
  const category = CATEGORIES[plain] ?? CATEGORIES[plain.replace(DISTANCE, "")];
  if (category) return { category };
  const named = plain.match(/^logmar[:=]?([+-]?[\d.]+)$|^([+-]?[\d.]+)logmar$/);
  if (named) return { row: table[`logmar:${Number(named[1] ?? named[2])}`] };
  const letters = plain.match(/^([\d.]+)(?:letters?|l|etdrs|lettersetdrs|etdrsletters)$|^etdrs[:=]?([\d.]+)(?:letters?)?$/);
  if (letters) return { row: table[`${Number(letters[1] ?? letters[2])}letters`] };
  const line = plain.replace(/^snellen/, "").match(/^([+-]?[\d./]+)((?:\(?[+-]\d\)?)*)(?:\(?(p|part|partial|partly|[+-])\)?)?$/);
  if (!line) return {};
  const [, number, said, unsaid] = line;
  const partial = (said.match(/[+-]\d/g) ?? []).reduce((sum, part) => sum + Number(part), unsaid ? (unsaid === "+" ? 1 : -1) : 0);
  const signed = partial ? `${partial > 0 ? "+" : ""}${partial}` : "";
  if (number.includes("/")) return { row: table[`${number.split("/").map(Number).join("/")}${signed}`] };
  if (said || unsaid) return notation && notation !== "decimal" ? {} : { row: table[`decimal:${Number(number)}${signed}`] };
  return bare(table, Number(number), notation);
}

// A line called by its lower number, written whole where the chart has it.
function onChart(table, plain, chart) {
  const line = plain.match(/^(\d[\d.]*)((?:\(?[+-]\d\)?)*(?:\(?(?:p|part|partial|partly|[+-])\)?)?)$/);
  return line && !line[1].startsWith("0") && `${chart}${Number(line[1])}` in table ? `${chart}${plain}` : plain;
}

function bare(table, number, notation) {
  if (notation) return { row: table[notation === "letters" ? `${number}letters` : `${notation}:${number}`] };
  const readings = [["decimal", `decimal:${number}`], ["logMAR", `logmar:${number}`], ["letters", `${number}letters`]].filter(([, key]) => key in table);
  const lines = LINES_CALLED_BY_NUMBER.map((top) => `${top}/${number}`).filter((key) => key in table);
  const named = [...readings.map(([name]) => name), ...lines.map((key) => `the line ${key}`)];
  return named.length > 1 ? { ask: named.join(" or ") } : { row: table[readings[0]?.[1]] };
}
