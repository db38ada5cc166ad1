"""What goes wrong and when the clock's jobs ran, as rows."""

from datetime import timedelta

import pytest

from followup.records import Store, patients, watch
from followup.records.values import Fault
from tests.conftest import NOW

LATER = NOW + timedelta(minutes=5)
EVERY = timedelta(minutes=15)


def abouts(store: Store, what: str = "eye") -> list[str]:
    return [fault.about for fault in watch.faults(store) if fault.what == what]


def test_a_fault_that_comes_again_is_one_and_counts(store: Store) -> None:
    watch.note(store, NOW, "eye", "1", "the first time")
    watch.note(store, LATER, "eye", "1", "x" * 999)
    assert watch.faults(store) == [Fault("eye", "1", "x" * 300, NOW, LATER, 2)]


def test_faults_stand_the_latest_first(store: Store) -> None:
    for at, about in ((NOW, "1"), (LATER, "2")):
        watch.note(store, at, "eye", about, "")
    assert abouts(store) == ["2", "1"]


def test_what_went_well_again_is_no_fault(store: Store) -> None:
    for about in "12":
        watch.note(store, NOW, "eye", about, "")
    watch.clear(store, "eye", "1")
    watch.clear(store, "message", "2")
    assert abouts(store) == ["2"]


def test_after_a_pass_over_everything_only_what_it_noted_stays(store: Store) -> None:
    for what, at, about in (("eye", NOW, "1"), ("eye", LATER, "2"), ("row", NOW, "3")):
        watch.note(store, at, what, about, "")
    watch.clear_others(store, "eye", LATER)
    assert (abouts(store), abouts(store, "row")) == (["2"], ["3"])


def test_after_a_pass_over_some_the_others_are_left_alone(store: Store) -> None:
    for about in "123":
        watch.note(store, NOW, "eye", about, "")
    watch.note(store, LATER, "eye", "1", "")
    watch.clear_some(store, "eye", {"1", "2"}, LATER)
    assert sorted(abouts(store)) == ["1", "3"]


def test_what_was_not_met_since_a_time_is_no_fault(store: Store) -> None:
    for at, about in ((NOW, "1"), (LATER, "2")):
        watch.note(store, at, "row", about, "")
    watch.clear_older(store, "row", LATER)
    assert abouts(store, "row") == ["2"]
    watch.clear_all(store, "row")
    assert watch.faults(store) == []


def test_an_error_is_told_without_its_text(store: Store) -> None:
    try:
        patients.patient(store, object())
    except Exception as error:
        told = watch.words_of(error)
    assert told.startswith("ProgrammingError in store.py, line ") or told.startswith("InterfaceError in store.py, line ")


def test_whose_eye_a_fault_is_about(store: Store, eye_id: str) -> None:
    assert watch.patient_of(store, "eye", eye_id) == (eye_id, "Pat Patient", "T-1")
    (visit, *_) = store.rows("SELECT id FROM visits")
    assert watch.patient_of(store, "visits", visit["id"]) == (eye_id, "Pat Patient", "T-1")
    assert watch.patient_of(store, "job", eye_id) is watch.patient_of(store, "eye", "none") is None


@pytest.mark.parametrize(
    ("after", "taken"),
    [
        (timedelta(0), False),
        (EVERY - timedelta(seconds=6), False),
        (EVERY - timedelta(seconds=5), True),
        (EVERY, True),
        (timedelta(seconds=-5), False),
        (timedelta(seconds=-6), True),
        (timedelta(hours=-6), True),
    ],
)
def test_a_job_runs_once_in_its_interval_also_after_the_clock_was_set_back(
    store: Store, after: timedelta, taken: bool
) -> None:
    assert watch.take_run(store, NOW, "sweep", EVERY)
    assert watch.take_run(store, NOW + after, "sweep", EVERY) is taken


def test_jobs_run_apart_and_say_how_they_ended(store: Store) -> None:
    assert watch.take_run(store, NOW, "sweep", EVERY)
    assert watch.take_run(store, NOW, "backup", EVERY)
    watch.end_run(store, LATER, "sweep", "ok")
    runs = watch.runs(store)
    assert (runs["sweep"].started_at, runs["sweep"].ended_at, runs["sweep"].result) == (NOW, LATER, "ok")
    assert (runs["backup"].ended_at, runs["backup"].result) == (None, None)


def test_a_row_that_cannot_be_read_is_left_out_and_noted(store: Store) -> None:
    def opened(row: dict[str, int]) -> float:
        return 1 / row["id"]

    assert watch.readable(store, "visits", [{"id": 2}, {"id": 0}, {"id": 4}], opened) == [0.5, 0.25]
    (fault,) = watch.faults(store)
    assert (fault.what, fault.about) == ("row", "visits None")
