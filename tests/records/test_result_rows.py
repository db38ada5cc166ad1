"""What each eye contributes to the results, as rows: what is old, and sums that were counted by hand.

Common practice, no source.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from followup.records import Store, kept_results, watch
from followup.records.kept_results import Asked, Sums
from followup.records.store import new_id
from followup.records.values import Contribution, OperationResult
from tests.conftest import NOW
from tests.records.rows import person, right

DAY = date(2027, 3, 2)
LATER = NOW + timedelta(days=1)
SECOND = timedelta(seconds=1)
OPERATION = OperationResult(
    operation_id="", eye_id="", number=1, surgeon="Sol Surgeon", agent="c2f6", indication="macular-hole", day=DAY,
    counted_from=NOW, last_look=LATER, detached_at=None, days_followed=1.0, detached=False, under_liquid=False,
    highest_early_mmhg=24.0, before_logmar=1.0, sight="better",
)  # fmt: skip
EYE = Contribution(
    eye_id="", since=None, until=None, operated_at=NOW, state="attached", once=True, last_logmar=0.3, visits=4, visits_seen=3,
    calls=2, calls_in_time=1, hours_to_claim=[0.5, 2.0], operations=(),
)  # fmt: skip
Add = Callable[..., Contribution]


@pytest.fixture
def add(store: Store) -> Add:
    """Keeps what one new patient's right eye contributes: one dict of changes for each of its operations."""

    def kept(*operations: dict[str, Any], **changes: Any) -> Contribution:
        patient = person(store, new_id())
        eye = right(store, patient).id
        of = (replace(OPERATION, operation_id=new_id(), eye_id=eye, number=n, **o) for n, o in enumerate(operations, 1))
        one = replace(EYE, eye_id=eye, operations=tuple(of), **changes)
        kept_results.put(store, patient.id, "", [one])
        return one

    return kept


def whose(store: Store, one: Contribution) -> str:
    (row,) = store.rows("SELECT patient_id FROM eyes WHERE id = :id", {"id": one.eye_id})
    return str(row["patient_id"])


def old(store: Store, now: datetime = NOW, most: int = 99) -> list[str]:
    return [id for id, _ in kept_results.changed(store, now, most)]


def sums(store: Store, edge: float = 30, **asked: Any) -> Sums:
    return kept_results.sums(store, Asked(**asked), edge)


def test_what_an_eye_contributes_is_read_as_it_was_put(store: Store, add: Add) -> None:
    one = add({}, {"sight": None, "detached": None, "days_followed": None, "counted_from": None}, since=NOW, until=LATER)
    assert kept_results.kept(store, whose(store, one)) == [one]
    bare = add(state=None, once=None, last_logmar=None, hours_to_claim=[])
    assert kept_results.kept(store, whose(store, bare)) == [bare]


def test_both_eyes_stand_with_their_own_operations_in_order(store: Store) -> None:
    patient = person(store)
    for_eye = {
        eye: tuple(replace(OPERATION, operation_id=f"{eye}{n}", eye_id=eye, number=n) for n in (2, 1)) for eye in "ba"
    }
    kept_results.put(store, patient.id, "", [replace(EYE, eye_id=eye, operations=of) for eye, of in for_eye.items()])
    found = kept_results.kept(store, patient.id)
    assert [(one.eye_id, [o.operation_id for o in one.operations]) for one in found] == [
        ("a", ["a1", "a2"]),
        ("b", ["b1", "b2"]),
    ]


def test_what_is_put_takes_the_place_of_all_that_stood_there(store: Store, add: Add) -> None:
    one = add({}, {})
    kept_results.put(store, whose(store, one), "", [replace(one, visits=9, operations=one.operations[:1])])
    assert (sums(store).visits, sums(store).operations) == (9, 1)
    kept_results.put(store, whose(store, one), "", [])
    assert kept_results.kept(store, whose(store, one)) == []


def mark(store: Store, patient_id: str, version: str) -> None:
    store.put("changed_results", {"patient_id": patient_id, "version": version})


def test_what_changed_while_it_was_worked_out_is_not_put(store: Store, add: Add) -> None:
    one = add({})
    patient = whose(store, one)
    mark(store, patient, "second")
    kept_results.put(store, patient, "first", [])
    assert kept_results.kept(store, patient) == [one]
    assert kept_results.changed(store, NOW, 9) == [(patient, "second")]
    kept_results.put(store, patient, "second", [])
    assert (kept_results.kept(store, patient), old(store)) == ([], [])


@pytest.mark.parametrize(
    ("since", "until", "is_old"),
    [
        (None, None, False),
        (NOW, None, False),
        (NOW + SECOND, None, True),
        (None, NOW, True),
        (None, NOW + SECOND, False),
        (NOW, NOW + SECOND, False),
    ],
)
def test_time_alone_makes_a_contribution_old_from_its_end_on_and_before_its_beginning(
    store: Store, add: Add, since: datetime | None, until: datetime | None, is_old: bool
) -> None:
    one = add({}, since=since, until=until)
    assert old(store) == ([whose(store, one)] if is_old else [])


def test_who_changed_and_is_past_its_time_too_is_named_once_with_the_mark(store: Store, add: Add) -> None:
    patient = whose(store, add({}, until=NOW))
    assert kept_results.changed(store, NOW, 9) == [(patient, "")]
    mark(store, patient, "one")
    assert kept_results.changed(store, NOW, 9) == [(patient, "one")]


def test_what_failed_is_tried_again_in_the_next_pass_and_not_in_this_one(store: Store, add: Add) -> None:
    one = add({})
    watch.note(store, NOW, "results", one.eye_id, "odd")
    assert old(store, NOW) == []
    assert old(store, LATER) == [whose(store, one)]
    watch.clear(store, "results", one.eye_id)
    assert old(store, LATER) == []


