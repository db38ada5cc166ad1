// The pages that come later, the choice of messages, and the calendar file.

import { isoDay } from "../../shared/dates.js";
import { text } from "../texts.js";
import { calendarText, dropEvents, visitEvents } from "./calendar.js";
import { HelpersView } from "./helpers-view.js";
import { HistoryView } from "./history-view.js";
import { MessagesView } from "./messages-view.js";

export function viewsOf(_actions, words) {
  return [new HistoryView(words), new HelpersView(), new MessagesView()];
}

// A phone number whose groups stay in order between words that run from right to left (Unicode's LRI and PDI).
const inOrder = (number) => (document.documentElement.dir === "rtl" ? `\u2066${number}\u2069` : number);

// A calendar file of what is to come, for the phone to open.
export function saveCalendar(shown, withDrops, visitName) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([calendar(shown, withDrops, visitName)], { type: "text/calendar" }));
  link.download = "followup.ics";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

function calendar({ pack, eyes, names }, withDrops, visitName) {
  const whose = (eye, words) => (names.size > 1 ? `${words} (${names.get(eye.operation)})` : words);
  const today = isoDay(new Date());
  const visits = visitEvents(eyes, today, (eye, visit) => ({
    title: text("calendar-visit", { clinic: pack.clinic }), place: [pack.clinic, pack.place].filter(Boolean).join(", "),
    words: [visitName(eye, visit), text("calendar-bring"), text("calendar-call", { phone: inOrder(pack.phone) })].join("\n"),
  }));
  const drops = dropEvents(eyes, today, (eye, drop) => ({ title: text("calendar-drop", { name: whose(eye, drop.name) }), words: text("calendar-clinic-first") }));
  return calendarText(withDrops ? [...visits, ...drops] : visits);
}
