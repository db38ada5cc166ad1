"""*Make a code* tapped twice, on a line as slow as it likes, makes one code. Common practice, no source."""

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { HelpersView } from "./patient/later/helpers-view.js";

const byId = parts();
const later = [];
globalThis.location = { hash: "" };
globalThis.window = { addEventListener() {} };
Object.defineProperty(globalThis, "navigator", { value: {}, configurable: true });
globalThis.setTimeout = (work) => later.push(work);
const waiting = [];
globalThis.fetch = () => new Promise((answered) => waiting.push(answered));
new HelpersView();
const tap = () => { byId("invite").tell("submit"); };
const settle = () => new Promise((done) => setImmediate(() => setImmediate(done)));
const come = async () => {
    await settle();
    waiting.at(-1)({ ok: true, status: 200, json: async () => ({ code: `ABCD000${waiting.length}`, page: "/me", link: "" }) });
    await settle();
};
answer = [];
const note = () => settle().then(() => answer.push([waiting.length, byId("invited-code").textContent]));
tap(); tap();
await note();
await come();
tap(); // by now it is made
await note();
for (const work of later.splice(0)) work();
tap(); // somebody else is let in
await note();
await come();
await note();
""".strip()


def test_a_double_tap_makes_one_code(run: Run) -> None:
    assert run(SCRIPT, None) == [[1, ""], [1, "ABCD 0001"], [2, "ABCD 0001"], [2, "ABCD 0002"]]
