// A phone whose clock somebody changes while a timer runs: what is done at true minutes, on pages that are awake, asleep or closed,
// with a line to the clinic or without. What it sends is kept with the minute at which it came.

import { Database, page } from "./indexed_db.js";
import { FromClinic } from "./patient/from-clinic.js";
import { PhoneOutbox } from "./patient/outbox.js";
import * as standing from "./patient/standing.js";
import * as timing from "./patient/timers.js";

const MINUTE_MS = 60000;
const EYE = { operation: "eye", eye: "right", gas: {}, visits: [] };

const RealDate = Date;

export async function played(acts, from) {
  const clock = { minute: 0, off: 0, opened: 0, slept: 0 };
  const shown = () => RealDate.parse(from) + (clock.minute + clock.off) * MINUTE_MS;
  globalThis.Date = class extends RealDate {
    constructor(...given) { super(...(given.length > 0 ? given : [shown()])); }
    static now() { return shown(); }
  };
  performance.now = () => (clock.minute - clock.opened - clock.slept) * MINUTE_MS;
  globalThis.document = { documentElement: { lang: "en" }, querySelector: () => null };
  page();
  const database = new Database();
  const [sent, known, told] = [[], new Map(), []];
  let line = true;
  let phone = null;

  const trueTime = (minutes = 0) => new RealDate(RealDate.parse(from) + (clock.minute + minutes) * MINUTE_MS).toISOString();
  // As the clinic moves them (`followup.care.home.clocks`).
  const byClinic = ({ at, heard, body }, sentAt) => {
    const [now, made] = [RealDate.parse(trueTime()), RealDate.parse(at)];
    const fits = [now - RealDate.parse(sentAt), RealDate.parse(heard.clinic_at) - RealDate.parse(heard.device_at)].find((off) => made + off >= RealDate.parse(heard.clinic_at) - 2 * MINUTE_MS && made + off <= now + 2 * MINUTE_MS);
    const moved = (iso) => new RealDate(RealDate.parse(iso) + (fits ?? now - made)).toISOString();
    return { ...body, from: moved(body.from), to: moved(body.to) };
  };
  globalThis.fetch = async (address, { body } = {}) => {
    if (!line) throw new TypeError("no line");
    if (address.startsWith("/api/v1/known")) return { ok: true, status: 200, json: async () => ({ set_up: true }) };
    if (address.startsWith("/api/v1/pack")) return { ok: true, status: 200, json: async () => ({ made_at: trueTime(), eyes: [{ ...EYE, receipts: [...known.values()] }] }) };
    const content = JSON.parse(typeof body === "string" ? body : await new Response(new Blob([body]).stream().pipeThrough(new DecompressionStream("gzip"))).text());
    sent.push({ minute: clock.minute, ...content });
    for (const event of content.events) {
      if (event.corrects) known.delete(event.corrects);
      if (event.kind === "posture") known.set(event.id, { ...event, body: byClinic(event, content.sent_at) });
    }
    return { ok: true, status: 200, json: async () => ({ results: content.events.map(({ id }) => ({ id, status: "received", reason: null })) }) };
  };

  // What app.js wires, without a screen.
  function opened() {
    const outbox = new PhoneOutbox(database);
    const clinic = new FromClinic(database, outbox, async () => {});
    const keeping = {
      save: async (kind, body, { operation, ...options }) => [await outbox.add(kind, operation, "patient", body, options)],
      hideNote: () => {}, noteBeside: () => {}, trying: async (work) => (await work()) ?? true,
    };
    const plan = { ...EYE, position: "face-down", posture: {} };
    const timers = new timing.Timers(database, keeping, { planOf: () => plan, receipt: () => clinic.receipt, sure: (id) => outbox.sure(id), changed: () => drawn() });
    const drawn = async () => {
      const facts = database.stores.facts;
      timers.running = timing.runningTimers(facts.get("timer"), [EYE]);
      await clinic.lookAtClock?.(facts.get("clock"));
    };
    return { outbox, clinic, keeping, timers, drawn };
  }

  async function open() {
    [clock.opened, clock.slept] = [clock.minute, 0];
    phone = opened();
    await phone.drawn();
  }

  const asked = async () => {
    await phone.drawn();
    const timers = phone.timers.running.filter((timer) => timing.isUnsure?.(timer, phone.clinic.receipt));
    const entries = standing.unsureOf?.(database.stores.facts.get("pack")?.eyes ?? [], await phone.outbox.all()) ?? [];
    return { timers, entries };
  };
  const own = () => phone.timers.running[0];
  const doing = {
    clock: (minutes) => { clock.off = minutes; },
    line: (on) => { line = on; },
    sleep: (minutes) => { clock.slept += minutes; },
    open,
    close: () => { phone = null; },
    look: () => phone.drawn(),
    hear: async () => {
      await phone.clinic.refresh();
      if (line && database.stores.facts.get("pack").made_at !== trueTime()) throw new Error("the pack was not taken");
    },
    start: () => phone.timers.toggle("eye"),
    stop: () => phone.timers.toggle("eye"),
    pause: () => phone.timers.pause("eye"),
    still: () => phone.timers.stillSo("eye"),
    another: () => { phone.timers.running.forEach((timer) => { timer.position = "upright"; }); return phone.timers.toggle("eye"); },
    until: (minutes) => phone.timers.stopAt("eye", new Date(Date.now() + minutes * MINUTE_MS)),
    answer: async (minutes) => {
      const { timers, entries } = await asked();
      for (const timer of timers) await phone.timers.ran(timer, minutes);
      for (const entry of entries) await phone.timers.lasted(entry, minutes);
    },
  };
  for (const [minute, name, value] of acts) {
    clock.minute = minute;
    await doing[name](value);
    await phone?.drawn();
    if (!phone) continue;
    const { timers, entries } = await asked();
    if (timers.length + entries.length > 0) told.push([minute, timers.length ? "timer" : "entry"]);
  }
  await open();
  const left = (await asked());
  const running = own();
  return { sent, asked: told, left: { timers: left.timers.length, entries: left.entries.length, running: running ? 1 : 0 } };
}
