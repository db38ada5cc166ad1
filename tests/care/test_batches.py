"""A phone's batch is one commit and one evaluation, with the warnings that its entries give when each comes at its own time."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from datetime import datetime, timedelta, tzinfo
from random import Random
from threading import Event
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.care.home import receive, senders
from followup.care.watch.raising import check_eye
from followup.protocols import book
from followup.records import Store, audit, backup, events, worries
from followup.records.store import DatabaseFault, RowRefused, new_id
from followup.records.values import Device, Warning
from tests.conftest import NOW, ZONE, until

ABSENT = {"silence", "no-posture-entry", "posture-missed", "missed-visit"}
"""Checks that find what did not come."""
LATER = NOW + timedelta(days=6)
Entries = list[dict[str, Any]]

trends = st.sampled_from(["better", "same", "same", "worse"])
bodies = st.one_of(
    st.tuples(
        st.just("symptoms"),
        st.fixed_dictionaries(
            {},
            optional={
                "pain": st.integers(0, 10),
                "vision": trends,
                "redness": trends,
                "floaters": trends,
                "curtain": st.booleans(),
                "discharge": st.booleans(),
                "vomiting": st.booleans(),
                "words": st.sampled_from(["", "it itches"]),
            },
        ).filter(bool),
    ),
    st.tuples(st.just("bubble-seen"), st.fixed_dictionaries({"percent": st.integers(0, 100)})),
    st.tuples(st.just("journey"), st.fixed_dictionaries({"heights_metres": st.just([20, 1500])})),
    st.tuples(st.just("anaesthetic"), st.just({})),
)
hours = st.floats(0, 6 * 24 - 0.5, allow_nan=False).map(lambda h: NOW + timedelta(hours=h))
batches = st.lists(
    st.tuples(hours, bodies), min_size=1, max_size=12, unique_by=lambda one: one[0]
)  # nobody answers twice at once


def entry(eye_id: str, at: datetime, kind: str, body: dict[str, Any], **changes: Any) -> dict[str, Any]:
    usual = {"id": new_id(), "operation": eye_id, "kind": kind, "at": at.isoformat(), "offset_minutes": 60, "sequence": 1}
    return {**usual, "by": "patient", "body": body, **changes}


class Undo(Exception):
    """Nothing of it has happened."""


@contextmanager
def tried(store: Store) -> Iterator[None]:
    with suppress(Undo), store.transaction():
        yield
        raise Undo


def given_by(store: Store, eye_id: str) -> tuple[set[tuple[str, datetime]], dict[str, str]]:
    """Every warning by rule and time, and every open worry with how soon somebody has to call, some days later."""
    check_eye(store, eye_id, LATER, ZONE)
    warnings = {(w.rule, w.raised_at) for w in worries.warnings_of(store, eye_id)}
    return warnings, {c.worry: c.how_soon for c in worries.open_callbacks(store)}


def test_a_batch_gives_the_warnings_that_its_entries_give_each_at_its_own_time(
    store: Store, device: Device, eye_id: str
) -> None:
    rules = {rule.id: rule for rule in book.rulebook().rules}
    only_late = set[str]()

    @given(batches, st.randoms(use_true_random=False))
    def same(batch: list[tuple[datetime, tuple[str, dict[str, Any]]]], random: Random) -> None:
        in_time = [entry(eye_id, at, kind, body) for at, (kind, body) in sorted(batch, key=lambda one: one[0])]
        with tried(store):
            shuffled = random.sample(in_time, len(in_time))
            assert {r.status for r in receive.receive(store, LATER, device, shuffled, ZONE)} == {"received"}
            together = given_by(store, eye_id)
        with tried(store):
            for one in in_time:
                receive.receive(store, datetime.fromisoformat(one["at"]), device, [one], ZONE)
            assert together == given_by(store, eye_id)
        with tried(store):
            for one in in_time:
                receive.receive(store, LATER, device, [one], ZONE)
            late_and_alone, _ = given_by(store, eye_id)
        assert together[0] <= late_and_alone
        too_many = {rule for rule, _ in late_and_alone - together[0]}
        only_late.update(too_many)
        assert all(rules[id].check in ABSENT or rules[id].second_look for id in too_many), "only what the next entry answers"

    same()
    assert only_late


def test_a_batch_is_one_commit_and_one_judgement(
    store: Store, device: Device, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged, judge = [], receive.raise_signs_of_patient

    def counted(store: Store, patient_id: str, now: datetime, zone: tzinfo) -> list[Warning]:
        judged.append(patient_id)
        return judge(store, patient_id, now, zone)

    monkeypatch.setattr(receive, "raise_signs_of_patient", counted)
    said: list[str] = []
    store.db.conn.set_trace_callback(said.append)
    sent = [entry(eye_id, NOW - timedelta(hours=n), "symptoms", {"pain": 1}) for n in range(20)]
    assert {r.status for r in receive.receive(store, NOW, device, sent, ZONE)} == {"received"}
    store.db.conn.set_trace_callback(None)
    assert (said.count("COMMIT"), len(judged)) == (1, 1)
    assert len(events.of_eye(store, eye_id)) == 20
    assert len([e for e in audit.of_subject(store, eye_id) if e["action"] == "event symptoms"]) == 20
    assert backup.faults(store) == []


def test_nothing_is_acknowledged_that_is_not_on_the_disk(
    store: Store, device: Device, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The database fails at the last entry: the phone hears of none, and keeps all."""

    def full(*_: Any, **__: Any) -> None:
        raise DatabaseFault("database or disk is full")

    sent = [entry(eye_id, NOW, "symptoms", {"pain": n}) for n in range(3)]
    monkeypatch.setattr(receive, "raise_signs_of_patient", full)
    with pytest.raises(DatabaseFault):
        receive.receive(store, NOW, device, sent, ZONE)
    assert events.of_eye(store, eye_id) == []
    monkeypatch.undo()
    assert {r.status for r in receive.receive(store, NOW, device, sent, ZONE)} == {"received"}


