// The entry screen of a visit, with a signal and without: conversions while typing, and what was entered.

import { item } from "../shared/dom.js";
import { lookUp } from "./acuity-table.js";

const SIDES = ["right", "left"];
const FIELDS = ["acuity", "pinhole", "notation", "acuity_not", "correction", "iop", "finger", "iop_not", "instrument", "bubble_percent", "pain", "notes"];
const CONTRARY = [["attached", "detached"], ["hole-closed", "hole-open"]]; // findings that cannot both be
const MEASURED = ["acuity", "pinhole", "acuity_not", "iop", "finger", "iop_not", "bubble_percent", "pain", "notes"];

// Shows beside each acuity what it is in the other notations, and the change from last time.
export function showConversions(form, table) {
  for (const output of form.querySelectorAll("output.conversion")) {
    const field = document.getElementById(output.dataset.field);
    const notation = document.getElementById(output.dataset.notation);
    const show = () => {
      output.textContent = conversion(table, field.value, notation.value, output.dataset.last);
      if (lookUp(table, field.value, notation.value).ask) form.querySelector("details.how").open = true;
    };
    field.addEventListener("input", show);
    notation.addEventListener("change", show);
    show();
  }
}

// Says in one line how both eyes are measured unless that is changed.
export function showHow(form) {
  const chosen = (side, name) => form.elements[`${side}-${name}`].selectedOptions[0].text;
  const ways = SIDES.map((side) => `${side}: ${chosen(side, "correction")}, ${chosen(side, "instrument")}`);
  form.querySelector(".how-words").textContent = `Measured ${ways.join("; ")}.`;
}

// What was entered, as the facts that the clinic keeps: measures of either eye, the visit, no gas seen.
export function factsOf(form) {
  /** @type {{ kind: string, body: Record<string, any> }[]} */
  const facts = SIDES.map((side) => ({ kind: "measures", body: entered(form, side) })).filter(({ body }) => isMeasured(body));
  const visit = form.elements.visit.selectedOptions[0];
  if (visit?.value) facts.push({ kind: "seen", body: { visit: visit.dataset.name, visit_id: visit.value } });
  if (form.elements.no_gas_seen?.checked) facts.push({ kind: "no-gas-seen", body: {} });
  return facts;
}

// What the server would not take, and what is worth asking about, in words. The server has the last word.
function judged(facts, table, limits) {
  const wrong = [];
  const doubts = [];
  for (const { body } of facts.filter(({ kind }) => kind === "measures")) {
    const say = (list, words) => list.push(`${body.eye} eye: ${words}`);
    for (const read of [body.acuity, body.pinhole].filter(Boolean)) {
      const found = lookUp(table, read, body.notation);
      if (found.ask) say(wrong, `is ${read} ${found.ask}? ${how(found.ask)}`);
      else if (!found.row && !found.category) say(doubts, `is the acuity “${read}” right?`);
    }
    if (body.acuity_not && (body.acuity || body.pinhole)) say(wrong, `an acuity is written, and it says ${body.acuity_not}: take one away.`);
    if (body.iop_not && (body.iop || body.finger)) say(wrong, `a pressure is written, and it says ${body.iop_not}: take one away.`);
    if (body.acuity && body.pinhole && body.correction === "pinhole") say(wrong, "two acuities with the pinhole are written: say with what the first was read.");
    for (const [one, other] of CONTRARY) if (body.findings.includes(one) && body.findings.includes(other)) say(wrong, `${one} and ${other} cannot both be.`.replaceAll("-", " "));
    for (const [value, name, low, high] of [[body.bubble_percent, "bubble height", 0, 100], [body.pain, "pain", 0, 10]]) {
      if (value && !(asNumber(value) >= low && asNumber(value) <= high)) say(wrong, `${name} “${value}”: accepted is ${low} to ${high}.`);
    }
    if (!body.iop) continue;
    const iop = asMmhg(body.iop, limits);
    if (Number.isNaN(iop)) say(wrong, `“${body.iop}” is not a pressure; write it in mmHg, for example 15, or 2.0 kPa.`);
    else if (iop < limits.lowest || iop > limits.highest) say(wrong, `pressure “${body.iop}”: accepted is ${limits.lowest} to ${limits.highest} mmHg.`);
    else if (iop < limits.unlikely_below || iop > limits.unlikely_above) say(doubts, `is a pressure of ${pressureWords(body.iop, iop)} right?`);
  }
  if (facts.some(({ kind }) => kind === "no-gas-seen")) {
    doubts.push("No gas seen lifts the caution: did a clinician look at the retina and see none?");
    if (facts.some(({ body }) => asNumber(body.bubble_percent ?? "") > 0)) wrong.push("A bubble that has a height and “no gas seen” cannot both be.");
  }
  return { wrong, doubts };
}

