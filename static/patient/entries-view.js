// Everything entered, with its honest states; what was wrong is put right or taken back, with a reason.

import { momentWords } from "../shared/dates.js";
import { RowForm, byId, item } from "../shared/dom.js";
import { text } from "./texts.js";

const SHOWN_AT_MOST = 60;

export class EntriesView {
  #actions;
  #reason;

  constructor(actions) {
    this.#actions = actions;
    this.#reason = new RowForm("take-back", (entry, words) => actions.takeBack([entry], words), actions.show, text("say-why"));
    byId("refused-seen").addEventListener("click", () => this.#actions.refusedSeen());
  }

  show({ eyes, names, entries, pack }) {
    const refused = entries.filter(({ state, seen }) => state === "refused" && !seen);
    byId("refused").hidden = refused.length === 0;
    byId("refused-list").replaceChildren(...refused.map(({ event, reason }) => item(`${whatWhen(event)}. ${text("refused", { reason })}`)));
    const fresh = JSON.stringify([eyes.map(({ receipts }) => receipts), entries]);
    this.#reason.redraw(byId("entries"), fresh, () => this.#rows(eyes, names, entries, pack.used_by));
  }

  #rows(eyes, names, entries, by) {
    const receipts = eyes.flatMap((eye) => eye.receipts.map((receipt) => ({ ...receipt, operation: eye.operation, state: "received" })));
    const looked = new Set(receipts.filter((receipt) => receipt.looked_at).map(({ id }) => id));
    const undone = new Map(entries.filter(({ state }) => state !== "refused").map(({ event, state }) => [event.corrects, { state, event }]));
    const mine = entries.map(({ id, event, state, reason }) => ({ id, kind: event.kind, at: event.at, body: event.body, operation: event.operation, state, reason }));
    const theirs = receipts.filter((receipt) => !mine.some(({ id }) => id === receipt.id));
    const all = [...mine, ...theirs].filter(({ kind, state }) => kind !== "withdrawal" || state === "refused");
    return all.sort((a, b) => b.at.localeCompare(a.at)).slice(0, SHOWN_AT_MOST).map((entry) => {
      const later = undone.get(entry.id);
      const state = later ? text(later.event.kind === "withdrawal" ? "taken-back" : "put-right") : text(looked.has(entry.id) ? "looked" : entry.state, { reason: entry.reason ?? "" });
      const eye = names.size > 1 && names.has(entry.operation) ? ` (${names.get(entry.operation)})` : "";
      const row = item(`${whatWhen(entry)}${eye}${hoursIn(entry)}${writer(entry, by)}. ${state}.`);
      if (!later && entry.state !== "refused" && names.has(entry.operation)) this.#offer(row, entry, `${text(`kind-${entry.kind}`)}, ${momentWords(new Date(entry.at))}`);
      return row;
    });
  }

  #offer(row, entry, what) {
    const add = (key, press) => {
      const button = document.createElement("button");
      button.className = "quiet";
      button.textContent = text(key);
      button.setAttribute("aria-label", `${text(key)}: ${what}`);
      button.addEventListener("click", press);
      row.append(" ", button);
    };
    if (entry.kind === "posture" && entry.body.to && this.#actions.canChange(entry)) add("change", () => this.#actions.changeHours(entry));
    add("take-back", () => this.#reason.open(entry, row));
    this.#reason.stand(entry, row);
  }
}

// Of what was sealed nobody here knows when it was written.
function whatWhen({ kind, at }) {
  return kind === "sealed" ? text("kind-sealed") : `${momentWords(new Date(at))}: ${text(`kind-${kind}`)}`;
}

// Who wrote it, where that was not this phone's own person.
function writer({ by, name }, own) {
  if (!by || (by === own && !name)) return "";
  return `, ${by === "carer" ? (name ? text("by", { name }) : text("by-carer")) : text("by", { name: text("the-patient") })}`;
}

function hoursIn({ kind, body }) {
  if (kind !== "posture" || !body?.to) return "";
  return `, ${text("from-to", { from: momentWords(new Date(body.from)), to: momentWords(new Date(body.to)) })}`;
}
