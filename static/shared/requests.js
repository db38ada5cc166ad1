// Every request has a time limit, the reading of its answer included: a line that stalls never holds up what comes after.

export const LIMIT_MS = 15000;
const SLOW_LINE_MS = 120000;

// As fetch; after `limit` milliseconds it, or the reading of its answer, fails with a TimeoutError.
export function timed(address, options = {}, limit = LIMIT_MS) {
  return fetch(address, { ...options, signal: within(limit) });
}

// The content of an answer, null where it has none. An answer that says no throws with the server's words in `said`; no signal
// throws without.
export async function ask(method, address, content) {
  const body = content && { headers: { "Content-Type": "application/json" }, body: JSON.stringify(content) };
  const answer = await timed(address, { method, cache: "no-store", ...body });
  if (answer.ok) return answer.status === 204 ? null : await answer.json();
  throw Object.assign(new Error(`answer ${answer.status}`), { said: (await answer.json().catch(() => ({}))).error });
}

// What a worker keeps for later: many files at once, so a slow line gets more time. What the browser has of one already is
// taken where it is what the server means (`hash`, SHA-256; else its mark, which the server is asked about): nothing goes over
// the line twice.
export async function keep(cache, address, hash) {
  const signal = within(SLOW_LINE_MS);
  if (hash) {
    const near = await fetch(address, { cache: "force-cache", signal });
    if (near.ok && (await sha256(await near.clone().arrayBuffer())) === hash) return cache.put(address, near);
  }
  return cache.add(new Request(address, { cache: hash ? "reload" : "no-cache", signal }));
}

async function sha256(content) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A signal that aborts after so many milliseconds (AbortSignal.timeout, also where a browser does not have it yet).
export function within(milliseconds) {
  const controller = new AbortController();
  setTimeout(() => controller.abort(new DOMException("no answer in time", "TimeoutError")), milliseconds);
  return controller.signal;
}

export const isTimeout = (error) => error?.name === "TimeoutError";
