// Every request has a time limit, the reading of its answer included: a line that stalls never holds up what comes after.

export const LIMIT_MS = 15000;
const SLOW_LINE_MS = 120000;
const GZIP_FROM_BYTES = 2000;

// As fetch; after `limit` milliseconds it, or the reading of its answer, fails with a TimeoutError.
export function timed(address, options = {}, limit = LIMIT_MS) {
  return fetch(address, { ...options, signal: within(limit) });
}

// The content of an answer, null where it has none. An answer that says no throws with the server's words in `said`; no signal
// throws without.
export async function ask(method, address, content) {
  const answer = await timed(address, { cache: "no-store", ...(content && (await posted(content))), method });
  if (answer.ok) return answer.status === 204 ? null : await answer.json();
  throw Object.assign(new Error(`answer ${answer.status}`), { said: (await answer.json().catch(() => ({}))).error });
}

// The options of a request that posts this content as JSON, packed where that is worth it.
export async function posted(content) {
  const text = JSON.stringify(content);
  const headers = { "Content-Type": "application/json" };
  if (text.length < GZIP_FROM_BYTES || typeof CompressionStream === "undefined") return { method: "POST", headers, body: text };
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream("gzip"));
  return { method: "POST", headers: { ...headers, "Content-Encoding": "gzip" }, body: await new Response(packed).arrayBuffer() };
}

// What a worker keeps for later: many files at once, so a slow line gets more time. What the browser has of one already is
// taken where it is what the server means (`hash`, the beginning of its SHA-256; else its mark, which the server is asked
// about): nothing goes over the line twice.
export async function keep(cache, address, hash) {
  const signal = within(SLOW_LINE_MS);
  if (hash) {
    const near = await fetch(address, { cache: "force-cache", signal });
    if (near.ok && (await sha256(await near.clone().arrayBuffer())).startsWith(hash)) return cache.put(address, near);
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
