// The acuity table: keys are lower case without spaces; bare numbers stand under a notation's prefix.

import { timed } from "../shared/requests.js";

export async function loadTable(address) {
  const answer = await timed(address);
  return answer.ok ? answer.json() : {};
}

const CATEGORIES = { cf: "counting fingers", hm: "hand movements", lp: "light perception", pl: "light perception", nlp: "no light perception", npl: "no light perception" };

export function lookUp(table, typed, notation) {
  const key = typed.trim().toLowerCase().replace(/\s+/g, "").replace(/,/g, ".").replace(/[−–]/g, "-").replace(/[⁄∕]/g, "/");
  const category = CATEGORIES[key.replace(/(at|@)?[\d.]+(m|cm|ft)$/, "")];
  if (category) return { category };
  const named = key.match(/^logmar([+-]?[\d.]+)$|^([+-]?[\d.]+)logmar$/);
  if (named) return { row: table[`logmar:${Number(named[1] ?? named[2])}`] };
  if (!/^[+-]?[\d.]+$/.test(key)) return { row: table[key.replace(/^snellen/, "")] };
  if (notation === "letters") return { row: table[`${Number(key)}letters`] };
  if (notation) return { row: table[`${notation}:${Number(key)}`] };
  const readings = [`decimal:${Number(key)}`, `logmar:${Number(key)}`, `${Number(key)}letters`].filter((name) => name in table);
  return readings.length > 1 ? { ask: true } : { row: table[readings[0]] };
}
