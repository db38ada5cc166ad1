// Runs scripts one after the other, each in a thread of its own, so that nothing of one is left for the next: a process for each
// would take longer to start than most take to run. A line in is a script's name and what it is given, a line out what came of it.

import { createInterface } from "node:readline";
import { SHARE_ENV, Worker } from "node:worker_threads";

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

// `answer` as JSON, null where the script set none; or what went wrong.
function ran({ script, given }) {
  return new Promise((resolve) => {
    let answer, fault;
    const worker = new Worker(new URL(script, import.meta.url), { workerData: given, env: SHARE_ENV, stdout: true, stderr: true });
    worker.on("message", (said) => { answer = said; });
    worker.on("error", (error) => { fault = error.stack ?? String(error); });
    worker.on("exit", () => resolve(answer === undefined ? { fault: fault ?? "it ended without an answer" } : { answer }));
  });
}

for await (const line of createInterface({ input: process.stdin })) {
  process.env.TZ = zone; // some scripts live elsewhere
  process.stdout.write(`${JSON.stringify(await ran(JSON.parse(line)))}\n`);
}
