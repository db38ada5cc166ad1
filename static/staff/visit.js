// Shows the conversion of an acuity while it is typed, from the table that the server worked out.
import { lookUp, loadTable } from "./acuity-table.js";

const form = document.querySelector("[data-acuity-table]");
const table = await loadTable(form.dataset.acuityTable);

for (const output of form.querySelectorAll("output.conversion")) {
  const field = document.getElementById(output.dataset.field);
  const notation = document.getElementById(output.dataset.notation);
  const show = () => { output.textContent = words(field.value, notation.value, output.dataset.last); };
  field.addEventListener("input", show);
  notation.addEventListener("change", show);
  show();
}

function words(typed, notation, last) {
  if (!typed.trim()) return "";
  const found = lookUp(table, typed, notation);
  if (found.ask) return "Decimal or logMAR? Choose the notation.";
  if (!found.row) return found.category ?? "";
  const [logmar, metres, feet, letters] = found.row;
  const parts = [`logMAR ${logmar.toFixed(2)}`, metres, feet];
  if (letters !== null) parts.push(`${letters} letters`);
  const before = last ? lookUp(table, last, "").row : null;
  if (before && before[3] !== null && letters !== null) parts.push(change(letters - before[3]));
  return parts.join(" · ");
}

function change(letters) {
  if (letters === 0) return "same as last";
  return `${Math.abs(letters)} letters ${letters > 0 ? "better" : "worse"} than last`;
}
