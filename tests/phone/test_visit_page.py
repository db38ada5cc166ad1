"""The entry screen with a signal: one press of *Save* is one visit, and what cannot be kept without a signal is said.

Common practice, no source.
"""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { Part, parts } from "./parts.js";
import { Database } from "./indexed_db.js";

const byId = parts();
byId("kept-here").hidden = byId("alarm").hidden = true;
const heard = {};
const later = [];
globalThis.addEventListener = (kind, told) => { heard[kind] = told; };
globalThis.setTimeout = (work, after) => { later.push([work, after]); return later.length; };
console.info = () => {};
const field = (value) => Object.assign(new Part(), { value, selectedOptions: [{ text: "", dataset: {} }] });
const form = new Part();
const fields = { "right-iop": "45" };
form.elements = new Proxy({}, { get: (_all, name) => field(fields[name] ?? "") });
form.dataset = {
    limits: JSON.stringify({ lowest: 0, highest: 90, unlikely_below: 1, unlikely_above: 80, high_from: 30, low_at_most: 5 }),
    operation: "eye", about: "somebody", authorPass: "pass", sealingKey: "key",
};
let posts = 0;
form.submit = () => { posts += 1; };
document.querySelector = () => form;
let line = true;
globalThis.fetch = async (address) => {
    if (!line) throw new TypeError("no line");
    return { ok: true, status: 200, json: async () => ({}) };
};
const database = new Database();
if (given.kept) database.stores.facts.set("day-key", { publicKey: "no key at all" });
globalThis.indexedDB = { open: () => {
    const asked = {};
    queueMicrotask(() => {
        if (given.blocked) { asked.error = new DOMException("blocked", "InvalidStateError"); asked.onerror(); return; }
        asked.result = database;
        asked.onsuccess();
    });
    return asked;
} };
await import("./staff/visit.js");
const settle = async () => { for (let n = 0; n < 20; n += 1) await new Promise((done) => setImmediate(done)); };
const acts = {
    save: () => form.tell("submit"),
    shown: () => heard.pageshow?.(),
    waited: () => { for (const [work, after] of later.splice(0)) if (after >= 15000) work(); },
    line: () => { line = !line; },
};
answer = [];
for (const act of given.acts) {
    acts[act]();
    await settle();
    answer.push([posts, byId("kept-here").hidden ? null : byId("kept-here").textContent, byId("alarm").hidden]);
}
""".strip()


def posts(run: Run, *acts: str) -> list[int]:
    return [sent for sent, _, _ in run(SCRIPT, {"acts": acts})]


def test_save_pressed_twice_while_the_answer_is_slow_is_sent_once(run: Run) -> None:
    assert posts(run, "save", "save", "save") == [1, 1, 1]
    assert posts(run, "save", "shown", "save") == [1, 1, 2]  # gone back to, or shown again after a fault
    assert posts(run, "save", "waited", "save") == [1, 1, 2]  # the line hangs: pressed again, it answers


@pytest.mark.parametrize("fault", [{"blocked": True}, {"kept": True}])
def test_a_device_that_cannot_keep_an_entry_says_so_and_still_raises_the_alarm(run: Run, fault: dict[str, Any]) -> None:
    _, (sent, said, quiet) = run(SCRIPT, {"acts": ["line", "save"], **fault})
    assert (sent, said, quiet) == (0, "This could not be kept on this device. Write it on paper.", False)
    *_, (again, _, _) = run(SCRIPT, {"acts": ["line", "save", "line", "save"], **fault})
    assert again == 1


def test_a_device_on_which_nobody_signed_in_with_a_password_says_that_it_keeps_nothing(run: Run) -> None:
    _, (sent, said, _) = run(SCRIPT, {"acts": ["line", "save"]})
    assert sent == 0
    assert "this device cannot keep entries: leave this page open and try again." in said
