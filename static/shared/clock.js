// Whether a device's clock and what the clinic sent can be relied on. A phone cannot tell why its clock is wrong, so
// whatever does not fit counts as wrong until the clinic has been heard from again.

const HOUR_MS = 3600000;

// An hour off is common (summer time set by hand, the wrong zone) and moves no rule, since rules go by days. With more
// the date may be wrong too.
export const NEAR_MS = 2 * HOUR_MS;

// Plans and rules change when somebody sees the eye: in the first weeks every few days. Three days are a long weekend
// without a signal. It is also the most that a clock put forward since then can pass unnoticed.
export const FRESH_MS = 72 * HOUR_MS;

// Smaller differences between two clocks are the time on the way, as the clinic has it (`care/home/clocks.py`).
export const SKEW_MS = 120000;

// Kept beside the pack: the clinic's clock and the phone's when it came, and the latest time the phone has shown since.
export function receiptOf(pack, now = Date.now()) {
  return { made_at: Date.parse(pack.made_at), received_at: now, seen_at: now };
}

// What cannot be relied on: "clock" (not near the clinic's, or set back since), "stale" (old, or set forward since), or null.
export function faultOf(receipt, now = Date.now()) {
  const { made_at: made, received_at: received, seen_at: seen } = receipt ?? {};
  if (![made, received, seen].every(Number.isFinite)) return "clock";
  if (Math.abs(received - made) > NEAR_MS || now < seen - NEAR_MS) return "clock";
  return now - received > FRESH_MS ? "stale" : null;
}

// The time by the clinic's clock; only where nothing is at fault.
export function clinicTime(receipt, now = Date.now()) {
  return now - receipt.received_at + receipt.made_at;
}

// How far the clinic's clock is ahead of this one, by all that is known here: what both showed when the clinic was last heard,
// and how far this one was put back since. Another answer than before is a clock that was changed; NaN where nothing is known.
export function aheadOf(receipt, now = Date.now()) {
  const { made_at: made = NaN, received_at: received = NaN, seen_at: seen = received } = receipt ?? {};
  return made - received + Math.max(0, seen - now);
}

// Looks at a clock that nobody can set beside the one that anybody can, for as long as the page stays open.
export class SteadyClock {
  #of = null;
  #furthest = -Infinity; // that the one showed beyond the other

  // The receipt with the latest time that must have come by now; it may run short, because this clock can stand still in sleep.
  notice(receipt, now = Date.now(), steady = performance.now()) {
    if (!receipt) return receipt;
    if (this.#of !== receipt.received_at) [this.#of, this.#furthest] = [receipt.received_at, -Infinity];
    this.#furthest = Math.max(this.#furthest, Math.max(receipt.seen_at, now) - steady);
    return { ...receipt, seen_at: this.#furthest + steady };
  }
}
