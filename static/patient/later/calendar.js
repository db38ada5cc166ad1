// A calendar file made on the phone (iCalendar, RFC 5545): visits and, where wanted, drops, with alarms.

const MOST_OCTETS = 75; // of a line, RFC 5545 section 3.1

// Events, each { uid, title, words, place, day or at or clock, until, alarms }: `day` 2027-03-10 for a whole day, `at` a Date,
// `day` with `clock` 08:00 for a time by the phone's own clock each day until `until`. `alarms` are durations: -PT15H.
export function calendarText(events, now = new Date()) {
  const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//followup//phone//EN", "CALSCALE:GREGORIAN", "METHOD:PUBLISH"];
  for (const event of events) lines.push(...eventLines(event, now));
  return [...lines, "END:VCALENDAR"].map((line) => `${folded(line)}\r\n`).join("");
}

function eventLines({ uid, title, words = "", place = "", alarms = [], ...when }, now) {
  return [
    "BEGIN:VEVENT", `UID:${escaped(uid)}`, `DTSTAMP:${utc(now)}`, ...times(when), `SUMMARY:${escaped(title)}`,
    ...(words ? [`DESCRIPTION:${escaped(words)}`] : []), ...(place ? [`LOCATION:${escaped(place)}`] : []),
    ...alarms.flatMap((before) => ["BEGIN:VALARM", "ACTION:DISPLAY", `DESCRIPTION:${escaped(title)}`, `TRIGGER:${before}`, "END:VALARM"]),
    "END:VEVENT",
  ];
}

// A time without a zone is by the clock of whoever looks (section 3.3.5), and so must be the end of its repeating (3.3.10).
function times({ day = "", clock = "", at = null, until = "" }) {
  const plain = day.replaceAll("-", "");
  if (at) return [`DTSTART:${utc(at)}`];
  if (!clock) return [`DTSTART;VALUE=DATE:${plain}`, "TRANSP:TRANSPARENT"];
  const time = `T${clock.replace(":", "")}00`;
  return [`DTSTART:${plain}${time}`, "DURATION:PT5M", `RRULE:FREQ=DAILY;UNTIL=${until.replaceAll("-", "")}${time}`, "TRANSP:TRANSPARENT"];
}

function utc(at) {
  return `${at.toISOString().slice(0, 19).replace(/[-:]/g, "")}Z`;
}

function escaped(words) {
  return words.replace(/[\\;,]/g, "\\$&").replace(/\r?\n/g, "\\n");
}

// No line is longer than 75 octets; no character is cut.
function folded(line) {
  const encoder = new TextEncoder();
  let made = "";
  let octets = 0;
  for (const sign of line) {
    const size = encoder.encode(sign).length;
    if (octets + size > MOST_OCTETS) {
      made += "\r\n ";
      octets = 1;
    }
    made += sign;
    octets += size;
  }
  return made;
}

// The visits to come, each { title, words, place } as the patient reads it.
export function visitEvents(eyes, today, said) {
  const open = eyes.flatMap((eye) => eye.visits.filter(({ seen, target }) => !seen && target >= today).map((visit) => ({ eye, visit })));
  return open.map(({ eye, visit }) => {
    const alarms = visit.starts_at ? ["-P1D", "-PT2H"] : ["-PT15H"]; // the day before at nine, where the day alone is known
    const when = visit.starts_at ? { at: new Date(visit.starts_at) } : { day: visit.target };
    return { uid: `${visit.id ?? `${eye.operation}-${visit.target}`}@followup`, ...when, alarms, ...said(eye, visit) };
  });
}

// Each time of each drop from today on. A calendar that takes a later file knows each again by its UID (section 3.8.4.7): a drop
// has its name, and a step of it its place among all of that name, those that are over too.
export function dropEvents(eyes, today, said) {
  const steps = eyes.flatMap((eye) => eye.drops.map((drop, n) => ({ eye, drop, id: idOf(drop, eye.drops.slice(0, n)) })));
  return steps.filter(({ drop }) => drop.until >= today).flatMap(({ eye, drop, id }) => (drop.times ?? []).map(({ at: clock }) => ({
    uid: `${eye.operation}-drop-${id}-${clock.replace(":", "")}@followup`, day: drop.first > today ? drop.first : today, clock, until: drop.until,
    alarms: ["PT0S"], ...said(eye, drop),
  })));
}

function idOf({ name }, before) {
  const known = name.toLowerCase();
  return `${known}-${before.filter((other) => other.name.toLowerCase() === known).length}`;
}
