"""Decisions on a callback, and taking them back."""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, datetime, timedelta

from followup.care import bounds
from followup.care.callbacks.holding import chosen, claim, known_callback, of_patient, one_who_may, open_of_patient
from followup.care.callbacks.kinds import DECISIONS
from followup.care.callbacks.to_do import drop, make_task
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading.eye import load
from followup.care.visits import book
from followup.care.visits.openings import Openings, ahead
from followup.care.visits.visit import add_extra_visit
from followup.clinical import schedule
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic
from followup.records import Store, eyes, tasks, worries
from followup.records.store import new_id
from followup.records.values import Callback, Task

FURTHEST_AHEAD = timedelta(days=366)  # what waits longer moves up for nobody
SOONER_WITHIN = {"now": 1, "today": 3, "this-week": 7}
"""Within how many days an eye comes that is to come sooner, by how soon somebody must act. Common practice, no source."""

UNDO_WITHIN = timedelta(minutes=5)


def decide(
    desk: Desk,
    callback_id: str,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    also: Collection[str] = (),
    owner: str | None = None,
    due_at: datetime | None = None,
    on: date | None = None,
    accepted: Collection[str] = (),
    decided_before: int | None = None,
) -> Task:
    """Decide, whoever has the callback; returns the task that this makes.

    `also` are other open callbacks of the patient that it decides; each gets a task of its own.
    It goes to `owner` (a staff id), else to whoever has the callback, else it is everybody's. `due_at` is by when the
    patient is told; without it the decision and the callback's urgency say. `on` is the day of the extra visit, where one is
    named, with the questions about it that were `accepted` (see `keep_decision`). `decided_before` is how many decisions the
    decider has seen of this patient's open callbacks: `Conflict` if there was another one meanwhile.
    """
    if outcome not in DECISIONS:
        raise CareError("choose what is to happen", "outcome")
    with desk.store.transaction():
        if owner:
            one_who_may(desk.store, owner, "owner")
        about = chosen(desk, callback_id, also)
        known = made_for(desk.store, open_of_patient(desk.store, about[0]))
        if decided_before is not None and len(known) != decided_before:
            what = f"{known[-1].made_by_name} decided" if known else "something was changed"
            raise Conflict(f"meanwhile {what}; look at it again")
        for found in about:
            if found.state == "waiting":
                claim(desk, found.id)
        return keep_decision(desk, about, outcome, words, clinic, owner=owner, due_at=due_at, on=on, accepted=accepted)[0]


def made_for(store: Store, open_ones: Iterable[Callback]) -> list[Task]:
    """Every task of these callbacks, open or not, in the order made."""
    return sorted((t for c in open_ones for t in tasks.of_callback(store, c.id)), key=lambda t: t.id)


def tell_of_plan(desk: Desk, callback_id: str, words: str) -> Task:
    """The plan was changed in answer to a callback: somebody tells the patient; returns the task."""
    found = known_callback(desk.store, callback_id)
    if found.state == "settled":
        raise Conflict("this callback is settled")
    holder = found.claimed_by if found.state == "claimed" else None
    if found.state == "waiting":
        claim(desk, callback_id)
    return make_task(desk, found, "plan-changed", words, new_id(), owner=holder)


def can_undo(desk: Desk, found: Callback) -> bool:
    """Whether this person settled the callback, or decided, only a short while ago and nobody has called since."""
    if found.settled_at is not None:
        return (
            found.outcome != "follow-up-ended"
            and found.settled_by == desk.actor.id
            and desk.now - found.settled_at <= UNDO_WITHIN
        )
    return _just_decided(desk, found) is not None


def undo(desk: Desk, callback_id: str) -> None:
    """Take back a settlement or a decision within five minutes, with all that it settled or decided of the patient at once;
    a visit that it added leaves the book again.
    """
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        if not can_undo(desk, found):
            raise Conflict(
                "only the person who settled or decided it can take it back, for five minutes, and until somebody called"
            )
        task = _just_decided(desk, found)
        if task is not None:
            for same in tasks.made_with(desk.store, task):
                _undo_decision(desk, same)
        else:
            for settled in _settled_with(desk, found):
                _undo_settlement(desk, settled)


def _undo_decision(desk: Desk, task: Task) -> None:
    found = known_callback(desk.store, task.callback_id)
    drop(desk, task, "taken back")
    worries.put_due(desk.store, found.id, found.opened_at + DUE_WITHIN[found.how_soon])
    if ("claimed", task.made_at) in [(s.step, s.at) for s in worries.steps_of(desk.store, found.id)]:
        worries.release(desk.store, found.id, desk.actor.id)
    _note_undone(desk, found)


