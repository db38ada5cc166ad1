"""Which messages are due: worked out anew each minute from what stands, so a night switched off is caught up once."""

from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from followup.care.callbacks.kinds import LEVELS
from followup.care.reading import state
from followup.care.reading.eye import Eye, drop_plan_of, load
from followup.clinical import drop_times, posture
from followup.config import Messages
from followup.records import Store, eyes, messages, people, states, tasks, unsaid, visits, worries
from followup.records.bodies.home import DropsBody
from followup.records.values import Callback, Change, Staff, Task, saying
from followup.records.values import Eye as KnownEye

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
    """Every message that is due by the clock, some of them made before; each worked out in a `part` by its eye's id."""
    state.bring_up_to_date(store, now, zone)
    yield from posture_reminders(store, now, when.posture_at, zone, part)
    yield from drop_reminders(store, now, zone, part)
    yield from visit_reminders(store, now, when.visit_at, zone, part)


News = tuple[unsaid.Entry, list["Due"]]


def news(store: Store, now: datetime, zone: tzinfo, entries: Collection[unsaid.Entry], part: Part) -> Iterator[News]:
    """What somebody must hear of these calls and changed visits, some of it made before.

    Left out is what went wrong, and what is too early: that needs another look.
    """
    yield from visit_changes(store, now, zone, unsaid.ids(entries, "change"), part)
    yield from calls(store, now, unsaid.ids(entries, "call"), part)


def calls(store: Store, now: datetime, ids: Sequence[str], part: Part) -> Iterator[News]:
    """Of callbacks: what staff must hear, and patients who had gone silent."""
    callbacks = worries.to_tell_of(store, ids, now - STAFF_USEFUL, now - NOT_HEARD_USEFUL) if ids else []
    yield from ((("call", id), []) for id in {*ids} - {callback.id for callback in callbacks})
    staff = people.all_staff(store) if callbacks else []
    to_do = tasks.open_of(store, [callback.id for callback in callbacks])
    for callback in callbacks:
        with part(f"callbacks {callback.id}"):
            back = worries.times_put_back(store, callback.id)
            found = [*not_heard(store, callback), *for_staff(staff, callback, to_do.get(callback.id, []), back)]
            yield ("call", callback.id), found


def posture_reminders(store: Store, now: datetime, at: list[time], zone: tzinfo, part: Part) -> Iterator[Due]:
    """At the set times of a posturing day, to whoever has fewer hours than that time's share of the waking day."""
    today = now.astimezone(zone).date()
    for clock in at:
        start = datetime.combine(today, clock, zone)
        if not start <= now < start + POSTURE_USEFUL:
            continue
        enough: list[tuple[str, str]] = []
        for eye_id, version in states.to_remind_of_posture(store, today, "posture:", start):
            behind: Eye | None = None
            with part(eye_id):
                eye = load(store, eye_id, zone)
                behind = eye if _behind(eye, now, today) else None
                if behind is None:
                    enough.append((eye_id, version))
            if behind:
                person, key = f"patient:{behind.patient.id}", f"posture:{behind.id}:{start.isoformat()}"
                yield Due(key, person, "posture", behind.id, start + POSTURE_USEFUL)
        if enough:
            states.posture_was_enough(store, start, enough)


def drop_reminders(store: Store, now: datetime, zone: tzinfo, part: Part) -> Iterator[Due]:
    """At each time of the drops as prescribed, one for an eye, unless the patient said that all of them were taken.

    An eye is looked at when a time has come, and again each minute until what is due then was lined up or is of no use.
    """
    again: list[tuple[str, str, datetime | None]] = []
    versions = states.to_remind_of_drops(store, now)
    for row in eyes.in_turn(store, list(versions)):
        found: list[Due] = []
        with part(row.id):
            found = [
                Due(f"drops:{row.id}:{at.isoformat()}", f"patient:{row.patient.id}", "drops", row.id, at + DROPS_USEFUL)
                for at in _drops_due(store, row, now, zone)
            ]
            if len(messages.made_already(store, [due.key for due in found])) == len(found):
                again.append((row.id, versions[row.id], _drops_next(row, now, zone)))
        yield from found
    if again:
        states.drops_again(store, again)


def visit_reminders(store: Store, now: datetime, at: time, zone: tzinfo, part: Part) -> Iterator[Due]:
    """On the day before a planned visit."""
    today = now.astimezone(zone).date()
    tomorrow = today + timedelta(days=1)
    if now.astimezone(zone).time() < at:
        return
    midnight = datetime.combine(tomorrow, time(), zone)
    for visit in states.to_remind_of_visit(store, tomorrow, "visit:"):
        eye = None
        with part(visit.eye_id):
            eye = eyes.eye(store, visit.eye_id)
        if eye:
            yield Due(f"visit:{visit.visit_id}", f"patient:{eye.patient.id}", "visit", tomorrow.isoformat(), midnight)


