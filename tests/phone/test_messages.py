"""The choice of messages on the phone: read whenever its page is opened, and closed without a signal. Common practice, no source."""

from typing import Any

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { viewsOf } from "./patient/later/pages.js";

const byId = parts();
const fields = { email: {}, quiet_from: {}, quiet_to: {} };
byId("messages").elements = fields;
globalThis.location = { hash: given.hash };
Object.defineProperty(globalThis, "navigator", { value: {}, configurable: true });
let heard = () => {};
globalThis.window = { addEventListener: (kind, told) => {
    const before = heard;
    if (kind === "hashchange") heard = () => { before(); told(); };
} };
const asked = [];
let line = true;
const choices = { email: "", quiet_from: "21:00:00", quiet_to: "07:00:00", unwanted: [] };
globalThis.fetch = async (address) => {
    asked.push(address);
    if (!line) throw new TypeError("no line");
    return { ok: true, status: 200, json: async () => ({ push_key: "", email_possible: true, choices, may_invite: false, phones: [] }) };
};
const settled = () => new Promise((done) => setImmediate(() => setImmediate(done)));
viewsOf({}, {});
answer = [];
const told = async () => {
    await settled();
    const read = asked.filter((address) => address === "/api/v1/messages").length;
    answer.push([read, byId("messages").hidden ? "closed" : fields.quiet_from.value ?? "open"]);
};
await told();
for (const [hash, signal] of given.goes) {
    [location.hash, line] = [hash, signal];
    heard();
    await told();
}
""".strip()


def read(run: Run, hash: str, *goes: list[Any]) -> list[list[Any]]:
    return list(run(SCRIPT, {"hash": hash, "goes": goes}))


def test_what_was_chosen_is_read_when_the_page_is_opened_and_each_time_again(run: Run) -> None:
    told = read(run, "#more", ["#now", True], ["#more", True])
    assert told == [[1, "21:00"], [1, "21:00"], [2, "21:00"]]


def test_it_is_not_asked_for_on_other_pages_and_closed_without_a_signal(run: Run) -> None:
    told = read(run, "#history", ["#helpers", True], ["#more", False], ["#now", True], ["#more", True])
    assert [asked for asked, _ in told] == [0, 0, 1, 1, 2]
    assert [shown for _, shown in told][2:] == ["closed", "closed", "21:00"]
