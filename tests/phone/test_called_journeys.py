"""What a journey or an anaesthetic called for stands on the first screen, after a reload too, until the clinic has settled it.

Common practice, no source.
"""

from datetime import timedelta
from typing import Any

import pytest

from followup.clinical.surgery import Operation
from tests.conftest import OPERATED
from tests.phone.conftest import Run
from tests.phone.test_check import DAY, PHONES, Phone, as_sent
from tests.phone.test_journey import clear

SCRIPT = """
import { parts } from "./parts.js";
import { VerdictView } from "./patient/verdict-view.js";

answer = given.map(({ eyes, receipt, now, entries, verdicts, pack }) => {
    const byId = parts();
    Date.now = () => now;
    const view = new VerdictView({ eyes: () => eyes, nameOf: (operation) => operation, receipt: () => receipt, waits: () => true });
    view.show({ eyes, entries, verdicts, pack });
    return byId("verdict").hidden ? null : {
        title: byId("verdict-title").said, words: byId("verdict-words").said, stands: view.stands,
        emergency: !byId("verdict-emergency").hidden,
    };
});
""".strip()
AT = OPERATED + 3 * DAY
CURTAIN = {
    "level": "now",
    "words": ["a curtain"],
    "reasons": [],
    "complete": True,
    "looks": [],
    "at": AT.isoformat(),
}


def entry(
    made: dict[str, Any], kind: str, state: str = "saved", *, id: str = "a", days_ago: float = 0, **more: Any
) -> dict[str, Any]:
    """An entry as the phone has it, of the only eye of a pack."""
    at = (AT - timedelta(days=days_ago)).isoformat()
    body = {"heights_metres": [more.pop("metres", 2500)]} if kind == "journey" else {}
    return {
        "id": id,
        "state": state,
        "event": {"operation": made["eyes"][0]["operation"], "kind": kind, "at": at, "body": body, **more},
    }


def receipt(made: dict[str, Any], kind: str, *, settled: bool, id: str = "a") -> dict[str, Any]:
    """The pack with the same entry among its receipts."""
    event = entry(made, kind)["event"]
    got = {"id": id, "kind": kind, "at": event["at"], "body": event["body"], "settled": settled, "calling": False}
    return {**made, "eyes": [{**eye, "receipts": [got]} for eye in made["eyes"]]}


def says(run: Run, *cases: tuple[dict[str, Any], list[dict[str, Any]]], phone: Phone = PHONES[0], **more: Any) -> list[Any]:
    phones = [
        {
            **as_sent(phone, made),
            "entries": entries,
            "verdicts": {},
            "pack": {"made_at": made["made_at"], "ended": []},
            **more,
        }
        for made, entries in cases
    ]
    return list(run(SCRIPT, phones))


@pytest.mark.parametrize(("kind", "words"), [("journey", "high mountains"), ("anaesthetic", "Laughing gas")])
def test_it_stands_until_the_clinic_has_settled_it_or_it_was_taken_back(
    run: Run, packed: tuple[dict[str, Any], Operation], kind: str, words: str
) -> None:
    made, _ = packed
    mine = [entry(made, kind)]
    sent, late = [entry(made, kind, "received")], [entry(made, kind, "received", days_ago=2)]
    undone = entry(made, "withdrawal", id="b", corrects="a")
    standing = {
        "saved here": (made, mine),
        "on the way for days": (made, [entry(made, kind, days_ago=9)]),
        "received, and no pack since": (made, sent),
        "known to the clinic": (receipt(made, kind, settled=False), sent),
        "told on another phone": (receipt(made, kind, settled=False), []),
        "taken back in vain": (made, [*mine, {**undone, "state": "refused"}]),
        "the clinic could not take it": (made, [entry(made, kind, "refused")]),
    }
    for name, said in zip(standing, says(run, *standing.values()), strict=True):
        assert said, name
        assert (said["title"], said["stands"], said["emergency"]) == ("call-now", True, True), name
        assert f"kind-{kind}: " in said["words"], name
        assert words in said["words"], name
        assert ("2,500 m" in said["words"]) == (kind == "journey"), name
    over = {
        "settled": (receipt(made, kind, settled=True), sent),
        "settled, told on another phone": (receipt(made, kind, settled=True), []),
        "put right at the clinic": (made, late),
        "taken back": (made, [*mine, undone]),
        "could not be taken, and that was seen": (made, [{**entry(made, kind, "refused"), "seen": True}]),
        "the caution was lifted": (clear(made), mine),
    }
    assert dict(zip(over, says(run, *over.values()), strict=True)) == dict.fromkeys(over)


def test_a_journey_that_is_low_enough_calls_nobody_and_one_that_nobody_can_judge_any_more_does(
    run: Run, packed: tuple[dict[str, Any], Operation]
) -> None:
    made, _ = packed
    low = (made, [entry(made, "journey", metres=100)])
    assert says(run, low) == [None]
    (said,) = says(run, low, phone=Phone("stale", since=4 * DAY))
    assert said["title"] == "call-us"
    (high,) = says(run, (made, [entry(made, "journey")]), phone=Phone("stale", since=4 * DAY))
    assert (high["title"], "high mountains" in high["words"]) == ("call-now", True)


