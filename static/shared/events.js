// Events as devices make them: with ids of their own, the time they show, and what tells which clock that is.

// One event; `more` is what only phones say.
export function eventOf(kind, operation, body, { at, sequence, receipt, ...more }) {
  return { id: uuid7(), operation, kind, at: at.toISOString(), offset_minutes: -at.getTimezoneOffset(), sequence, body, ...heardOf(receipt), ...more };
}

// What both clocks showed when this device last heard the clinic (`receiptOf`). By that the clinic can tell which clock the
// event's time goes by, also when the clock was changed before it was sent.
export function heardOf(receipt) {
  const [clinic, device] = [new Date(receipt?.made_at ?? NaN), new Date(receipt?.received_at ?? NaN)];
  if (Number.isNaN(clinic.getTime()) || Number.isNaN(device.getTime())) return {};
  return { heard: { clinic_at: clinic.toISOString(), device_at: device.toISOString() } };
}

// UUID version 7 (RFC 9562): 48 bits of time, then randomness.
function uuid7(now = Date.now()) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let n = 0; n < 6; n += 1) bytes[n] = Math.floor(now / 2 ** (8 * (5 - n))) % 256;
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
