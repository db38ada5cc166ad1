"""What a visit takes beyond one number each: two acuities, what could not be read, pressure by finger, what is right."""

from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.records import Store, events, eyes, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.kinds import stored
from followup.records.values import saying
from tests.pages import faults_in, parsed
from tests.web.test_discharge_pages import VISIT

PLAIN = {key: value for key, value in VISIT.items() if not key.startswith("right-")}
PLAIN |= {"right-correction": "unaided", "right-instrument": "rebound"}


def saved(as_nurse: FlaskClient, store: Store, eye_id: str, **fields: Any) -> dict[str, Any]:
    """The body that a visit leaves for the right eye."""
    form = {**PLAIN, **{f"right-{name}": value for name, value in fields.items()}}
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=form)
    assert answer.status_code == 303, faults_in(answer.text)
    return next(stored(body) for _, body in saying(events.of_eye(store, eye_id), MeasuresBody))


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ({"acuity": "6/60", "correction": "unaided", "pinhole": "6/12"}, {"acuity": "6/60", "pinhole": "6/12"}),
        (
            {"acuity": "60", "correction": "unaided", "pinhole": "12-1", "notation": "6/"},
            {"acuity": "6/60", "pinhole": "6/12-1"},
        ),
        ({"acuity": "70", "notation": "letters"}, {"acuity": "70", "notation": "letters"}),
        ({"pinhole": "6/12"}, {"pinhole": "6/12"}),
        ({"acuity_not": "unable"}, {"acuity_not": "unable"}),
        ({"iop_not": "refused"}, {"iop_not": "refused"}),
        ({"finger": "normal"}, {"finger": "normal"}),
        ({"findings": ["attached", "hole-closed"]}, {"findings": ["attached", "hole-closed"]}),
    ],
)
def test_what_was_found_is_kept_as_it_was_said(
    as_nurse: FlaskClient, store: Store, eye_id: str, typed: dict[str, Any], kept: dict[str, Any]
) -> None:
    body = saved(as_nurse, store, eye_id, **typed)
    assert {key: body[key] for key in kept} == kept
    assert body.get("iop_mmhg") is None
    if "notation" not in kept:
        assert body.get("notation") is None


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"acuity": "6/12", "acuity_not": "refused"}, "take one away"),
        ({"iop": "15", "iop_not": "unable"}, "take one away"),
        ({"finger": "soft", "iop_not": "unable"}, "take one away"),
        ({"acuity": "6/12", "correction": "pinhole", "pinhole": "6/9"}, "with what the first was read"),
        ({"findings": ["attached", "detached"]}, "cannot both be"),
        ({"findings": ["hole-closed", "hole-open"]}, "cannot both be"),
        ({"pinhole": "6/0"}, "zero"),
        ({"acuity": "70", "notation": "6/"}, "say which"),
    ],
)
def test_what_cannot_both_be_is_asked_back(
    as_nurse: FlaskClient, store: Store, eye_id: str, typed: dict[str, Any], says: str
) -> None:
    form = {**PLAIN, **{f"right-{name}": value for name, value in typed.items()}}
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=form)
    assert answer.status_code == 400
    assert says in answer.text
    assert events.of_eye(store, eye_id) == []


@pytest.mark.parametrize(("finger", "worry"), [("hard", "pressure"), ("soft", "low-pressure"), ("normal", None)])
def test_an_eye_that_feels_hard_or_soft_calls_somebody(
    as_nurse: FlaskClient, store: Store, eye_id: str, finger: str, worry: str | None
) -> None:
    saved(as_nurse, store, eye_id, finger=finger)
    assert [c.worry for c in worries.open_callbacks(store) if "pressure" in c.worry] == ([worry] if worry else [])
    assert f"pressure by finger {finger}" in as_nurse.get(f"/clinic/eyes/{eye_id}").text


def chosen_chart(page: str) -> str:
    return str(parsed(page).one("select", name="right-notation").sends["right-notation"])


@pytest.mark.parametrize(
    ("typed", "chart"),
    [
        ({"acuity": "6/12"}, "6/"),
        ({"acuity": "20/40"}, "20/"),
        ({"acuity": "70", "notation": "letters"}, "letters"),
        ({"acuity": "CF"}, ""),
    ],
)
def test_the_chart_in_use_is_remembered(
    as_nurse: FlaskClient, store: Store, eye_id: str, typed: dict[str, Any], chart: str
) -> None:
    saved(as_nurse, store, eye_id, **typed)
    assert chosen_chart(as_nurse.get(f"/clinic/eyes/{eye_id}/visit").text) == chart


def test_what_is_found_can_be_corrected_and_nothing_else_changes(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    saved(as_nurse, store, eye_id, acuity="6/60", correction="unaided", pinhole="6/12", finger="normal")
    (entry,) = [e for e in events.of_eye(store, eye_id) if e.kind == "measures"]
    said = parsed(as_nurse.get(f"/clinic/entries/{entry.id}/correct").text).sends
    shown = {"acuity": "6/60", "pinhole": "6/12", "finger": "normal"}
    assert {name: said[f"measures-{name}"] for name in shown} == shown


def test_both_acuities_and_pressure_by_finger_stand_where_the_last_measures_do(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    saved(as_nurse, store, eye_id, acuity="6/60", correction="unaided", pinhole="6/12", finger="hard")
    (call,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    known = eyes.eye(store, eye_id)
    assert known
    for page in (f"/clinic/patients/{known.patient.id}", f"/clinic/callbacks/{call.id}"):
        shown = as_nurse.get(page).text
        assert "<strong>6/60</strong> unaided, <strong>6/12</strong> pinhole" in shown
        assert "<strong>hard, by finger</strong>" in shown