def visit_changes(store: Store, now: datetime, zone: tzinfo, ids: Sequence[str], part: Part) -> Iterator[News]:
    """Once for each visit that was moved or cancelled and whose patient was not told yet; of use until the later day ends."""
    for id in ids:
        with part(f"visits {id}"):
            change = visits.change_to_tell(store, id)
            if change and change.changed.recorded_at > now - TOLD_AFTER:
                continue
            eye = eyes.eye(store, change.changed.eye_id) if change else None
            yield ("change", id), [_of_change(change, eye.patient.id, zone)] if change and eye else []


def _of_change(change: Change, patient_id: str, zone: tzinfo) -> Due:
    v = change.changed
    ends = datetime.combine(max(v.target, change.before.target) + timedelta(days=1), time(), zone)
    return Due(f"{VISIT_CHANGED}:{v.id}", f"patient:{patient_id}", VISIT_CHANGED, v.target.isoformat(), ends)


def not_heard(store: Store, callback: Callback) -> Iterator[Due]:
    """Once for a callback that was opened because a patient had gone silent."""
    if callback.worry == "silence":
        eye = eyes.eye(store, callback.eye_id)
        assert eye is not None
        until = callback.opened_at + NOT_HEARD_USEFUL
        yield Due(f"not-heard:{callback.id}", f"patient:{eye.patient.id}", "not-heard", callback.id, until)


def for_staff(staff: list[Staff], callback: Callback, to_do: list[Task], put_back: int = 0) -> Iterator[Due]:
    """A *now* callback that nobody has taken, or whose task is nobody's, and every callback that moved up.

    Whoever was told once counts on who took it: each time it is put back all are told anew.
    """
    id, level, moves = callback.id, callback.level, callback.moved_up
    if level:
        for person in [f"staff:{s.id}" for s in staff if s.role in ROLES_OF_LEVEL[level]]:
            yield Due(f"escalation:{id}:{moves}:{person}", person, "escalation", id, callback.due_at + STAFF_USEFUL)
        if LEVELS[level] == "on-call contact":
            until = callback.due_at + STAFF_USEFUL
            yield Due(f"escalation:{id}:{moves}:{ON_CALL}", ON_CALL, "escalation", id, until)
    elif callback.how_soon == "now" and callback.free:
        free = [(f"task:{t.id}", t.made_at) for t in to_do if t.owner is None]
        again = f":{put_back}" if put_back else ""
        for what, since in free or [(f"now:{id}", callback.opened_at)]:
            for member in staff:
                person = f"staff:{member.id}"
                yield Due(f"{what}{again}:{person}", person, "now", id, since + STAFF_USEFUL)


def _drops_due(store: Store, row: KnownEye, now: datetime, zone: tzinfo) -> set[datetime]:
    """The times, just passed, at which a drop of this eye was due that nobody said was taken."""
    today = now.astimezone(zone).date()
    passed = [
        (stretch, number, at)
        for stretch in (drop_plan_of(row.note, zone) if row.note else ())
        if stretch.holds(today)
        for number, slot in enumerate(drop_times.slots(stretch.times_a_day))
        if (at := datetime.combine(today, slot.at, zone)) <= now < at + DROPS_USEFUL
    ]
    told = _taken_on(load(store, row.id, zone), today) if passed else []
    return {at for stretch, number, at in passed if not _is_taken(stretch, number, told)}


def _drops_next(row: KnownEye, now: datetime, zone: tzinfo) -> datetime | None:
    """The next time at which a drop of this eye is due; None after the last."""
    plan = drop_plan_of(row.note, zone) if row.note else []
    day, last = now.astimezone(zone).date(), max((stretch.last for stretch in plan), default=date.min)
    while day <= last:
        times = [
            at
            for stretch in plan
            if stretch.holds(day)
            for slot in drop_times.slots(stretch.times_a_day)
            if (at := datetime.combine(day, slot.at, zone)) > now
        ]
        if times:
            return min(times)
        day += timedelta(days=1)
    return None


def _taken_on(eye: Eye, day: date) -> list[tuple[str, time]]:
    """What the patient said was taken on a day: names and local times."""
    told = [(said.name.casefold(), event.at.astimezone(eye.zone)) for event, said in saying(eye.events, DropsBody)]
    return [(name, at.time()) for name, at in told if at.date() == day]


def _is_taken(stretch: drop_times.Stretch, number: int, told: list[tuple[str, time]]) -> bool:
    times = [at for name, at in told if name == stretch.name.casefold()]
    return drop_times.is_taken(drop_times.slots(stretch.times_a_day), number, times)


def _behind(eye: Eye, now: datetime, today: date) -> bool:
    """Whether today is a day of the posture plan, and its hours so far fall short."""
    plan, first = eye.operation.plan, eye.operation.at.astimezone(eye.zone).date()
    if plan is None or not first < today < first + timedelta(days=plan.days):
        return False
    return posture.behind(plan, [p.block for p in eye.timeline(now).postured], eye.zone, now)