// Pressures at the clinic's own limits: without a signal no warning goes out, so the nurse is told on the spot.
function outOfLimits(facts, limits) {
  const felt = facts.filter(({ body }) => body.finger === "hard" || body.finger === "soft").map(({ body }) => `${body.eye} eye: feels ${body.finger}.`);
  return felt.concat(facts.filter(({ body }) => body.iop).flatMap(({ body }) => {
    const iop = asMmhg(body.iop, limits);
    const words = `${body.eye} eye: ${pressureWords(body.iop, iop)} is at or`;
    if (iop >= limits.high_from) return [`${words} above the clinic’s limit of ${limits.high_from}.`];
    if (iop <= limits.low_at_most) return [`${words} below the clinic’s limit of ${limits.low_at_most}.`];
    return [];
  }));
}

// Shows what is wrong, or worth asking about, in the form. Gives whether to wait for an answer.
export function asksBack(form, facts, table, limits, moreDoubts = []) {
  const part = (id) => document.getElementById(id);
  const { wrong, doubts } = judged(facts, table, limits);
  doubts.push(...moreDoubts);
  if (facts.length === 0) wrong.push("Nothing was entered: write at least one measure.");
  const asked = wrong.length === 0 && doubts.length > 0 && !form.elements.sure.checked;
  const waits = wrong.length > 0 || asked;
  part("wrong").hidden = !waits;
  part("sure-line").hidden = !asked;
  part("wrong-list").replaceChildren(...[...wrong, ...(asked ? doubts : [])].map(item));
  if (waits) part("wrong").focus();
  return waits;
}

// Shows the alarm for what was kept here, if there is one; gives whether there is.
export function alarmed(facts, limits) {
  const alarms = outOfLimits(facts, limits);
  document.getElementById("alarm").hidden = alarms.length === 0;
  document.getElementById("alarm-words").textContent = alarms.join(" ");
  return alarms.length > 0;
}

// A pressure as typed (`31`, `31 mm Hg` or `4.1 kPa`) in mmHg to a tenth, NaN if it is none. The server has the last word.
export function asMmhg(typed, { kpa_per_mmhg: kpaPerMmhg }) {
  const read = typed.match(/^\s*(\d+(?:[.,]\d+)?)\s*(mm\s*hg|kpa)?\s*$/i);
  if (!read) return NaN;
  const number = Number(read[1].replace(",", "."));
  return read[2]?.toLowerCase() === "kpa" ? Math.round((number / kpaPerMmhg) * 10) / 10 : number;
}

// A pressure for a person: always in mmHg, and as typed where that was in kPa.
function pressureWords(typed, iop) {
  return /kpa/i.test(typed) ? `${typed.trim()} (${iop} mmHg)` : `${iop} mmHg`;
}

function entered(form, side) {
  const body = Object.fromEntries(FIELDS.map((name) => [name, form.elements[`${side}-${name}`].value.trim()]));
  const findings = [...form.querySelectorAll(`[name="${side}-findings"]:checked`)].map((box) => box.value);
  return { eye: side, ...body, findings };
}

function isMeasured(body) {
  return MEASURED.some((name) => body[name]) || body.findings.length > 0;
}

function how(ask) {
  return ask.includes("light") ? "Write it out." : "Choose the notation.";
}

function asNumber(text) {
  return Number(text.replace(",", ".").replace("%", ""));
}

function conversion(table, acuity, notation, last) {
  if (!acuity.trim()) return "";
  const found = lookUp(table, acuity, notation);
  if (found.ask) return `${found.ask[0].toUpperCase()}${found.ask.slice(1)}? ${how(found.ask)}`;
  if (!found.row) return [found.category, found.correction].filter(Boolean).join(" · ");
  const [logmar, metres, feet, letters] = found.row;
  const parts = [`logMAR ${logmar.toFixed(2)}`, metres, feet];
  if (letters !== null) parts.push(`${letters} letters`);
  if (found.correction) parts.push(found.correction);
  const before = last ? lookUp(table, last, "").row : null;
  if (before && before[3] !== null && letters !== null) parts.push(change(letters - before[3]));
  return parts.join(" · ");
}

function change(letters) {
  if (letters === 0) return "same as last";
  return `${Math.abs(letters)} letters ${letters > 0 ? "better" : "worse"} than last`;
}
