"""A visit whose form is sent twice is one visit; what was changed in between is none of it lost. Common practice, no source."""

from typing import Any

from flask.testing import FlaskClient

from followup.records import Store, events, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import saying
from tests.pages import parsed
from tests.web.test_visit_entry import PLAIN


def opened(as_nurse: FlaskClient, eye_id: str) -> str:
    """The id of a form that was just opened."""
    return parsed(as_nurse.get(f"/clinic/eyes/{eye_id}/visit").text).one("input", name="entry").get("value")


def save(as_nurse: FlaskClient, eye_id: str, entry: str | None, **typed: Any) -> str:
    """Sends the form; returns what the page of the saved visit says."""
    form = {
        **PLAIN,
        **({} if entry is None else {"entry": entry}),
        **{f"right-{name}": value for name, value in typed.items()},
    }
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=form)
    assert answer.status_code == 303
    return parsed(as_nurse.get(answer.location).text).one("main").words


def kinds(store: Store, eye_id: str) -> list[str]:
    return sorted(event.kind for event in events.of_eye(store, eye_id))


def pressures(store: Store, eye_id: str) -> list[float | None]:
    return sorted(body.iop_mmhg or 0 for _, body in saying(events.of_eye(store, eye_id), MeasuresBody))


def test_a_form_that_is_sent_twice_is_one_visit_and_says_again_what_it_raised(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    entry = opened(as_nurse, eye_id)
    first, second = (save(as_nurse, eye_id, entry, iop="45") for _ in range(2))
    assert kinds(store, eye_id) == ["measures", "seen"]
    assert "45 mmHg" in first
    assert second == first
    assert len(worries.warnings_of(store, eye_id)) == len({w.rule for w in worries.warnings_of(store, eye_id)})
    assert opened(as_nurse, eye_id) != entry


def test_what_was_changed_before_it_is_sent_again_is_kept_beside_the_first(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    entry = opened(as_nurse, eye_id)
    save(as_nurse, eye_id, entry, iop="15")
    save(as_nurse, eye_id, entry, iop="25")
    assert pressures(store, eye_id) == [15, 25]
    save(as_nurse, eye_id, entry, iop="25", acuity="6/12")
    assert pressures(store, eye_id) == [15, 25, 25]


def test_two_forms_with_the_same_measures_are_two_visits(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    for entry in (opened(as_nurse, eye_id), opened(as_nurse, eye_id), None, None, "", "no id of a form"):
        save(as_nurse, eye_id, entry, iop="15")
    assert pressures(store, eye_id) == [15] * 6
