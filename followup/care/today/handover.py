"""The end of the day on one page: who was seen, who did not come, what was settled, what is open, and who has it."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime, time

from followup.care.callbacks.lines import Line, listed
from followup.care.desk import Desk
from followup.care.reading import state
from followup.care.reading.entries import said
from followup.care.reading.paging import Page
from followup.care.today import lists
from followup.records import events, eyes, people, visits, worries
from followup.records.bodies.clinic import DidNotComeBody
from followup.records.values import Callback, Eye, Patient, Task, saying


@dataclass(frozen=True)
class Seen:
    """A patient who was looked at today; `visits` are the planned ones by name, none for whoever came unplanned."""

    patient: Patient
    visits: tuple[str, ...]
    at: datetime


@dataclass(frozen=True)
class Absent:
    """Nobody came for a visit of today; `why` is what stood in the way, empty where nobody has said.

    `may_come_until` is None where it has another day by now, or none any more.
    """

    eye: Eye
    visit: str
    why: str
    may_come_until: date | None


@dataclass(frozen=True)
class Settled:
    """A callback that was settled today, by whom."""

    callback: Callback
    eye: Eye
    by: str


@dataclass(frozen=True)
class InHand:
    """What one person has: a line of a patient whom they call, or a task."""

    line: Line
    task: Task | None


@dataclass(frozen=True)
class Handover:
    """`arrived` are those who came today and of whom nothing is entered; `waiting` what nobody has; `held` by name.

    `wishes` are what patients asked about their visits, `to_tell` whose visit moved and nobody told: the first of them.
    """

    day: date
    seen: list[Seen]
    arrived: list[lists.Due]
    did_not_come: list[Absent]
    settled: list[Settled]
    waiting: list[Line]
    unreached: list[Line]
    held: dict[str, list[InHand]]
    wishes: list[lists.Request]
    to_tell: Page[lists.ToTell]


def handover(desk: Desk) -> Handover:
    """The clinic's day so far, and all that is left of it."""
    due = lists.due_in(desk.store, desk.now, desk.zone, ("here", "due"))
    lines = listed(desk).lines
    due_today = [d for d in due if d.state == "due" and desk.today in (d.visit.target, d.visit.latest)]
    return Handover(
        day=desk.today,
        seen=_seen(desk),
        arrived=[d for d in due if d.state == "here"],
        did_not_come=_absent(desk, due_today),
        settled=_settled(desk),
        waiting=[line for line in lines if line.waiting],
        unreached=[line for line in lines if line.next_try_at],
        held=_held(lines),
        wishes=lists.open_requests(desk.store, desk.now, desk.zone),
        to_tell=lists.to_tell_page(desk.store, desk.today, lines=lists.TO_TELL_SHOWN),
    )


def _seen(desk: Desk) -> list[Seen]:
    """Whoever was measured or seen today, by time; both eyes of a patient are one."""
    since = _morning(desk)
    looked: dict[str, datetime] = {}
    for event in (e for e in events.of_clinic_since(desk.store, since) if e.kind in ("seen", "measures")):
        looked[event.eye_id] = min(event.at, looked.get(event.eye_id, event.at))
    by_patient: dict[str, list[Eye]] = defaultdict(list)
    for eye in eyes.by_ids(desk.store, sorted(looked)).values():
        by_patient[eye.patient.id].append(eye)
    attended = {eye.id: state.seen(desk.store, eye.id, desk.zone) for both in by_patient.values() for eye in both}
    found = []
    for both in by_patient.values():
        planned = {v.identity: v.name for eye in both for v in visits.of_eye(desk.store, eye.id)}
        today = [id for eye in both for id, at in attended[eye.id].items() if at >= since and id in planned]
        names = tuple(dict.fromkeys(planned[id] for id in today))
        found.append(Seen(both[0].patient, names, min(looked[eye.id] for eye in both)))
    return sorted(found, key=lambda s: s.at)


def _absent(desk: Desk, due_today: list[lists.Due]) -> list[Absent]:
    """Whoever was not there, with what was entered about it; also those who have another day by now."""
    entered = list(saying(events.of_clinic_since(desk.store, _morning(desk)), DidNotComeBody))
    known = eyes.by_ids(desk.store, sorted({event.eye_id for event, _ in entered}))
    told = [_entered(desk, known[event.eye_id], absence) for event, absence in entered if event.eye_id in known]
    named = {absence.visit_id for _, absence in entered}
    return [*(Absent(d.eye, d.visit.name, "", d.visit.latest) for d in due_today if d.visit.identity not in named), *told]


def _entered(desk: Desk, eye: Eye, absence: DidNotComeBody) -> Absent:
    planned = (v for v in visits.of_eye(desk.store, eye.id) if v.identity == absence.visit_id)
    stands = next((v for v in planned if v.target == desk.today), None)
    return Absent(eye, absence.visit, said(absence, desk.zone), stands.latest if stands else None)


def _settled(desk: Desk) -> list[Settled]:
    done = worries.settled_since(desk.store, _morning(desk))
    known = eyes.by_ids(desk.store, sorted({c.eye_id for c in done}))
    names = {c.settled_by: people.staff_by_id(desk.store, c.settled_by) for c in done if c.settled_by}
    return [
        Settled(c, known[c.eye_id], member.name if (member := names.get(c.settled_by or "")) else "the clinic")
        for c in done
        if c.eye_id in known
    ]


def _held(lines: list[Line]) -> dict[str, list[InHand]]:
    found: dict[str, list[InHand]] = defaultdict(list)
    for line in lines:
        for name in dict.fromkeys(c.claimed_by_name for c in line.callbacks if c.state == "claimed" and c.claimed_by_name):
            found[name].append(InHand(line, None))
        for task in line.to_do:
            if task.owner_name:
                found[task.owner_name].append(InHand(line, task))
    return dict(sorted(found.items()))


def _morning(desk: Desk) -> datetime:
    """When the clinic's day began."""
    return datetime.combine(desk.today, time(), desk.zone)
