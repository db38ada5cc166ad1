"""The list of what was entered, while somebody writes why they take one of them back. Common practice, no source."""

from typing import Any

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { EntriesView } from "./patient/entries-view.js";

const byId = parts();
byId("take-back").hidden = true;
const kept = [];
const takeBack = async ([{ id }], reason) => { kept.push([id, reason]); return true; };
const view = new EntriesView({ takeBack, show: () => show(), canChange: () => false });
let entries = [];
let receipts = [];
const names = new Map([["e", "right"]]);
const show = () => view.show({ eyes: [{ operation: "e", receipts }], names, entries, pack: { used_by: "patient" } });
const event = (id, kind, more = {}) => ({ id, kind, operation: "e", at: `2027-03-05T1${id}:00:00Z`, body: {}, ...more });
const rows = () => byId("entries").children;
const acts = {
    mine: (known) => {
        entries = known.map(([id, state, more]) => ({ id, state, event: event(id, "drops", more) }));
        show();
    },
    others: (ids) => { receipts = ids.map((id) => event(id, "symptoms", { by: "carer", name: "Ana" })); show(); },
    open: async (id) => {
        const row = rows().find(({ said }) => said.includes("kind-drops") && said.includes(`1${id}:00`));
        await row.children.find(({ listeners }) => listeners?.click).tell("click");
    },
    type: (words) => { byId("take-back-words").value = words; },
    draw: () => show(),
    send: () => byId("take-back").tell("submit"),
};
process.env.TZ = "UTC";
answer = [];
for (const [act, what] of given) {
    const before = rows()[0];
    await acts[act](what);
    const form = byId("take-back");
    const at = rows().findIndex((row) => form.parent === row);
    const [shown, said] = [!form.hidden && form.isOnThePage, rows().map((row) => row.textContent)];
    answer.push({ said, form: shown, at, words: byId("take-back-words").value, anew: rows()[0] !== before, kept: [...kept] });
}
""".strip()
OPEN: list[list[Any]] = [["mine", [["1", "saved"], ["2", "saved"]]], ["open", "1"], ["type", "the other bottle"]]


def test_what_comes_meanwhile_is_shown_and_the_reason_stays_with_its_entry(run: Run) -> None:
    acts = [*OPEN, ["draw", None], ["mine", [["1", "received"], ["2", "received"]]], ["others", ["3"]], ["send", None]]
    _, opened, _, same, received, more, sent = run(SCRIPT, acts)
    assert (opened["form"], opened["at"]) == (True, 1)
    assert (same["anew"], same["form"], same["at"]) == (False, True, 1)  # whoever types keeps the keyboard
    assert all("received" in said for said in received["said"])
    assert (received["form"], received["at"], received["words"]) == (True, 1, "the other bottle")
    assert "kind-symptoms" in more["said"][0]
    assert (more["form"], more["at"], more["words"]) == (True, 2, "the other bottle")
    assert (sent["kept"], sent["form"]) == ([["1", "the other bottle"]], False)


def test_the_reason_stays_where_its_entry_is_taken_back_elsewhere(run: Run) -> None:
    gone = [["1", "received"], ["2", "received"], ["4", "received", {"kind": "withdrawal", "corrects": "1"}]]
    *_, told = run(SCRIPT, [*OPEN, ["mine", gone]])
    assert "taken-back" in told["said"][1]
    assert (told["form"], told["at"], told["words"]) == (True, -1, "the other bottle")