def _undo_settlement(desk: Desk, found: Callback) -> None:
    assert found.settled_at is not None
    if not worries.reopen(desk.store, found.id, desk.actor.id):
        raise Conflict("the same worry was raised again meanwhile; see the new callback")
    tasks.reopen(desk.store, found.id, found.settled_at)
    _note_undone(desk, found)


def _note_undone(desk: Desk, found: Callback) -> None:
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, "taken back", {"by": desk.actor.name})
    desk.note("callback taken back", found.id)


def _settled_with(desk: Desk, found: Callback) -> list[Callback]:
    """What this person settled of the patient in the same moment."""
    return [c for c in of_patient(desk.store, found) if c.settled_at == found.settled_at and can_undo(desk, c)]


def _just_decided(desk: Desk, found: Callback) -> Task | None:
    """This person's fresh decision that nobody has acted on."""
    if found.state != "to-do":
        return None
    last = tasks.of_callback(desk.store, found.id)[-1]
    fresh = last.done_at is None and last.made_by == desk.actor.id and desk.now - last.made_at <= UNDO_WITHIN
    called = any(
        s.at >= last.made_at and s.step in ("reached", "not reached") for s in worries.steps_of(desk.store, found.id)
    )
    return last if fresh and not called else None


def keep_decision(
    desk: Desk,
    about: Sequence[Callback],
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    owner: str | None,
    due_at: datetime | None = None,
    told_at: datetime | None = None,
    on: date | None = None,
    accepted: Collection[str] = (),
) -> list[Task]:
    """A task for each callback; an eye gets one visit, however many of its worries and of its fellow's bring it in.

    `on` is the day of a visit that is to be sooner; without one it is the day proposed. Raises `Asks` for another day that
    is closed, full, or late for what is open, until that was `accepted`, and `CareError` for a visit where no eye of the
    patient is followed.
    """
    if due_at is not None and not desk.now < due_at <= desk.now + FURTHEST_AHEAD:
        raise CareError("by when it is done is still to come, and within a year from today", "by")
    booked: dict[str, str] = {}
    decision = new_id()
    made = []
    for found in about:
        comes = _comes_with(desk.store, found) if outcome in ("sooner", "same-day") else ""
        if comes and comes not in booked:
            target = _day_of(desk, found, on, clinic, accepted) if outcome == "sooner" else desk.today
            reason = f"after a callback ({found.worry})"
            booked[comes] = add_extra_visit(desk, comes, desk.today, target, reason)
        whose = owner or (found.claimed_by if found.state == "claimed" else None)
        made.append(
            make_task(
                desk,
                found,
                outcome,
                words,
                decision,
                owner=whose,
                due_at=due_at,
                told_at=told_at,
                visit_id=booked.get(comes),
            )
        )
    return made


def _comes_with(store: Store, found: Callback) -> str:
    """The eye with which its patient comes: a fellow eye that is not followed has no line on the list of the day.

    Raises `CareError` where neither is followed: nobody would wait for them.
    """
    eye = eyes.eye(store, found.eye_id)
    if eye is None or eye.is_followed:
        return found.eye_id
    followed = eyes.followed_of(store, eye.patient.id)
    if not followed:
        raise CareError(
            "follow-up has ended, so that this visit would be on no list of the day: take up follow-up first, on the page of "
            "the patient",
            "outcome",
        )
    return followed[0].id


def proposed_day(found: Callback, days: Openings) -> date:
    """The day on which an eye with this worry is to come sooner: the first that has a place and is soon enough."""
    return schedule.extra_day(days.first, SOONER_WITHIN[found.how_soon], days.places, days.booked)


def _day_of(desk: Desk, found: Callback, on: date | None, clinic: Clinic, accepted: Collection[str]) -> date:
    """The day named for its visit, or the one proposed."""
    proposed = proposed_day(found, ahead(desk.store, clinic, desk.today))
    if on is None or on == proposed:
        return proposed
    try:
        book.check_day(desk, load(desk.store, found.eye_id, desk.zone), on, "the visit")
    except CareError as error:
        raise CareError(str(error), "on") from error
    doubts = book.doubts_of_day(desk, clinic, on)
    latest = max(proposed, desk.today + timedelta(days=SOONER_WITHIN[found.how_soon]))
    if on > latest:
        doubts.append(
            f"{found.worry.replace('-', ' ')} is for {found.how_soon.replace('-', ' ')}: come by {bounds.words(latest)}"
        )
    book.ask(doubts, accepted)
    return on
