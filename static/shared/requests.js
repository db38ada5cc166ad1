// Every request has a time limit, the reading of its answer included: a line that stalls never holds up what comes after.

export const LIMIT_MS = 15000;
const SLOW_LINE_MS = 120000;

// As fetch; after `limit` milliseconds it, or the reading of its answer, fails with a TimeoutError.
export function timed(address, options = {}, limit = LIMIT_MS) {
  return fetch(address, { ...options, signal: within(limit) });
}

// What a worker keeps for later: many files at once, so a slow line gets more time.
export function toKeep(address) {
  return new Request(address, { cache: "reload", signal: within(SLOW_LINE_MS) });
}

// A signal that aborts after so many milliseconds (AbortSignal.timeout, also where a browser does not have it yet).
export function within(milliseconds) {
  const controller = new AbortController();
  setTimeout(() => controller.abort(new DOMException("no answer in time", "TimeoutError")), milliseconds);
  return controller.signal;
}

export const isTimeout = (error) => error?.name === "TimeoutError";
