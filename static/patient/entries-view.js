// Everything entered, with its honest states; what was wrong is put right or taken back, with a reason.

import { momentWords } from "../shared/dates.js";
import { byId, item, onSubmit, redraw } from "../shared/dom.js";
import { text } from "./texts.js";

const SHOWN_AT_MOST = 60;

export class EntriesView {
  #actions;
  #open = null; // the entry that is about to be taken back
  #drawn;

  constructor(actions) {
    this.#actions = actions;
    onSubmit(byId("take-back"), () => this.#takeBack());
    byId("take-back-not").addEventListener("click", () => this.#close());
    byId("refused-seen").addEventListener("click", () => this.#actions.refusedSeen());
  }

  show({ eyes, names, entries, pack }) {
    const refused = entries.filter(({ state, seen }) => state === "refused" && !seen);
    byId("refused").hidden = refused.length === 0;
    byId("refused-list").replaceChildren(...refused.map(({ event, reason }) => item(`${momentWords(new Date(event.at))}: ${text(`kind-${event.kind}`)}. ${text("refused", { reason })}`)));
    const fresh = JSON.stringify([eyes.map(({ receipts }) => receipts), entries]);
    if (this.#open && fresh === this.#drawn) return; // nobody loses the field that they are typing in
    this.#drawn = fresh;
    const form = byId("take-back");
    const typing = form.contains(document.activeElement);
    byId("entries").after(form); // the list is drawn anew
    redraw(byId("entries"), this.#rows(eyes, names, entries, pack.used_by));
    if (typing) byId("take-back-reason").focus();
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
      const when = momentWords(new Date(entry.at));
      const row = item(`${when}: ${text(`kind-${entry.kind}`)}${eye}${hoursIn(entry)}${writer(entry, by)}. ${state}.`);
      if (!later && entry.state !== "refused" && names.has(entry.operation)) this.#offer(row, entry, `${text(`kind-${entry.kind}`)}, ${when}`);
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
    if (this.#open?.id === entry.id) row.append(byId("take-back"));
    add("take-back", () => {
      this.#open = entry;
      row.append(byId("take-back"));
      byId("take-back").hidden = false;
      byId("take-back-reason").focus();
    });
  }

  async #takeBack() {
    const reason = byId("take-back-reason").value.trim();
    byId("take-back-error").textContent = reason ? "" : text("say-why");
    if (!reason || !this.#open) return;
    const entry = this.#open;
    if (await this.#actions.takeBack([entry], reason)) this.#close();
  }

  #close() {
    this.#open = null;
    const form = byId("take-back");
    form.hidden = true;
    form.reset();
    byId("take-back-error").textContent = "";
    this.#actions.show();
  }
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
