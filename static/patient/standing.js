// What stands of the entries: on this phone and with the clinic, each once, without what was taken back or put right since.

// By id, { id, kind, at, body, operation, state } of one eye.
export function entriesOf(eye, entries) {
  const undone = new Set(entries.filter(({ state }) => state !== "refused").map(({ event }) => event.corrects));
  const found = new Map(eye.receipts.map(({ id, kind, at, body }) => [id, { id, kind, at, body, operation: eye.operation, state: "received" }]));
  for (const { id, event, state } of entries) {
    if (event.operation !== eye.operation || state === "refused") continue;
    found.set(id, { id, kind: event.kind, at: event.at, body: event.body, operation: event.operation, state });
  }
  return [...found.values()].filter(({ id, kind }) => kind !== "withdrawal" && !undone.has(id));
}

// Hours in doubt since this phone's clock turned out wrong, as the clinic has them, with their eye: the answer moves their start.
export function unsureOf(eyes, entries) {
  const unsure = new Set(entries.filter((entry) => entry.unsure).map(({ id }) => id));
  return eyes.flatMap((eye) => {
    const stand = new Set(entriesOf(eye, entries).map(({ id }) => id));
    return eye.receipts.filter(({ id }) => unsure.has(id) && stand.has(id)).map(({ id, body }) => ({ id, body, operation: eye.operation, eye: eye.eye }));
  });
}
