"""What entries say: the same value back from the database, what cannot be read stays visible, and nobody above reads it by name."""

import ast
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

import followup
from followup.care.reading.entries import entry, said
from followup.care.reading.eye import load
from followup.records import Store, events, watch
from followup.records.bodies.base import Illegible
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.kinds import KINDS, body_of, kept, kept_or_illegible, stored
from tests.conftest import NOW, ZONE

ABOVE = ("care", "web", "exchange", "calc", "jobs.py", "serving.py")
SAID: dict[str, dict[str, Any]] = {
    "symptoms": {"pain": 7, "vision": "worse", "curtain": False, "cannot_tell": ["flashes"], "words": "odd"},
    "posture": {"position": "face-down", "from": "2027-03-05T07:00:00Z", "to": "2027-03-05T08:00:00Z"},
    "bubble-seen": {"percent": 80.0},
    "journey": {"heights_metres": [20.0, 790.0]},
    "anaesthetic": {"words": "dentist"},
    "drops": {"name": "antibiotic"},
    "visit-request": {"visit": "week 1", "words": "a Friday"},
    "withdrawal": {"reason": "the wrong eye"},
    "measures": {"eye": "left", "acuity": "6/12-2", "iop_mmhg": 34.0, "findings": ["detached"], "notes": "seen twice"},
    "arrived": {"visit": "day 1", "visit_id": "v"},
    "seen": {"visit": "day 1", "visit_id": "v"},
    "did-not-come": {"visit": "day 1", "visit_id": "v", "on": "2027-03-03", "barrier": "forgot", "words": ""},
    "heard": {"words": "asleep, no pain"},
    "no-gas-seen": {},
    "tamponade-removed": {},
}


def test_every_kind_is_tried() -> None:
    assert set(SAID) == set(KINDS)


@pytest.mark.parametrize("kind", sorted(SAID))
def test_a_body_comes_back_as_it_was_kept_and_cannot_be_changed(kind: str) -> None:
    body = body_of(kind, SAID[kind])
    assert kind == body.KIND
    assert kept(kind, stored(body)) == body
    assert {name: value for name, value in stored(body).items() if name in SAID[kind]} == SAID[kind]
    for name in type(body).model_fields:
        with pytest.raises(ValidationError):
            setattr(body, name, None)


@pytest.mark.parametrize(
    ("kind", "row"),
    [
        ("symptoms", {"pain": 99}),
        ("measures", {"iop_mmhg": 15}),
        ("posture", {"from": "noon"}),
        ("of old", {"x": 1}),
        ("seen", {}),
    ],
)
def test_what_cannot_be_read_is_given_as_it_stands_there(kind: str, row: dict[str, Any]) -> None:
    body = kept_or_illegible(kind, row)
    assert body == Illegible(kept=row)
    assert stored(body) == row
    with pytest.raises((KeyError, ValueError)):
        kept(kind, row)


def test_an_entry_that_cannot_be_read_is_set_aside_shown_and_left_out_of_lists(store: Store, eye_id: str) -> None:
    events.add(store, "odd", eye_id, "seen", NOW, {"visit_id": 7}, "nurse:n", NOW)
    events.add(store, "well", eye_id, "seen", NOW, SAID["seen"], "nurse:n", NOW)
    eye = load(store, eye_id, ZONE)
    assert [event.id for event in eye.set_aside] == ["odd"]
    assert [event.id for event in eye.events] == ["well"]
    assert [event.id for event in events.of_kind(store, "seen")] == ["well"]
    assert any(fault.about == "events odd" for fault in watch.faults(store))
    told = entry(store, "odd", ZONE)
    assert told is not None
    assert told.words == "visit id 7"


def test_an_acuity_that_no_eye_can_have_is_set_aside_where_it_was_kept_once(store: Store, eye_id: str) -> None:
    events.add(store, "odd", eye_id, "measures", NOW, {"eye": "right", "acuity": "6/0", "iop_mmhg": 15}, "nurse:n", NOW)
    eye = load(store, eye_id, ZONE)
    assert (eye.events, [event.id for event in eye.set_aside]) == ([], ["odd"])
    told = entry(store, "odd", ZONE)
    assert told is not None
    assert told.words == "cannot be read"


def test_words_never_fail(store: Store) -> None:
    assert said(Illegible(kept={"iop_mmhg": None, "at": datetime(2027, 3, 2, tzinfo=UTC)}), ZONE)
    assert said(MeasuresBody(eye="right"), ZONE) == "right eye"


def _above() -> list[Path]:
    package = Path(followup.__file__).parent
    files = [*(package.parent / "demo_db").rglob("*.py")]
    for name in ABOVE:
        files += [package / name] if name.endswith(".py") else (package / name).rglob("*.py")
    return files


def test_nobody_above_the_records_reads_a_body_by_name() -> None:
    found = []
    for file in _above():
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            by_name = (
                isinstance(node, ast.Subscript)
                and isinstance(node.slice, ast.Constant)
                and isinstance(node.slice.value, str)
            )
            asked = isinstance(node, ast.Attribute) and node.attr == "get"
            if (by_name or asked) and ast.unparse(node.value).endswith("body"):
                found.append(f"{file}:{node.lineno} {ast.unparse(node)}")
    assert found == []
