// The entry screen of a visit, with a signal and without: conversions while typing, and what was entered.

import { lookUp } from "./acuity-table.js";

const SIDES = ["right", "left"];
const FIELDS = ["acuity", "notation", "correction", "iop", "instrument", "bubble_percent", "pain", "notes"];
const MEASURED = ["acuity", "iop", "bubble_percent", "pain", "notes"];

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
  const how = SIDES.map((side) => `${side}: ${chosen(side, "correction")}, ${chosen(side, "instrument")}`);
  form.querySelector(".how-words").textContent = `Measured ${how.join("; ")}.`;
}

// What was entered, as the facts that the clinic keeps: measures of either eye, the visit, no gas seen.
export function factsOf(form) {
  const facts = SIDES.map((side) => ({ kind: "measures", body: typed(form, side) })).filter(({ body }) => isMeasured(body));
  const visit = form.elements.visit.value;
  if (visit) facts.push({ kind: "seen", body: { visit } });
  if (form.elements.no_gas_seen?.checked) facts.push({ kind: "no-gas-seen", body: {} });
  return facts;
}

// What the server would not take, and what is worth asking about, in words. The server has the last word.
export function judged(facts, table, limits) {
  const wrong = [];
  const doubts = [];
  for (const { body } of facts.filter(({ kind }) => kind === "measures")) {
    const say = (list, words) => list.push(`${body.eye} eye: ${words}`);
    if (body.acuity) {
      const found = lookUp(table, body.acuity, body.notation);
      if (found.ask) say(wrong, `is ${body.acuity} ${found.ask}? ${how(found.ask)}`);
      else if (!found.row && !found.category) say(doubts, `is the acuity “${body.acuity}” right?`);
    }
    for (const [value, name, low, high] of [[body.bubble_percent, "bubble height", 0, 100], [body.pain, "pain", 0, 10]]) {
      if (value && !(asNumber(value) >= low && asNumber(value) <= high)) say(wrong, `${name} “${value}”: accepted is ${low} to ${high}.`);
    }
    if (!body.iop || /kpa/i.test(body.iop)) continue;
    const iop = asNumber(body.iop);
    if (!(iop >= limits.lowest && iop <= limits.highest)) say(wrong, `pressure “${body.iop}”: accepted is ${limits.lowest} to ${limits.highest} mmHg.`);
    else if (iop < limits.unlikely_below || iop > limits.unlikely_above) say(doubts, `is a pressure of ${body.iop} mmHg right?`);
  }
  return { wrong, doubts };
}

// Pressures at the clinic's own limits: without a signal no warning goes out, so the nurse is told on the spot.
export function outOfLimits(facts, limits) {
  return facts.filter(({ body }) => body.iop && !/kpa/i.test(body.iop)).flatMap(({ body }) => {
    const iop = asNumber(body.iop);
    if (iop >= limits.high_from) return [`${body.eye} eye: ${body.iop} mmHg is at or above the clinic’s limit of ${limits.high_from}.`];
    if (iop <= limits.low_at_most) return [`${body.eye} eye: ${body.iop} mmHg is at or below the clinic’s limit of ${limits.low_at_most}.`];
    return [];
  });
}

function typed(form, side) {
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
