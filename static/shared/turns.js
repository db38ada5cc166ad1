// One tab or worker at a time, for as long as it answers.

import { LIMIT_MS, isTimeout, within } from "./requests.js";

// Runs `work` when nobody else does. Whoever has had its turn for longer than a request may take hangs, and loses it:
// what is sent twice changes nothing, what is never sent may hurt.
export function inTurn(name, work) {
  let running;
  const run = () => (running = work());
  const take = async (options) => {
    try {
      return await navigator.locks.request(name, options, run);
    } catch (error) {
      if (running) return running; // another took over meanwhile: what this one did stands
      if (isTimeout(error)) return take({ steal: true });
      throw error;
    }
  };
  return take({ signal: within(LIMIT_MS) });
}
