// One's own history as a picture, with a table that says the same, to print or to share with a doctor.

import { dayWords, listWords, numberWords, percentWords, timeWords } from "../../shared/dates.js";
import { byId, item, paragraph } from "../../shared/dom.js";
import { text } from "../texts.js";
import { answersOf, historyOf } from "./history.js";
import { drawing } from "./picture.js";

export class HistoryView {
  #words;
  #drawn = "";

  constructor(words) {
    this.#words = words;
    byId("history-print").addEventListener("click", () => print());
    byId("history-share").hidden = !navigator.share;
    byId("history-share").addEventListener("click", () => this.#share());
  }

  show({ pack, eyes, names, entries }, now = new Date()) {
    const found = eyes.map((eye) => ({ eye, name: names.get(eye.operation), days: historyOf(eye, entries, now) }));
    const fresh = JSON.stringify(found.map(({ name, days }) => [name, days]));
    if (fresh === this.#drawn) return;
    this.#drawn = fresh;
    byId("history-who").textContent = `${pack.patient} · ${pack.clinic} · ${dayWords(found[0]?.days.at(-1)?.day ?? pack.made_at.slice(0, 10))}`;
    byId("history-eyes").replaceChildren(...found.flatMap((one) => this.#eye(one)));
  }

  #eye({ eye, name, days }) {
    const title = heading("h2", `${name}: ${this.#words.agent[eye.gas.agent]}`);
    const operated = paragraph(text("history-operated", { day: dayWords(eye.operated_on), surgeon: eye.surgeon }));
    if (days.length === 0) return [title, operated];
    const goal = Math.max(0, ...days.map(({ target }) => target ?? 0)) || null;
    const lanes = [
      lane(text("history-bubble"), drawing("line", days.map(({ bubble }) => bubble), 100)),
      lane(text(goal ? "history-hours-of" : "history-hours", { target: numberWords(goal ?? 0) }), drawing("bars", days.map(({ hours }) => hours), Math.max(12, goal ?? 0), goal)),
      lane(text("history-pain"), drawing("line", days.map(({ pain }) => pain), 10)),
      lane(text("history-visits"), drawing("marks", days.map(({ visits }) => (visits.length > 0 ? true : null)), 1)),
    ];
    const axis = document.createElement("p");
    axis.className = "axis";
    axis.append(...[days[0], days.at(-1)].map(({ day }) => Object.assign(document.createElement("span"), { textContent: dayWords(day) })));
    return [title, operated, ...lanes, axis, this.#table(name, days)];
  }

  #table(name, days) {
    const told = days.filter((day) => said(day).length > 0).reverse();
    const box = document.createElement("div");
    box.append(heading("h3", `${text("history-table")}: ${name}`));
    if (told.length === 0) box.append(paragraph(text("history-nothing")));
    box.append(...told.flatMap((day) => [heading("h4", dayWords(day.day)), list(said(day))]));
    return box;
  }

  async #share() {
    const words = byId("history-who").textContent;
    try {
      await navigator.share({ title: words, text: `${words}\n\n${plain(byId("history-eyes"))}` });
    } catch {
      // Closed without a choice: nothing is lost, the page stands.
    }
  }
}

// All that one day has, in sentences.
function said({ hours, target, pain, bubble, drops, checks, others, visits }) {
  const found = visits.map((visit) => text("history-visit", { name: visit.words, state: text(visit.seen ? "seen" : "history-planned") }));
  if (hours > 0) found.push(text(target ? "history-held-of" : "history-held", { hours: numberWords(hours), target: numberWords(target ?? 0) }));
  if (bubble !== null) found.push(text("history-seen", { level: percentWords(bubble) }));
  if (drops.length > 0) found.push(text("history-drops", { drops: listWords(drops.map(([name, times]) => `${name} ${numberWords(times)} ×`)) }));
  if (pain !== null && checks.length > 1) found.push(text("history-worst", { pain: numberWords(pain) }));
  return [...found, ...checks.map(checkWords), ...others.map(({ kind, body }) => otherWords(kind, body))];
}

function checkWords({ at, body }) {
  const { pain, told, unsure, words, rest } = answersOf(body);
  const parts = [
    ...(pain === null ? [] : [`${text("ask-pain")} ${numberWords(pain)}`]),
    ...told.map(([question, answer]) => `${text(`ask-${question}`)}: ${text(`say-${answer}`)}`),
    ...unsure.map((question) => `${text(`ask-${question}`)}: ${text("say-cannot-tell")}`),
    ...(words ? [`“${words}”`] : []), ...(rest ? [text("say-rest")] : []),
  ];
  return `${text("kind-symptoms")}, ${timeWords(new Date(at))}: ${parts.join("; ")}`;
}

function otherWords(kind, body) {
  const more = kind === "journey" ? body.heights_metres.map((height) => `${numberWords(height)} m`).join(", ") : (body.words ?? "");
  return more ? `${text(`kind-${kind}`)}: ${more}` : text(`kind-${kind}`);
}

function lane(words, picture) {
  const made = document.createElement("figure");
  const caption = document.createElement("figcaption");
  caption.textContent = words;
  picture.setAttribute("aria-label", words);
  made.append(caption, picture);
  return made;
}

function heading(level, words) {
  return Object.assign(document.createElement(level), { textContent: words });
}

function list(rows) {
  const made = document.createElement("ul");
  made.append(...rows.map(item));
  return made;
}

// The page as lines of text, without the picture.
function plain(box) {
  return [...box.querySelectorAll("h2, h3, h4, p:not(.axis), li")].map((part) => `${part.tagName === "LI" ? "- " : ""}${part.textContent}`).join("\n");
}
