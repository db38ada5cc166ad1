"""Which messages are due: worked out anew each minute from what stands, so a night switched off is caught up once."""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from followup.care.callbacks.kinds import LEVELS
from followup.care.reading.attendance import attended_by_eye
from followup.care.reading.eye import drops_of, load
from followup.clinical import drops, posture
from followup.config import Messages
from followup.records import Store, eyes, people, tasks, visits, worries
from followup.records import messages as kept
from followup.records.bodies.home import DropsBody
from followup.records.values import Callback, Eye, Staff, Task, saying

PATIENT_KINDS = ("posture", "drops", "visit", "not-heard")
ONLY_IF_ASKED = {"drops"}  # several times a day: not before somebody chose them
VISIT_CHANGED = "visit-changed"
CHOSEN_WITH = {VISIT_CHANGED: "visit"}  # kinds that go to whoever wants another one
STAFF_KINDS = ("now", "escalation")
ON_CALL = "contact:on-call"
TOLD_AFTER = timedelta(minutes=5)  # a change that is taken back at once is told to nobody
POSTURE_USEFUL = timedelta(hours=1)
DROPS_USEFUL = timedelta(minutes=45)
NOT_HEARD_USEFUL = timedelta(days=2)
STAFF_USEFUL = timedelta(days=7)
Part = Callable[[str], AbstractContextManager[None]]  # what goes wrong in one eye or callback ends with it
ROLES_OF_LEVEL = (("nurse", "surgeon"), ("surgeon",), ("surgeon",))


@dataclass(frozen=True, slots=True)
class Due:
    """A message that ought to exist: made once for its key, useless after a time. `about` is a record's id or a date."""

    key: str
    person: str
    kind: str
    about: str
    useless_after: datetime


def due(store: Store, now: datetime, when: Messages, zone: tzinfo, part: Part) -> Iterator[Due]:
    """Every message that is due now, whether it was made before or not; each worked out in a `part` by its eye's id."""
    yield from posture_reminders(store, now, when.posture_at, zone, part)
    yield from drop_reminders(store, now, zone, part)
    yield from visit_reminders(store, now, when.visit_at, zone, part)
    yield from visit_changes(store, now, zone, part)
    staff, to_do = people.all_staff(store), tasks.open_by_callback(store)
    for callback in worries.open_callbacks(store):
        found: list[Due] = []
        with part(f"callbacks {callback.id}"):
            found = [*not_heard(store, callback), *for_staff(staff, callback, to_do.get(callback.id, []))]
        yield from found


def posture_reminders(store: Store, now: datetime, at: list[time], zone: tzinfo, part: Part) -> Iterator[Due]:
    """At the set times of a posturing day, to whoever has fewer hours than that time's share of the waking day."""
    today = now.astimezone(zone).date()
    for clock in at:
        start = datetime.combine(today, clock, zone)
        if not start <= now < start + POSTURE_USEFUL:
            continue
        for row in eyes.followed(store):
            behind = False
            with part(row.id):
                behind = _behind(store, row, now, today, zone)
            if behind:
                person, key = f"patient:{row.patient.id}", f"posture:{row.id}:{start.isoformat()}"
                yield Due(key, person, "posture", row.id, start + POSTURE_USEFUL)


def drop_reminders(store: Store, now: datetime, zone: tzinfo, part: Part) -> Iterator[Due]:
    """At each time of the drops as prescribed, one for an eye, unless the patient said that all of them were taken."""
    for row in eyes.followed(store):
        found: list[Due] = []
        with part(row.id):
            found = [
                Due(f"drops:{row.id}:{at.isoformat()}", f"patient:{row.patient.id}", "drops", row.id, at + DROPS_USEFUL)
                for at in _drops_due(store, row, now, zone)
            ]
        yield from found


def visit_reminders(store: Store, now: datetime, at: time, zone: tzinfo, part: Part) -> Iterator[Due]:
    """On the day before a planned visit."""
    today = now.astimezone(zone).date()
    tomorrow = today + timedelta(days=1)
    if now.astimezone(zone).time() < at:
        return
    planned = [v for v in visits.of_followed(store) if v.target == tomorrow]
    seen = attended_by_eye(store, "seen", zone)
    midnight = datetime.combine(tomorrow, time(), zone)
    for visit in planned:
        eye = None
        with part(visit.eye_id):
            eye = eyes.eye(store, visit.eye_id)
        if eye and visit.identity not in seen[visit.eye_id]:
            yield Due(f"visit:{visit.id}", f"patient:{eye.patient.id}", "visit", visit.target.isoformat(), midnight)


