"""What the phone says of a wish for another time, until the clinic has answered it. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { wishOf } from "./patient/visits-view.js";

const { wish, entries, receipts } = given;
const eye = { operation: "e", receipts };
answer = wishOf(eye, { name: "week 1", wish }, { entries, pack: { made_at: "2027-03-05T10:00:00Z" } });
""".strip()


def entry(id: str, at: str, state: str, **changes: Any) -> dict[str, Any]:
    event = {"operation": "e", "kind": "visit-request", "at": at, "corrects": None, "body": {"visit": "week 1", "words": id}}
    return {"id": id, "state": state, "event": {**event, **changes}}


EARLY, LATE = "2027-03-05T09:00:00.000Z", "2027-03-05T11:00:00.000Z"
CLINIC = {"at": EARLY, "words": "a Friday"}


@pytest.mark.parametrize(
    ("wish", "entries", "told"),
    [
        (None, [], None),
        (CLINIC, [], (EARLY, "a Friday", "received")),
        (None, [entry("a", EARLY, "saved")], (EARLY, "a", "saved")),
        (None, [entry("a", EARLY, "received")], None),  # the clinic has answered: the pack no longer has it
        (None, [entry("a", LATE, "received")], (LATE, "a", "received")),  # no pack since
        (CLINIC, [entry("b", LATE, "saved")], (LATE, "b", "saved")),
        (CLINIC, [entry("b", LATE, "refused")], (EARLY, "a Friday", "received")),
        (None, [entry("b", LATE, "saved"), entry("c", LATE, "saved", kind="withdrawal", corrects="b")], None),
        (None, [entry("b", LATE, "saved", body={"visit": "week 2"})], None),
        (None, [entry("b", LATE, "saved", body={"visit": "week 1"})], (LATE, "", "saved")),
    ],
)
def test_the_wish_that_stands(run: Run, wish: Any, entries: list[Any], told: Any) -> None:
    found = run(SCRIPT, {"wish": wish, "entries": entries, "receipts": []})
    assert (found and (found["at"], found["words"], found["state"])) == told


def test_two_visits_of_one_name_have_a_wish_each(run: Run) -> None:
    """A wish says which visit it is about; one from before it did is shown at each of that name."""
    both = """
import { wishOf } from "./patient/visits-view.js";

const eye = { operation: "e", receipts: [] };
const of = (id) => wishOf(eye, { id, name: "week 1" }, { entries: given, pack: { made_at: "2027-03-05T10:00:00Z" } });
answer = ["1", "2"].map((id) => of(id)?.words ?? null);
    """.strip()
    named = entry("a", LATE, "saved", body={"visit": "week 1", "visit_id": "2", "words": "a Friday"})
    assert run(both, [named]) == [None, "a Friday"]
    assert run(both, [entry("a", LATE, "saved")]) == ["a", "a"]


ON_THE_PAGE = """
import { parts } from "./parts.js";
import { VisitsView } from "./patient/visits-view.js";

const byId = parts();
const kept = [];
const actions = {
    save: async (_kind, body) => { kept.push(body); await meanwhile?.(); return true; }, visitName: (_eye, { name }) => name,
    visitWords: (_eye, { name, target }) => `${name} ${target}`, show: () => show(),
};
const view = new VisitsView(actions);
let visits = [];
let meanwhile = null; // while a wish is being kept
const show = () => view.show({ eyes: [{ operation: "e", receipts: [], drops: [], visits }], entries: [], pack: { made_at: "2027-03-05" } });
const rows = () => byId("visit-list").children;
const acts = {
    visits: (known) => {
        visits = known.map((target, n) => ({ id: `${n + 1}`, name: "week 1", target, seen: false, wish: null }));
        show();
    },
    ask: async (n) => { await rows()[n ?? 0].children.find(({ listeners }) => listeners.click).tell("click"); },
    type: (words) => { byId("wish-words").value = words; },
    send: () => byId("wish").tell("submit"),
    "send, and meanwhile": async (deeds) => {
        meanwhile = async () => { for (const [act, what] of deeds) await acts[act](what); };
        await acts.send();
    },
    leave: () => byId("wish-not").tell("click"),
};
answer = [];
for (const [act, what] of given) {
    const before = rows();
    await acts[act](what);
    const form = byId("wish");
    const [shown, words] = [!form.hidden && form.isOnThePage, byId("wish-words").value];
    const days = rows().map(({ textContent }) => textContent);
    answer.push({ days, form: shown, words, anew: rows() !== before, kept: [...kept] });
}
""".strip()


def test_visits_that_change_while_somebody_writes_a_wish_are_shown_and_the_words_stay(run: Run) -> None:
    """Nobody has to close a form that they left open days ago before they see that their visit was moved."""
    begun = [["visits", ["2027-03-10"]], ["ask", None], ["type", "Fridays"], ["visits", ["2027-03-10"]]]
    told = run(ON_THE_PAGE, [*begun, ["visits", ["2027-03-12"]], ["visits", []], ["leave", None]])
    *_, same, moved, gone, left = told
    assert (same["days"], same["form"], same["anew"]) == (
        ["week 1 2027-03-10"],
        True,
        False,
    )  # whoever types keeps the keyboard
    assert (moved["days"], moved["form"], moved["words"]) == (["week 1 2027-03-12"], True, "Fridays")
    assert (gone["days"], gone["form"], gone["words"]) == ([], True, "Fridays")
    assert (left["days"], left["form"]) == ([], False)


def test_a_wish_says_which_visit_it_is_about(run: Run) -> None:
    told = run(ON_THE_PAGE, [["visits", ["2027-03-10", "2027-03-17"]], ["ask", 1], ["type", "Fridays"], ["send", None]])
    assert told[-1]["kept"] == [{"visit": "week 1", "visit_id": "2", "words": "Fridays"}]


@pytest.mark.parametrize(
    ("meanwhile", "form", "words"),
    [
        ([], False, ""),
        ([["ask", 1]], True, ""),  # what was sent is not asked for the other visit too
        ([["ask", 1], ["type", "Mondays"]], True, "Mondays"),
        ([["type", "Fridays, or Mondays"]], True, "Fridays, or Mondays"),
        ([["leave", None], ["ask", 0], ["type", "Mondays"]], True, "Mondays"),
    ],
)
def test_what_is_opened_or_written_while_a_wish_is_kept_stays(run: Run, meanwhile: Any, form: bool, words: str) -> None:
    begun = [["visits", ["2027-03-10", "2027-03-17"]], ["ask", 0], ["type", "Fridays"]]
    *_, told = run(ON_THE_PAGE, [*begun, ["send, and meanwhile", meanwhile]])
    assert (told["form"], told["words"]) == (form, words)
    assert told["kept"] == [{"visit": "week 1", "visit_id": "1", "words": "Fridays"}]