def test_a_danger_that_is_taken_back_in_the_same_batch_is_still_called_about(
    store: Store, device: Device, eye_id: str
) -> None:
    bad = entry(eye_id, NOW, "symptoms", {"pain": 9, "vision": "worse"})
    back = entry(eye_id, NOW + timedelta(minutes=1), "withdrawal", {"reason": "a slip"}, corrects=bad["id"])
    assert [r.status for r in receive.receive(store, NOW + timedelta(minutes=2), device, [bad, back], ZONE)] == [
        "received"
    ] * 2
    raised = [w for w in worries.warnings_of(store, eye_id) if w.rule == "severe-pain"]
    assert [w.unfounded for w in raised] == [True]
    assert {c.state for c in worries.callbacks_of(store, eye_id) if c.id == raised[0].callback_id} == {"waiting"}


def test_a_row_that_the_schema_refuses_is_refused_alone(
    store: Store, device: Device, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What passes every check and is refused by the database takes no other with it, and every row is in the chain."""
    sent = [entry(eye_id, NOW, "symptoms", {"pain": n}) for n in range(3)]
    add = events.add

    def narrow(store: Store, id: str, *rest: Any, **more: Any) -> None:
        if id == sent[1]["id"]:
            raise RowRefused("events: an event lies between 1990 and its arrival")
        add(store, id, *rest, **more)

    monkeypatch.setattr(events, "add", narrow)
    results = receive.receive(store, NOW, device, sent, ZONE)
    assert [r.status for r in results] == ["received", "refused", "received"]
    assert results[1].reason == senders.NOT_TAKEN
    assert len(events.of_eye(store, eye_id)) == 2
    assert backup.faults(store) == []


def at_once(store: Store, works: list[Any]) -> list[Any]:
    """What each of these gives or raises when all wait for the database at the same time."""
    began, go_on = Event(), Event()

    def first() -> None:
        began.set()
        go_on.wait()

    def ended(work: Any) -> Any:
        try:
            return store.shared(work)
        except Exception as error:
            return error

    with ThreadPoolExecutor(len(works) + 1) as pool:
        pool.submit(store.shared, first)
        began.wait()
        waiting = [pool.submit(ended, work) for work in works]
        until(lambda: len(store._waiting) == len(works), "all of them wait")
        go_on.set()
        return [one.result() for one in waiting]


def transactions(store: Store) -> int:
    """How often something was written: each transaction with an event has one entry that records rows."""
    return sum("events" in entry["facts"] for entry in audit.everything(store))


def test_batches_that_wait_at_the_same_time_share_a_commit(store: Store, device: Device, eye_id: str) -> None:
    sent = [[entry(eye_id, NOW - timedelta(hours=n), "symptoms", {"pain": 1})] for n in range(5)]
    before = transactions(store)
    results = at_once(store, [lambda one=one: receive.receive(store, NOW, device, one, ZONE) for one in sent])
    assert [[r.status for r in result] for result in results] == [["received"]] * 5
    assert transactions(store) == before + 1
    assert len(events.of_eye(store, eye_id)) == 5
    assert backup.faults(store) == []


def test_what_fails_is_undone_alone_and_takes_no_other_with_it(store: Store, device: Device, eye_id: str) -> None:
    def fails_late() -> None:
        receive.receive(store, NOW, device, [entry(eye_id, NOW, "symptoms", {"pain": 3})], ZONE)
        raise OverflowError("a fault of our own")

    good = [entry(eye_id, NOW, "symptoms", {"pain": 1})]
    bad, results = at_once(store, [fails_late, lambda: receive.receive(store, NOW, device, good, ZONE)])
    assert isinstance(bad, OverflowError)
    assert [r.status for r in results] == ["received"]
    assert [e.id for e in events.of_eye(store, eye_id)] == [good[0]["id"]]
    assert [e["detail"] for e in audit.of_subject(store, eye_id) if e["action"] == "event symptoms"] == [
        f'{{"id":"{good[0]["id"]}"}}'
    ]
    assert backup.faults(store) == []


def test_where_the_database_fails_nobody_who_shares_is_told_that_it_was_kept(
    store: Store, device: Device, eye_id: str
) -> None:
    def disk_full() -> None:
        raise DatabaseFault("database or disk is full")

    good = [entry(eye_id, NOW, "symptoms", {"pain": 1})]
    told = at_once(store, [lambda: receive.receive(store, NOW, device, good, ZONE), disk_full])
    assert [type(one) for one in told] == [DatabaseFault, DatabaseFault]
    assert events.of_eye(store, eye_id) == []
    assert receive.receive(store, NOW, device, good, ZONE)[0].status == "received"


def test_a_batch_inside_another_transaction_is_undone_alone_too(store: Store, device: Device, eye_id: str) -> None:
    def fails_late() -> None:
        receive.receive(store, NOW, device, [entry(eye_id, NOW, "symptoms", {"pain": 3})], ZONE)
        raise OverflowError("a fault of our own")

    with store.transaction():
        with pytest.raises(OverflowError):
            store.shared(fails_late)
        good = [entry(eye_id, NOW, "symptoms", {"pain": 1})]
        assert receive.receive(store, NOW, device, good, ZONE)[0].status == "received"
    assert [e.id for e in events.of_eye(store, eye_id)] == [good[0]["id"]]
    assert backup.faults(store) == []