def test_gas_in_an_eye_that_is_followed_no_more_counts(run: Run, packed: tuple[dict[str, Any], Operation]) -> None:
    made, _ = packed
    none = clear(made)
    ended = {"made_at": made["made_at"], "ended": [{"eye": "left", "ended_on": "2027-03-04", "caution": True}]}
    case = (none, [entry(none, "journey")])
    assert says(run, case) == [None]
    assert [said["title"] for said in says(run, case, pack=ended)] == ["call-us"]


def test_it_stands_beside_what_a_check_called_for_and_neither_hides_the_other(
    run: Run, packed: tuple[dict[str, Any], Operation]
) -> None:
    made, _ = packed
    kept = {made["eyes"][0]["operation"]: CURTAIN}
    (said,) = says(run, (made, [entry(made, "journey")]), verdicts=kept)
    assert ("a curtain" in said["words"], "high mountains" in said["words"]) == (True, True)
    today = {made["eyes"][0]["operation"]: {**CURTAIN, "level": "today"}}
    (said,) = says(run, (made, [entry(made, "anaesthetic")]), verdicts=today)
    assert (said["title"], said["emergency"]) == ("call-now", True)
    assert said["words"].index("Laughing gas") < said["words"].index("a curtain")


@pytest.mark.parametrize(
    ("level", "cannot_wait"),
    [("now", True), ("today", True), ("call", True), ("again", False), ("this-week", False)],
)
def test_the_number_for_when_nobody_answers_stands_beside_every_call_that_cannot_wait(
    run: Run, packed: tuple[dict[str, Any], Operation], level: str, cannot_wait: bool
) -> None:
    made, _ = packed
    kept = {made["eyes"][0]["operation"]: {**CURTAIN, "level": level}}
    (said,) = says(run, (made, []), verdicts=kept)
    assert (said["title"], said["emergency"]) == ("call-us" if level == "call" else f"call-{level}", cannot_wait)


def test_a_planned_journey_that_calls_today_can_wait_until_somebody_answers(
    run: Run, packed: tuple[dict[str, Any], Operation]
) -> None:
    made, _ = packed
    (said,) = says(run, (made, [entry(made, "journey", metres=900)]))
    assert (said["title"], said["emergency"]) == ("call-today", False)


def told_elsewhere(made: dict[str, Any], *checks: tuple[str, float, dict[str, Any]]) -> dict[str, Any]:
    """The pack with checks that another phone told and nobody has settled: id, hours after `AT`, answers."""
    got = [
        {"id": id, "kind": "symptoms", "at": (AT + timedelta(hours=hours)).isoformat(), "body": body, "settled": False, "calling": True}
        for id, hours, body in checks
    ]  # fmt: skip
    return {**made, "eyes": [{**eye, "receipts": got} for eye in made["eyes"]]}


@pytest.mark.parametrize(
    ("kept", "hours_later", "said_again"),
    [("now", 1, False), ("today", 1, True), ("now", -1, True), ("today", -1, True)],
)
def test_what_was_told_elsewhere_stands_unless_a_check_here_since_then_calls_as_soon(
    run: Run, packed: tuple[dict[str, Any], Operation], kept: str, hours_later: int, said_again: bool
) -> None:
    made = told_elsewhere(packed[0], ("a", 0, {"pain": 9}))
    own = {**CURTAIN, "level": kept, "at": (AT + timedelta(hours=hours_later)).isoformat()}
    (said,) = says(run, (made, []), verdicts={made["eyes"][0]["operation"]: own})
    assert said["title"] == "call-now"
    assert "a curtain" in said["words"]
    assert ("kind-symptoms" in said["words"]) == said_again


def test_what_was_told_elsewhere_stands_at_its_own_time_and_the_same_once(
    run: Run, packed: tuple[dict[str, Any], Operation]
) -> None:
    made = told_elsewhere(packed[0], ("a", -5, {"pain": 9}), ("b", -3, {"pain": 9}), ("c", -1, {"curtain": True}))
    (said,) = says(run, (made, []))
    assert (said["title"], said["words"].count("kind-symptoms")) == ("call-now", 2)
    (of_pain, of_curtain) = (part.split("kind-symptoms")[0] for part in said["words"].split("kind-symptoms: ")[1:])
    (later,) = says(run, (told_elsewhere(packed[0], ("b", -3, {"pain": 9})), []))
    assert later["words"].strip() == f"kind-symptoms: {of_pain.strip()}"  # the later of the two that say the same
    assert "curtain" in of_curtain.lower() or "shadow" in of_curtain.lower()


def test_what_the_clinic_has_after_all_is_not_hidden_by_a_refusal(
    run: Run, packed: tuple[dict[str, Any], Operation]
) -> None:
    made = told_elsewhere(packed[0], ("a", 0, {"pain": 9}))
    sealed = {
        "id": "a",
        "state": "refused",
        "event": {"operation": None, "kind": "sealed", "at": AT.isoformat(), "body": {}},
    }
    (said,) = says(run, (made, [sealed]))
    assert said["title"] == "call-now"
