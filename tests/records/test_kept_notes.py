"""Operation notes as they are kept: the same value back, and old rows that stay readable or at least visible."""

from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from followup.care.reading.eye import operation_of
from followup.clinical.errors import ClinicalError
from followup.records.operation_note import Drop, OperationNote, between, kept_note
from followup.records.times import to_text
from tests.conftest import OPERATED, ZONE, operation_note

COLUMNS = {"eye": "right", "operated_at": to_text(OPERATED), "agent": "c2f6", "surgeon": "Sol Surgeon"}


def test_a_note_comes_back_as_it_was_written() -> None:
    drops = [{"name": "antibiotic", "times_a_day": 4, "until": date(2027, 3, 9)}]
    written = operation_note(steps=["laser"], drops=drops, notes="dictated", height_metres=171)
    kept = kept_note(COLUMNS, written.body(ZONE))
    assert between(written, kept) == []
    assert kept.steroid_end(ZONE) == written.steroid_end(ZONE)
    assert operation_of(kept, ZONE) == operation_of(written, ZONE)
    assert kept_note(COLUMNS, kept.body(ZONE)) == kept


def test_the_end_of_steroid_drops_is_kept_also_where_their_last_day_was_not() -> None:
    body = operation_note().body(ZONE)
    del body["steroid_last_day"]  # as the first versions kept it
    kept = kept_note(COLUMNS, body)
    assert kept.steroid_end(ZONE) == operation_note().steroid_end(ZONE)
    assert kept_note(COLUMNS, kept.model_copy(update={"notes": "changed"}).body(ZONE)).steroid_end(ZONE) is not None


@pytest.mark.parametrize(
    "drops",
    [
        [{"name": "x" * 90, "times_a_day": 4, "until": "2027-03-09"}],
        [{"name": "", "times_a_day": 40, "until": "2027-03-09"}],
        [{"name": f"drop {n}", "times_a_day": 1, "until": "2027-03-09"} for n in range(13)],
    ],
)
def test_limits_hold_for_what_is_written_and_not_for_what_was_kept(drops: list[dict[str, Any]]) -> None:
    kept = kept_note(COLUMNS, {**operation_note().body(ZONE), "drops": drops})
    assert [drop.name for drop in kept.drops] == [drop["name"] for drop in drops]
    assert operation_of(kept, ZONE).lens == "phakic"
    with pytest.raises(ValidationError):
        OperationNote.model_validate({**operation_note().model_dump(), "drops": drops})


def test_a_note_that_cannot_be_read_still_says_which_eye_it_is_about_and_passes_for_no_operation() -> None:
    kept = kept_note(COLUMNS, {**operation_note().body(ZONE), "percent": "much"})
    assert (kept.eye, kept.agent, kept.surgeon) == ("right", "c2f6", "Sol Surgeon")
    with pytest.raises(ClinicalError):
        operation_of(kept, ZONE)


def test_a_drop_is_what_was_prescribed_and_never_changed_in_place() -> None:
    drop = Drop(name="antibiotic", times_a_day=4, until=date(2027, 3, 9))
    with pytest.raises(ValidationError):
        drop.times_a_day = 6  # type: ignore[misc]
