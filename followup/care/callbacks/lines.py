"""Open callbacks as the lists show them: one line a patient, the worst first; and what of them needs a surgeon."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from followup.care.desk import Desk
from followup.records import eyes, tasks, worries
from followup.records.values import Callback, Eye, Taken, Task, Warning

TAKEN_SHOWN = timedelta(days=1)


@dataclass(frozen=True)
class Line:
    """A patient with open callbacks, the worst first; what each says, and what is to do. `eyes` by id.

    `eye` is None where the record of the eye cannot be read: such a callback stands alone. `mine` is whether the reader has
    it in hand or operated on the patient.
    """

    callbacks: list[Callback]
    eyes: dict[str, Eye]
    reasons: dict[str, list[Warning]]
    to_do: list[Task]
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
    def all_reasons(self) -> list[Warning]:
        return [w for c in self.callbacks for w in self.reasons[c.id]]


@dataclass(frozen=True)
class Listed:
    """Every patient with open callbacks, and what was lately taken over from the reader or handed to them, with its `eyes`."""

    lines: list[Line]
    taken: list[Taken]
    handed: list[Taken]
    eyes: dict[str, Eye]


def listed(desk: Desk) -> Listed:
    """By how soon, then by how long it has waited: as the worst callback of each patient says."""
    store = desk.store
    open_ones = worries.open_callbacks(store)
    taken = worries.taken_from(store, desk.actor.id, desk.now - TAKEN_SHOWN)
    handed = worries.handed_to(store, desk.actor.id, desk.now - TAKEN_SHOWN)
    known = eyes.by_ids(store, sorted({c.eye_id for c in open_ones} | {t.eye_id for t in (*taken, *handed)}))
    to_do = tasks.open_by_callback(store)
    of_patient: dict[str, list[Callback]] = {}
    for c in open_ones:
        of_patient.setdefault(known[c.eye_id].patient.id if c.eye_id in known else c.id, []).append(c)
    lines = [_line(desk, calls, known, to_do) for calls in of_patient.values()]
    return Listed(lines, taken, handed, known)


def _line(desk: Desk, calls: list[Callback], known: dict[str, Eye], to_do: dict[str, list[Task]]) -> Line:
    reasons = {c.id: worries.warnings_of_callback(desk.store, c.id) for c in calls}
    todo = one_for_each_decision(t for c in calls for t in to_do.get(c.id, []))
    in_hand = any(c.state == "claimed" and c.claimed_by == desk.actor.id for c in calls)
    mine = in_hand or any(t.owner == desk.actor.id for t in todo)
    seen = {c.eye_id: known[c.eye_id] for c in calls if c.eye_id in known}
    return Line(calls, seen, reasons, todo, mine or _operated(desk, seen.values()))


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


@dataclass(frozen=True)
class ForSurgeon:
    """What needs a surgeon: `mine` (my patients, or in my hands), what `moved_up`, my `colleagues`'; and what is decided."""

    mine: list[Line]
    moved_up: list[Line]
    colleagues: list[Line]
    decided: list[Line]
    taken: list[Taken]
    handed: list[Taken]
    eyes: dict[str, Eye]

    @property
    def open(self) -> list[Line]:
        return [*self.mine, *self.moved_up, *self.colleagues]


def for_surgeon(desk: Desk) -> ForSurgeon:
    """Each patient once. What only waits to be done comes last, unless the reader is to do it or it moved up."""
    found = listed(desk)
    parts: dict[str, list[Line]] = {"mine": [], "moved_up": [], "colleagues": [], "decided": []}
    for line in found.lines:
        to_me = any(t.owner == desk.actor.id for t in line.to_do)
        if line.decided and not line.level and not to_me:
            parts["decided"].append(line)
        else:
            parts["mine" if line.mine else "moved_up" if line.level else "colleagues"].append(line)
    return ForSurgeon(**parts, taken=found.taken, handed=found.handed, eyes=found.eyes)
