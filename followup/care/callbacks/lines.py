"""Open callbacks as the lists show them: one line a patient, the worst first; and what of them needs a surgeon."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from followup.care.desk import Desk
from followup.care.reading import state
from followup.records import call_lists, eyes, tasks, worries
from followup.records.values import Callback, Eye, Reason, Taken, Task

TAKEN_SHOWN = timedelta(days=1)
LINES = 40  # on one page


@dataclass(frozen=True)
class Line:
    """A patient with open callbacks, the worst first; what each says, what is to do, and theatre that `fell_away`. `eyes` by id.

    `eye` is None where the record of the eye cannot be read: such a callback stands alone. `mine` is whether the reader has
    it in hand or operated on the patient.
    """

    callbacks: list[Callback]
    eyes: dict[str, Eye]
    reasons: dict[str, list[Reason]]
    to_do: list[Task]
    fell_away: list[Task]
    mine: bool

    @property
    def worst(self) -> Callback:
        return self.callbacks[0]

    @property
    def eye(self) -> Eye | None:
        return self.eyes.get(self.worst.eye_id)

    @property
    def decided(self) -> bool:
        """Whether all of it waits only for what was decided to be done."""
        return all(c.state == "to-do" for c in self.callbacks)

    @property
    def level(self) -> int:
        return max(c.level for c in self.callbacks)

    @property
    def due_at(self) -> datetime:
        return min(c.due_at for c in self.callbacks)

    @property
    def next_try_at(self) -> datetime | None:
        return min((c.next_try_at for c in self.callbacks if c.next_try_at), default=None)

    @property
    def opened_at(self) -> datetime:
        return min(c.opened_at for c in self.callbacks)

    @property
    def holders(self) -> list[str]:
        """The names of those who have something of it in hand."""
        names = [c.claimed_by_name for c in self.callbacks if c.state == "claimed"] + [t.owner_name for t in self.to_do]
        return list(dict.fromkeys(name for name in names if name))

    @property
    def waiting(self) -> bool:
        """Whether somebody is to take something of it."""
        return any(c.free for c in self.callbacks)

    @property
    def all_reasons(self) -> list[Reason]:
        return [w for c in self.callbacks for w in self.reasons[c.id]]


@dataclass(frozen=True)
class Listed:
    """Patients with open callbacks, and what was lately taken over from the reader or handed to them, with its `eyes`."""

    lines: list[Line]
    taken: list[Taken]
    handed: list[Taken]
    eyes: dict[str, Eye]


def listed(desk: Desk) -> Listed:
    """Every patient, by how soon, then by how long it has waited: as the worst callback of each says."""
    known, taken, handed = _lately(desk)
    return Listed(_lines(desk, worries.open_callbacks(desk.store), known), taken, handed, known)


@dataclass(frozen=True)
class ListedPage:
    """One page of that list; `waiting` how many patients it holds in all, `page` of `pages`."""

    lines: list[Line]
    taken: list[Taken]
    handed: list[Taken]
    eyes: dict[str, Eye]
    waiting: int
    page: int
    pages: int


def listed_page(desk: Desk, page: int = 1) -> ListedPage:
    """As many patients as one page shows, in the same order."""
    state.bring_up_to_date(desk.store, desk.now, desk.zone)
    known, taken, handed = _lately(desk)
    waiting = call_lists.count_calls(desk.store)
    pages = max(1, -(-waiting // LINES))
    page = min(max(1, page), pages)
    calls = call_lists.calls(desk.store, LINES, (page - 1) * LINES)
    return ListedPage(_lines_of(desk, calls, known), taken, handed, known, waiting, page, pages)


def _lately(desk: Desk) -> tuple[dict[str, Eye], list[Taken], list[Taken]]:
    """What was taken over from the reader or handed to them of late, and the eyes that this is about."""
    taken = worries.taken_from(desk.store, desk.actor.id, desk.now - TAKEN_SHOWN)
    handed = worries.handed_to(desk.store, desk.actor.id, desk.now - TAKEN_SHOWN)
    return eyes.by_ids(desk.store, sorted({t.eye_id for t in (*taken, *handed)})), taken, handed


def _lines_of(desk: Desk, patient_ids: Sequence[str], known: dict[str, Eye]) -> list[Line]:
    """The lines of these patients."""
    return _lines(desk, worries.open_of_people(desk.store, patient_ids), known)


def _lines(desk: Desk, open_ones: Sequence[Callback], known: dict[str, Eye]) -> list[Line]:
    """A line for each patient of these callbacks, in their order; their eyes are added to those `known`."""
    known |= eyes.by_ids(desk.store, sorted({c.eye_id for c in open_ones} - set(known)))
    to_do = tasks.open_of(desk.store, [c.id for c in open_ones])
    of_patient: dict[str, list[Callback]] = {}
    for c in open_ones:
        of_patient.setdefault(known[c.eye_id].patient.id if c.eye_id in known else c.id, []).append(c)
    reasons = worries.reasons_of_callbacks(desk.store, [c.id for c in open_ones])
    away = tasks.cancelled_theatre(desk.store, [c.id for c in open_ones])
    return [_line(desk, calls, known, to_do, reasons, away) for calls in of_patient.values()]


def _line(
    desk: Desk,
    calls: list[Callback],
    known: dict[str, Eye],
    to_do: dict[str, list[Task]],
    raised: dict[str, list[Reason]],
    away: dict[str, Task],
) -> Line:
    reasons = {c.id: raised.get(c.id, []) for c in calls}
    todo = one_for_each_decision(t for c in calls for t in to_do.get(c.id, []))
    in_hand = any(c.state == "claimed" and c.claimed_by == desk.actor.id for c in calls)
    mine = in_hand or any(t.owner == desk.actor.id for t in todo)
    seen = {c.eye_id: known[c.eye_id] for c in calls if c.eye_id in known}
    fell_away = one_for_each_decision(away[c.id] for c in calls if c.id in away)
    return Line(calls, seen, reasons, todo, fell_away, mine or _operated(desk, seen.values()))


def _operated(desk: Desk, of: Iterable[Eye]) -> bool:
    """Whether the reader operated on this patient."""
    return any(
        both.note is not None and both.note.surgeon == desk.actor.name
        for eye in of
        for both in ([eye] if eye.note else eyes.of_patient(desk.store, eye.patient.id))
    )


def one_for_each_decision(found: Iterable[Task]) -> list[Task]:
    """The tasks without those that only repeat one of the same decision for another worry of the eye, the earliest due first."""
    kept: dict[tuple[str | None, ...], Task] = {}
    for task in sorted(found, key=lambda t: (t.due_at, t.id)):
        kept.setdefault((task.decision or task.id, task.owner, task.visit_id), task)
    return list(kept.values())


PARTS = ("mine", "moved_up", "colleagues", "decided")


@dataclass(frozen=True)
class ForSurgeon:
    """What needs a surgeon: `mine` (my patients, or in my hands), what `moved_up`, my `colleagues`'; and what is decided.

    Each part holds its first lines; `sizes` says how many it has in all, and `urgent` how many of those are for now. Where
    one `part` alone is shown, it is `page` of `pages` of that.
    """

    mine: list[Line]
    moved_up: list[Line]
    colleagues: list[Line]
    decided: list[Line]
    taken: list[Taken]
    handed: list[Taken]
    eyes: dict[str, Eye]
    sizes: dict[str, int]
    urgent: dict[str, int]
    part: str
    page: int
    pages: int

    @property
    def open(self) -> list[Line]:
        """The lines shown of what is not only decided."""
        return [*self.mine, *self.moved_up, *self.colleagues]

    @property
    def waiting(self) -> int:
        """How many patients have something that is not only decided."""
        return sum(size for part, size in self.sizes.items() if part != "decided")


def for_surgeon(desk: Desk, part: str = "", page: int = 1) -> ForSurgeon:
    """Each patient once. What only waits to be done comes last, unless the reader is to do it or it moved up."""
    state.bring_up_to_date(desk.store, desk.now, desk.zone)
    known, taken, handed = _lately(desk)
    me = call_lists.Reader(desk.actor.id, desk.actor.name)
    counts = call_lists.count_parts(desk.store, me)
    sizes = {name: counts[name][0] for name in PARTS}
    pages = max(1, -(-sizes[part] // LINES)) if part in PARTS else 1
    page = min(max(1, page), pages)
    parts: dict[str, list[Line]] = {name: [] for name in PARTS}
    for name in [part] if part in PARTS else PARTS:
        calls = call_lists.calls_of_part(desk.store, me, name, LINES, (page - 1) * LINES) if sizes[name] else []
        parts[name] = _lines_of(desk, calls, known)
    urgent = {name: counts[name][1] for name in PARTS}
    return ForSurgeon(
        **parts, taken=taken, handed=handed, eyes=known, sizes=sizes, urgent=urgent, part=part, page=page, pages=pages
    )
