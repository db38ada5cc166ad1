"""Follow-up of an eye: it ends with a reason, nothing urgent in silence, and is taken up again."""

from collections.abc import Collection
from dataclasses import dataclass

from followup.care.callbacks import settling
from followup.care.callbacks.kinds import URGENT
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading.eye import Eye, load
from followup.care.visits.visit import known_eye, withdraw_visit
from followup.care.watch.raising import raise_signs_of_patient
from followup.records import Store, eyes, tasks, worries
from followup.records.values import Callback, Task
from followup.records.values import Eye as KnownEye

REASONS: dict[str, str] = {
    "finished": "follow-up is finished",
    "moved": "the patient moved away",
    "died": "the patient died",
    "other-clinic": "another clinic follows the eye",
    "own-wish": "the patient’s own wish",
}


FOLLOW_UP: dict[str, str] = {"begun": "began", "ended": "ended", "resumed": "was taken up again"}


@dataclass(frozen=True, slots=True)
class StillOpen:
    """A callback that ending follow-up would close, and what was decided about it and is not done."""

    callback: Callback
    tasks: tuple[Task, ...]

    @property
    def cannot_wait(self) -> bool:
        return self.callback.how_soon in URGENT


def follow(desk: Desk, eye: KnownEye, why: str, words: str = "") -> None:
    """Begin follow-up of an eye, or take it up again; nothing for one that is followed."""
    if eye.is_followed:
        return
    eyes.begin(desk.store, desk.now, eye.id)
    eyes.add_follow_up(
        desk.store, desk.now, eye.id, "resumed" if eye.followed_since else "begun", why, words, desk.actor.signature
    )


def take_up(desk: Desk, eye_id: str, words: str) -> None:
    """Take up follow-up that had ended, with why. Silence counts from now on. Raises `Conflict` where none had ended."""
    if not words.strip():
        raise CareError("say why follow-up is taken up again", "words")
    with desk.store.transaction():
        eye = known_eye(desk.store, eye_id)
        if eye.ended_at is None:
            raise Conflict("follow-up of this eye has not ended")
        follow(desk, eye, "taken-up", words.strip())
        detail = {"words": words.strip(), "ended": eye.end_reason}
        desk.note("follow-up taken up", eye.id, detail)
        raise_signs_of_patient(desk.store, eye.patient.id, desk.now, desk.zone)


def concerned(store: Store, eye: KnownEye, reason: str) -> list[KnownEye]:
    """The eyes whose follow-up ends: that eye, or both where the patient died."""
    return eyes.of_patient(store, eye.patient.id) if reason == "died" else [eye]


def still_open(store: Store, concerned: Collection[KnownEye]) -> list[StillOpen]:
    """Every open callback of these eyes, the most urgent first, with its open tasks."""
    found = [c for eye in concerned for c in worries.callbacks_of(store, eye.id) if c.state != "settled"]
    with_tasks = [(c, tasks.of_callback(store, c.id)) for c in found]
    open_ones = [StillOpen(c, tuple(t for t in made if t.done_at is None)) for c, made in with_tasks]
    return sorted(open_ones, key=lambda one: (not one.cannot_wait, one.callback.due_at))


def confirmed_theatre(store: Store, concerned: Collection[KnownEye]) -> dict[str, list[Task]]:
    """Theatre of these eyes that is confirmed and to come: the tasks of each decision for an eye, by the id of the first."""
    found: dict[tuple[str, str], list[Task]] = {}
    for task in (t for eye in concerned for t in tasks.theatre_to_come(store, eye.id) if t.done_at is not None):
        found.setdefault((task.decision or task.id, task.eye_id), []).append(task)
    return {same[0].id: same for same in found.values()}


def end(
    desk: Desk,
    eye_id: str,
    reason: str,
    words: str,
    *,
    closes: Collection[str] = (),
    withdraws: Collection[str] = (),
) -> None:
    """End follow-up of an eye, of both where the patient died: what is planned leaves the book.

    Every open callback has to be named in `closes` (its id) and is closed with the reason, and theatre that is confirmed in
    `withdraws` (as `confirmed_theatre` names it). Raises `CareError` while one is not named, or a callback that cannot wait
    is open, unless the patient died; `Conflict` for an eye that is not followed.
    """
    if reason not in REASONS:
        raise CareError("say why follow-up ends", "reason")
    words = words.strip()
    with desk.store.transaction():
        eye = known_eye(desk.store, eye_id)
        if not eye.is_followed:
            raise Conflict("this eye is not followed")
        both = concerned(desk.store, eye, reason)
        open_ones = still_open(desk.store, both)
        if reason != "died" and any(one.cannot_wait for one in open_ones):
            raise CareError("a callback that cannot wait is open: settle it first", "reason")
        if any(one.callback.id not in closes for one in open_ones):
            raise CareError("say of each open callback that it is closed with this reason, or settle it first", "closes")
        booked = confirmed_theatre(desk.store, both)
        if not booked.keys() <= set(withdraws):
            raise CareError("theatre is confirmed: say that it is withdrawn with this reason", "withdraws")
        why = ": ".join(filter(None, (REASONS[reason], words)))
        for one in open_ones:
            settling.close_for_end(desk, one.callback, why)
        for task in (t for same in booked.values() for t in same):
            settling.withdraw_theatre(desk, task, why)
        for known in both:
            if known.is_followed:
                _end(desk, load(desk.store, known.id, desk.zone), reason, words)


def _end(desk: Desk, eye: Eye, reason: str, words: str) -> None:
    today = desk.now.astimezone(eye.zone).date()
    for visit in eye.open_visits:
        if visit.latest >= today:  # one that was missed stays missed
            withdraw_visit(desk, eye.id, visit.identity, f"follow-up ended: {REASONS[reason]}")
    eyes.end(desk.store, desk.now, eye.id, reason)
    eyes.add_follow_up(desk.store, desk.now, eye.id, "ended", reason, words, desk.actor.signature)
    desk.note("follow-up ended", eye.id, {"reason": reason, "words": words})