def visit_changes(store: Store, now: datetime, zone: tzinfo, part: Part) -> Iterator[Due]:
    """Once for each visit that was moved or cancelled and whose patient was not told yet; of use until the later day ends."""
    for change in visits.to_tell(store):
        v, eye = change.changed, None
        if v.recorded_at > now - TOLD_AFTER:
            continue
        with part(f"visits {v.id}"):
            eye = eyes.eye(store, v.eye_id)
        if eye:
            ends = datetime.combine(max(v.target, change.before.target) + timedelta(days=1), time(), zone)
            yield Due(f"{VISIT_CHANGED}:{v.id}", f"patient:{eye.patient.id}", VISIT_CHANGED, v.target.isoformat(), ends)


def not_heard(store: Store, callback: Callback) -> Iterator[Due]:
    """Once for a callback that was opened because a patient had gone silent."""
    if callback.worry == "silence":
        eye = eyes.eye(store, callback.eye_id)
        assert eye is not None
        until = callback.opened_at + NOT_HEARD_USEFUL
        yield Due(f"not-heard:{callback.id}", f"patient:{eye.patient.id}", "not-heard", callback.id, until)


def for_staff(staff: list[Staff], callback: Callback, to_do: list[Task]) -> Iterator[Due]:
    """A *now* callback that nobody has taken, or whose task is nobody's, and every callback that moved up."""
    id, level, moves = callback.id, callback.level, callback.moved_up
    if level:
        for person in [f"staff:{s.id}" for s in staff if s.role in ROLES_OF_LEVEL[level]]:
            yield Due(f"escalation:{id}:{moves}:{person}", person, "escalation", id, callback.due_at + STAFF_USEFUL)
        if LEVELS[level] == "on-call contact":
            until = callback.due_at + STAFF_USEFUL
            yield Due(f"escalation:{id}:{moves}:{ON_CALL}", ON_CALL, "escalation", id, until)
    elif callback.how_soon == "now" and callback.free:
        free = [(f"task:{t.id}", t.made_at) for t in to_do if t.owner is None]
        for what, since in free or [(f"now:{id}", callback.opened_at)]:
            for member in staff:
                person = f"staff:{member.id}"
                yield Due(f"{what}:{person}", person, "now", id, since + STAFF_USEFUL)


def _drops_due(store: Store, row: Eye, now: datetime, zone: tzinfo) -> set[datetime]:
    """The times, just passed, at which a drop of this eye was due that nobody said was taken."""
    local, due = now.astimezone(zone), set()
    today = local.date()
    chosen = kept.choices(store, f"patient:{row.patient.id}")
    if chosen is None or "drops" in chosen.unwanted:
        return set()
    for step in drops_of(row.note, zone) if row.note else []:
        of_day = drops.slots(step.times_a_day)
        for number, slot in enumerate(of_day):
            at = datetime.combine(today, slot.at, zone)
            if step.holds(today) and at <= now < at + DROPS_USEFUL and not _said_taken(store, row, step, number, local):
                due.add(at)
    return due


def _said_taken(store: Store, row: Eye, step: drops.Step, number: int, local: datetime) -> bool:
    told = [
        event.at.astimezone(local.tzinfo)
        for event, said in saying(load(store, row.id, local.tzinfo or UTC).events, DropsBody)
        if said.name.casefold() == step.name.casefold()
    ]
    times = [at.time() for at in told if at.date() == local.date()]
    return drops.is_taken(drops.slots(step.times_a_day), number, times)


def _behind(store: Store, row: Eye, now: datetime, today: date, zone: tzinfo) -> bool:
    assert row.note is not None
    plan = row.note.body.posture
    first = row.note.operated_at.astimezone(zone).date()
    if not plan or not first < today < first + timedelta(days=plan.days):
        return False
    eye = load(store, row.id, zone)
    assert eye.operation.plan is not None
    blocks = [p.block for p in eye.timeline(now).postured]
    return posture.behind(eye.operation.plan, blocks, zone, now)
