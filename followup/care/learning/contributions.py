"""What each operated eye contributes to the results: worked out from its course when its state changed, and kept.

The page of results adds up what is kept. Time alone changes a contribution too (a visit's last day passes, a callback is past
its time, an entry lies ahead), so each is kept with the times between which it holds.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta, tzinfo

from followup.care.reading import state
from followup.care.reading.eye import Eye, load
from followup.care.watch import watching
from followup.clinical import success, vision
from followup.clinical.success import AfterOperation
from followup.clinical.timeline import end_of
from followup.clinical.vision import Acuity
from followup.records import Store, eyes, kept_results, states
from followup.records.values import Contribution, OperationResult, Sight

AT_A_TIME = 50
_SOONEST_AFTER = timedelta(microseconds=1)


def bring_up_to_date(store: Store, now: datetime, zone: tzinfo) -> None:
    """Work out anew what changed, or what time alone changes; reads outside the write lock.

    An eye that cannot be worked out is named as a fault, contributes nothing, and is tried each time.
    """
    state.bring_up_to_date(store, now, zone)
    done: set[str] = set()
    with watching.parts(store, now, "results") as part:
        while old := _changed(store, now, done):
            found: list[tuple[str, str, list[Contribution]]] = []
            for patient_id, version in old:
                done.add(patient_id)
                mine: list[Contribution] = []
                for eye_id in _operated(store, patient_id):
                    with part(eye_id):
                        mine.append(contribution(load(store, eye_id, zone), now))
                found.append((patient_id, version, mine))
            with store.transaction():
                for patient_id, version, mine in found:
                    kept_results.put(store, patient_id, version, mine)


def _changed(store: Store, now: datetime, done: set[str]) -> list[tuple[str, str]]:
    return [one for one in kept_results.changed(store, now, AT_A_TIME + len(done)) if one[0] not in done]


def _operated(store: Store, patient_id: str) -> list[str]:
    """The eyes that contribute; none of a record that was joined into another, whose own mark stands for itself."""
    if states.standing(store, patient_id) != patient_id:
        return []
    return [eye.id for eye in eyes.of_patient(store, patient_id) if eye.note]


def contribution(eye: Eye, now: datetime) -> Contribution:
    """What an operated eye contributes at `now`."""
    assert eye.known.note is not None
    stages = success.after_operations(eye.course, now, eye.known.ended_at)
    end, last = success.in_the_end(stages), success.last_acuity(eye.course, now)
    today, seen = now.astimezone(eye.zone).date(), eye.seen_visits
    over = [v.identity in seen for v in eye.visits if v.latest < today]
    in_time = [
        call.settled_at is not None and call.moved_up == 0
        for call in eye.callbacks
        if call.settled_at or call.moved_up or call.due_at < now
    ]
    turns = list(_turns(eye))
    return Contribution(
        eye_id=eye.id,
        since=max((at for at in turns if at <= now), default=None),
        until=min((at for at in turns if at > now), default=None),
        operated_at=eye.known.note.operated_at,
        state=end.state if end else None,
        once=end.once if end else None,
        last_logmar=last.logmar if last else None,
        visits=len(over),
        visits_seen=sum(over),
        calls=len(in_time),
        calls_in_time=sum(in_time),
        hours_to_claim=[(c.claimed_at - c.opened_at) / timedelta(hours=1) for c in eye.callbacks if c.claimed_at],
        operations=tuple(_result(eye, number, after, last) for number, after in enumerate(stages)),
    )


def _turns(eye: Eye) -> Iterator[datetime]:
    """The times from which more of what is on record counts."""
    yield from (operation.at for operation in eye.operations)
    yield from (fact.at for fact in eye.course.facts)
    yield from (end_of(v.latest, eye.zone) for v in eye.visits)
    yield from (call.due_at + _SOONEST_AFTER for call in eye.callbacks)


def _result(eye: Eye, number: int, after: AfterOperation, last: Acuity | None) -> OperationResult:
    note, operation, seen = eye.notes[number], after.operation, after.seen_on_its_own
    before = operation.baseline_acuity
    return OperationResult(
        operation_id=note.operation_id,
        eye_id=eye.id,
        number=number,
        surgeon=note.surgeon,
        agent=operation.agent,
        indication=operation.indication,
        day=operation.at.astimezone(eye.zone).date(),
        counted_from=after.counted_from,
        last_look=after.last_look,
        detached_at=after.detached_at,
        days_followed=seen[0] if seen else None,
        detached=seen[1] if seen else None,
        under_liquid=after.detached_under_liquid,
        highest_early_mmhg=after.highest_early_mmhg,
        before_logmar=before.logmar if before else None,
        sight=_sight(before, last),
    )


def _sight(before: Acuity | None, last: Acuity | None) -> Sight | None:
    """better, worse or same beyond test-retest noise; None where one of the two is missing."""
    if before is None or last is None:
        return None
    change = vision.change(before, last)
    return change.direction if change.exceeds_noise else "same"


def differences(store: Store, now: datetime, zone: tzinfo) -> list[str]:
    """Where what is kept is not what the facts say; ask when none is old, so that each is a fault."""
    found: list[str] = []
    for id in states.patients(store):
        was = {one.eye_id: one for one in kept_results.kept(store, id)}
        stands = {eye_id: contribution(load(store, eye_id, zone), now) for eye_id in _operated(store, id)}
        wrong = sorted(eye_id for eye_id in was.keys() | stands.keys() if was.get(eye_id) != stands.get(eye_id))
        found += (f"what eye {eye_id} contributes to the results is not what the facts say" for eye_id in wrong)
    return found