def test_a_fault_of_another_kind_makes_no_result_old(store: Store, add: Add) -> None:
    watch.note(store, NOW, "eye", add({}).eye_id, "odd")
    assert old(store, LATER) == []


def test_no_more_are_named_than_asked(store: Store, add: Add) -> None:
    marked = [whose(store, add({}, until=NOW)) for _ in range(3)]
    assert len(old(store, most=2)) == 2
    for patient in marked:
        kept_results.put(store, patient, "", [])
        mark(store, patient, "one")
    assert len(old(store, most=2)) == 2


def test_a_clinic_without_operations_counts_nothing(store: Store) -> None:
    assert sums(store) == Sums(
        operations=0, eyes=0, under_liquid=0, followed=[], spikes=[], sight={}, ends=0, once=0, attached=0, liquid_left=0,
        visits=0, visits_seen=0, calls=0, calls_in_time=0, hours_to_claim=[],
    )  # fmt: skip


def test_three_eyes_add_up_as_they_do_by_hand(store: Store, add: Add) -> None:
    add({"days_followed": 9.0}, {"days_followed": 4.0, "detached": True, "sight": "same"})
    add({"under_liquid": True, "days_followed": None, "sight": "worse"}, state="under-liquid", once=False, hours_to_claim=[])
    add({"sight": None, "days_followed": 4.0}, state=None, once=None, visits=1, visits_seen=0, calls=0, calls_in_time=0)
    assert sums(store) == Sums(
        operations=4, eyes=3, under_liquid=1, followed=[(4.0, True), (4.0, False), (9.0, False)], spikes=[("2027-03", 0, 4)],
        sight={"better": 1, "worse": 1}, ends=2, once=1, attached=1, liquid_left=1, visits=9, visits_seen=6, calls=4,
        calls_in_time=2, hours_to_claim=[0.5, 2.0, 0.5, 2.0],
    )  # fmt: skip


def test_spikes_count_from_the_edge_on_by_month_among_those_that_were_measured(store: Store, add: Add) -> None:
    for pressure, month in ((29.9, 3), (30.0, 3), (41.0, 2), (None, 2), (None, 4)):
        add({"highest_early_mmhg": pressure, "day": date(2027, month, 28)})
    assert sums(store, 30).spikes == [("2027-02", 1, 1), ("2027-03", 1, 2)]
    assert sums(store, 30.1).spikes == [("2027-02", 1, 1), ("2027-03", 0, 2)]


def test_sight_of_an_eye_counts_once_from_before_the_first_of_the_operations_asked_for(store: Store, add: Add) -> None:
    add({"sight": "worse", "agent": "sf6"}, {"sight": "better"}, {"sight": "same"})
    assert sums(store).sight == {"worse": 1}
    assert sums(store, agent="c2f6").sight == {"better": 1}


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({}, 3),
        ({"surgeon": "Sol Surgeon"}, 2),
        ({"surgeon": "Nobody"}, 0),
        ({"agent": "sf6"}, 1),
        ({"indication": "macular-hole"}, 2),
        ({"first_day": DAY}, 2),
        ({"last_day": DAY}, 2),
        ({"first_day": DAY, "last_day": DAY}, 1),
        ({"last_day": DAY - timedelta(days=2)}, 0),
        ({"surgeon": "Sol Surgeon", "agent": "sf6", "indication": "macular-hole"}, 1),
        ({"surgeon": "Sue Surgeon", "agent": "sf6", "indication": "macular-hole"}, 0),
    ],
)
def test_which_operations_are_asked_for(store: Store, add: Add, asked: dict[str, Any], found: int) -> None:
    add({"day": DAY - timedelta(days=1), "indication": "retinal-detachment"}, {"day": DAY, "surgeon": "Sue Surgeon"})
    add({"day": DAY + timedelta(days=1), "agent": "sf6", "indication": "macular-hole"})
    assert sums(store, **asked).operations == len(list(kept_results.listed(store, Asked(**asked)))) == found


def test_an_eye_counts_its_visits_and_calls_once_however_often_it_was_operated(store: Store, add: Add) -> None:
    add({}, {}, {})
    found = sums(store)
    assert (found.eyes, found.visits, found.calls, found.ends, found.hours_to_claim) == (1, 4, 2, 1, [0.5, 2.0])


def test_eyes_without_an_operation_that_was_asked_for_count_nothing(store: Store, add: Add) -> None:
    add({"surgeon": "Sue Surgeon"})
    found = sums(store, surgeon="Sol Surgeon")
    assert (found.eyes, found.visits, found.calls, found.ends, found.hours_to_claim) == (0, 0, 0, 0, [])


def test_the_table_stands_by_when_each_eye_was_last_operated(store: Store, add: Add) -> None:
    late, early = add({}, {"agent": "sf6"}, operated_at=LATER), add({}, operated_at=NOW)
    listed = list(kept_results.listed(store, Asked()))
    assert [one.operation for one in listed] == [*early.operations, *late.operations]
    assert {one.side for one in listed} == {"right"}
    assert [(one.state, one.once, one.last_logmar) for one in listed] == [("attached", True, 0.3)] * 3


def test_the_table_names_the_patient_by_the_number_of_the_hospital(store: Store, add: Add) -> None:
    one = add({})
    (row,) = store.rows("SELECT number FROM patients WHERE id = :id", {"id": whose(store, one)})
    assert [listed.patient_number for listed in kept_results.listed(store, Asked())] == [row["number"]]
