"""Callbacks: claimed by one person, tried, decided, done; moved up when nobody does.

A decision makes a task, and the callback stays on the list until somebody has spoken to the patient or carer and what
was decided is done. Only then is it settled.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta, tzinfo

from followup.care import watching
from followup.care.actors import CLOCK, Actor
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.events import HeardBody, stored
from followup.care.openings import open_days
from followup.care.visit import add_extra_visit, withdraw_visit
from followup.clinical import schedule
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic
from followup.records import Store, audit, events, tasks, visits, worries
from followup.records.store import new_id
from followup.records.values import Callback, Step, Task

OUTCOMES: dict[str, str] = {
    "advice": "advice given",
    "sooner": "seen sooner",
    "same-day": "seen the same day",
    "theatre": "theatre",
    "plan-changed": "told of the changed plan",
    "no-action": "no action, and why",
    "follow-up-ended": "closed with the end of follow-up",
    "not-reached": "not reached",  # older records only
}
TASK_OF = {
    "advice": "phone",
    "sooner": "extra-visit",
    "same-day": "come-today",
    "theatre": "theatre",
    "plan-changed": "plan-changed",
}
DECISIONS = ("advice", "sooner", "same-day", "theatre")
SETTLED_AT_ONCE = ("advice", "no-action")
CHOICES = {code: OUTCOMES[code] for code in (*DECISIONS, "no-action")}
_OUTCOME_OF = {kind: outcome for outcome, kind in TASK_OF.items()}
TASKS: dict[str, str] = {
    "phone": "phone the patient with the advice",
    "come-today": "phone the patient: come today",
    "extra-visit": "phone the patient: come sooner",
    "theatre": "phone the patient: theatre",
    "plan-changed": "phone the patient: the plan was changed",
}
TASKS_ONCE_TOLD: dict[str, str] = {
    "phone": "advice given: settle it",
    "come-today": "the patient knows; to be seen today",
    "extra-visit": "the patient knows; to be seen sooner",
    "theatre": "the patient knows; theatre to be confirmed",
    "plan-changed": "the patient knows of the changed plan: settle it",
}
URGENT = ("now", "today")
SOONER_DAYS = 3
UNDO_WITHIN = timedelta(minutes=5)
LEVELS = ("clinic nurse", "surgeon", "on-call contact")
# How soon to tell, try again and confirm. Common practice, no source.
TELL_WITHIN = {"come-today": timedelta(hours=1), "theatre": timedelta(hours=4)}
TRY_AGAIN_AFTER = {"now": timedelta(minutes=15), "today": timedelta(hours=1), "this-week": timedelta(days=1)}
LATE_AFTER = timedelta(minutes=15)
CONFIRM_WITHIN = timedelta(days=1)


# --- Who has it ---


def claim(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take a waiting callback. Raises `Conflict` if somebody has it or it is settled."""
    with store.transaction():
        found = _get(store, callback_id)
        if found.state == "to-do":
            raise Conflict("this callback is decided; take what is to do")
        if not worries.claim(store, now, callback_id, actor.id):
            who = found.claimed_by_name or "somebody"
            state = "is settled" if found.state == "settled" else f"was claimed by {who}"
            raise Conflict(f"this callback {state}")
        worries.add_step(store, now, callback_id, actor.signature, "claimed", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback claimed", callback_id)


def take_over(store: Store, now: datetime, actor: Actor, callback_id: str, whose: str) -> None:
    """Take a claimed callback from `whose` (a staff id). Raises `Conflict` if that person has it no more."""
    with store.transaction():
        found = _get(store, callback_id)
        if found.state != "claimed" or not worries.take_over(store, callback_id, actor.id, whose):
            raise Conflict(_meanwhile(found.claimed_by_name if found.state == "claimed" else None))
        _note_taken(store, now, actor, callback_id, whose, found.claimed_by_name)


def release(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Give a claimed callback back to the list."""
    with store.transaction():
        if _get(store, callback_id).state == "to-do" or not worries.release(store, callback_id, actor.id):
            raise Conflict("only the person who claimed a callback can give it back")
        worries.add_step(store, now, callback_id, actor.signature, "given back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback given back", callback_id)


def take_task(store: Store, now: datetime, actor: Actor, task_id: str, whose: str | None) -> None:
    """Take what is to do from `whose` (a staff id, None: nobody's yet). Raises `Conflict` if it is theirs no more."""
    with store.transaction():
        task = _task(store, task_id)
        if not tasks.give(store, task_id, actor.id, whose):
            raise Conflict(_meanwhile(None if task.done_at else task.owner_name))
        if whose is None:
            worries.add_step(store, now, task.callback_id, actor.signature, "taken", {"by": actor.name})
            audit.note(store, now, actor.signature, "task taken", task.callback_id)
        else:
            _note_taken(store, now, actor, task.callback_id, whose, task.owner_name)


def give_back_task(store: Store, now: datetime, actor: Actor, task_id: str) -> None:
    """Put what is to do back on everybody's list."""
    with store.transaction():
        task = _task(store, task_id)
        if not tasks.give(store, task_id, None, actor.id):
            raise Conflict("only the person who has it can give it back")
        worries.add_step(store, now, task.callback_id, actor.signature, "given back", {"by": actor.name})
        audit.note(store, now, actor.signature, "task given back", task.callback_id)


# --- Calls ---


def attempt(
    store: Store,
    now: datetime,
    actor: Actor,
    callback_id: str,
    spoke_to: str | None,
    words: str,
    clinic: Clinic,
    next_try: datetime | None = None,
) -> None:
    """Record a call: whom it reached (`patient`, `carer` or None for nobody) and what was said.

    A call that reached nobody closes nothing: it sets the next try, and after as many in a row as the clinic set the
    callback moves up.
    """
    with store.transaction():
        found = _get(store, callback_id)
        open_tasks = _in_hand(store, found, actor)
        step = "reached" if spoke_to else "not reached"
        due = None if spoke_to else _next_try(found, now, next_try)
        detail = {"by": actor.name, "words": words, "spoke_to": spoke_to, "next_try": due.isoformat() if due else None}
        worries.add_step(store, now, callback_id, actor.signature, step, detail)
        if due is None:
            body = stored(HeardBody(words=words))
            events.add(store, new_id(), found.eye_id, "heard", now, body, actor.signature, now)
            for task in open_tasks:
                tasks.told(store, now, task.id, _do_by(task, now, clinic.tz))
            _due_with_its_tasks(store, now, found)
        else:
            worries.put_due(store, callback_id, due + LATE_AFTER, due)
            _move_up_after_tries(store, now, found, due + LATE_AFTER, clinic.calls_before_moving_up)
        audit.note(store, now, actor.signature, "callback attempt", callback_id, {"reached": bool(spoke_to)})


def _next_try(found: Callback, now: datetime, asked: datetime | None) -> datetime:
    latest = now + DUE_WITHIN[found.how_soon]
    next_try = asked or now + TRY_AGAIN_AFTER[found.how_soon]
    if not now < next_try <= latest:
        hours = DUE_WITHIN[found.how_soon] / timedelta(hours=1)
        raise CareError(f"the next try is still to come, and within {hours:g} hour{'s' if hours != 1 else ''}", "next_try")
    return next_try


def _move_up_after_tries(store: Store, now: datetime, found: Callback, due: datetime, calls: int) -> None:
    steps = [s.step for s in worries.steps_of(store, found.id) if s.step in ("reached", "not reached")]
    tries = next((n for n, step in enumerate(reversed(steps)) if step == "reached"), len(steps))
    if tries % calls == 0 and found.level < len(LEVELS) - 1:
        _move_up(store, now, found, due, {"why": f"not reached in {tries} calls"})


# --- Decisions and what is to do ---


def decide(
    store: Store,
    now: datetime,
    actor: Actor,
    callback_id: str,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    owner: str | None = None,
    due_at: datetime | None = None,
    decided_before: int | None = None,
) -> Task:
    """Decide, whoever has the callback; returns the task that this makes.

    It goes to `owner` (a staff id), else to whoever has the callback, else it is everybody's. `due_at` is by when the
    patient is told; without it the decision and the callback's urgency say. `decided_before` is how many decisions the
    decider has seen: `Conflict` if there was another one meanwhile.
    """
    if outcome not in DECISIONS:
        raise CareError("choose what is to happen", "outcome")
    with store.transaction():
        found = _get(store, callback_id)
        known = tasks.of_callback(store, callback_id)
        if decided_before is not None and len(known) != decided_before:
            raise Conflict(f"meanwhile {known[-1].made_by_name} decided; look at it again")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(store, now, actor, callback_id)
        return _decided(store, now, actor, found, outcome, words, clinic, owner=owner or holder, due_at=due_at)


def tell_of_plan(store: Store, now: datetime, actor: Actor, callback_id: str, words: str) -> Task:
    """The plan was changed in answer to a callback: somebody tells the patient; returns the task."""
    with store.transaction():
        found = _get(store, callback_id)
        if found.state == "settled":
            raise Conflict("this callback is settled")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(store, now, actor, callback_id)
        return _make_task(store, now, actor, found, "plan-changed", words, owner=holder)


def settle(
    store: Store,
    now: datetime,
    actor: Actor,
    callback_id: str,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    told: bool = False,
) -> Task | None:
    """What came of a call, by whoever has the callback: advice given and no action settle it; what is still to be done
    becomes this person's task, which is returned. `told`: the patient or carer knows of it from the call on record.
    """
    if outcome not in CHOICES:
        raise CareError("choose an outcome: nothing is closed without one", "outcome")
    words = words.strip()
    if outcome == "no-action" and not words:
        raise CareError("say why no action is needed", "words")
    with store.transaction():
        found = _get(store, callback_id)
        if found.state == "to-do":
            raise Conflict("it is decided what is to do; that comes first")
        _in_hand(store, found, actor)
        if outcome not in SETTLED_AT_ONCE:
            if told:
                _spoken(store, found)
            return _decided(store, now, actor, found, outcome, words, clinic, owner=actor.id, told_at=now if told else None)
        if found.how_soon in URGENT:
            if not (outcome == "no-action" and actor.role == "surgeon"):
                _spoken(store, found)
        elif not words and not _conversation(worries.steps_of(store, callback_id)):
            raise CareError("nobody was spoken to: say why that is enough", "words")
        _settle(store, now, actor, found, outcome, words)
        return None


def finish(store: Store, now: datetime, actor: Actor, task_id: str, words: str) -> None:
    """What was decided is done, and the patient or carer was spoken to. The last one settles the callback."""
    with store.transaction():
        task, found = _my_task(store, actor, task_id)
        if task.told_at is None:
            raise CareError("nobody has spoken to the patient or carer about this yet: record the call", "reached")
        _spoken(store, found)
        tasks.end(store, now, task_id, actor.id, words.strip())
        outcome = _OUTCOME_OF[task.kind]
        detail = {"by": actor.name, "outcome": outcome, "words": words.strip()}
        worries.add_step(store, now, task.callback_id, actor.signature, "done", detail)
        audit.note(store, now, actor.signature, "task done", task.callback_id, {"task": task.kind})
        if _get(store, found.id).state == "to-do":
            _due_with_its_tasks(store, now, found)
        else:
            _settle(store, now, actor, found, outcome, "")


def give_up(store: Store, now: datetime, actor: Actor, task_id: str, words: str) -> None:
    """What was decided will not be done: the callback is on the list again, to be decided anew."""
    if not words.strip():
        raise CareError("say why it will not be done", "words")
    with store.transaction():
        task, found = _my_task(store, actor, task_id)
        detail = {"by": actor.name, "task": task.kind, "words": words.strip()}
        worries.add_step(store, now, found.id, actor.signature, "will not be done", detail)
        _drop(store, now, actor, task, words.strip())
        _due_with_its_tasks(store, now, found)
        left = _get(store, found.id)
        if left.state == "claimed" and left.claimed_by:
            worries.release(store, found.id, left.claimed_by)
        audit.note(store, now, actor.signature, "task given up", found.id, {"task": task.kind})


def close_for_end(store: Store, now: datetime, actor: Actor, found: Callback, why: str) -> None:
    """Follow-up ended: what was to do will not be done, and the callback is closed with the reason."""
    with store.transaction():
        for task in tasks.of_callback(store, found.id):
            if task.done_at is None:
                _drop(store, now, actor, task, why)
        _settle(store, now, actor, found, "follow-up-ended", why)


# --- Taking it back ---


def can_undo(store: Store, found: Callback, actor: Actor, now: datetime) -> bool:
    """Whether this person settled the callback, or decided, only a short while ago and nobody has called since."""
    if found.settled_at is not None:
        return found.outcome != "follow-up-ended" and found.settled_by == actor.id and now - found.settled_at <= UNDO_WITHIN
    return _just_decided(store, found, actor, now) is not None


def undo(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take back a settlement or a decision within five minutes; a visit that it added leaves the book again."""
    with store.transaction():
        found = _get(store, callback_id)
        if not can_undo(store, found, actor, now):
            raise Conflict(
                "only the person who settled or decided it can take it back, for five minutes, and until somebody called"
            )
        task = _just_decided(store, found, actor, now)
        if task is not None:
            _drop(store, now, actor, task, "taken back")
            worries.put_due(store, callback_id, found.opened_at + DUE_WITHIN[found.how_soon])
            if ("claimed", task.made_at) in [(s.step, s.at) for s in worries.steps_of(store, callback_id)]:
                worries.release(store, callback_id, actor.id)
        elif found.settled_at is not None and worries.reopen(store, callback_id, actor.id):
            tasks.reopen(store, callback_id, found.settled_at)
        else:
            raise Conflict("the same worry was raised again meanwhile; see the new callback")
        worries.add_step(store, now, callback_id, actor.signature, "taken back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback taken back", callback_id)


def _just_decided(store: Store, found: Callback, actor: Actor, now: datetime) -> Task | None:
    """This person's fresh decision that nobody has acted on."""
    if found.state != "to-do":
        return None
    last = tasks.of_callback(store, found.id)[-1]
    fresh = last.done_at is None and last.made_by == actor.id and now - last.made_at <= UNDO_WITHIN
    called = any(s.at >= last.made_at and s.step in ("reached", "not reached") for s in worries.steps_of(store, found.id))
    return last if fresh and not called else None


# --- The clock ---


def escalate_overdue(store: Store, now: datetime) -> list[Callback]:
    """Move every callback past its time one level up, each exactly once whoever asks; returns those moved.

    A callback whose task is late is late like one that nobody has taken. A fault in one holds up no other.
    """
    moved = []
    with watching.parts(store, now, "callback") as part:
        for found in worries.overdue_callbacks(store, now):
            if found.level >= len(LEVELS) - 1:
                continue
            with part(f"callbacks {found.id}"), store.transaction():
                due = now + max(DUE_WITHIN[found.how_soon] / 2, timedelta(minutes=30))
                if _move_up(store, now, found, due, {}):
                    moved.append(replace(found, level=found.level + 1))
    return moved


def _move_up(store: Store, now: datetime, found: Callback, due: datetime, detail: dict[str, str]) -> bool:
    if not worries.escalate(store, found.id, found.level, due):
        return False
    to = LEVELS[found.level + 1]
    worries.add_step(store, now, found.id, CLOCK.signature, "moved up", {"to": to, **detail})
    audit.note(store, now, CLOCK.signature, "callback moved up", found.id, {"to": to})
    return True


# --- Parts of the above ---


def _decided(
    store: Store,
    now: datetime,
    actor: Actor,
    found: Callback,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    owner: str | None,
    due_at: datetime | None = None,
    told_at: datetime | None = None,
) -> Task:
    if found.state == "settled":
        raise Conflict("this callback is settled")
    if due_at is not None and due_at <= now:
        raise CareError("by when it is done is still to come", "by")
    today = now.astimezone(clinic.tz).date()
    visit_id = None
    if outcome in ("sooner", "same-day"):
        target = _extra_day(store, today, SOONER_DAYS if outcome == "sooner" else 0, clinic)
        reason = f"after a callback ({found.worry})"
        visit_id = add_extra_visit(store, now, actor, found.eye_id, today, target, reason)
    return _make_task(
        store,
        now,
        actor,
        found,
        outcome,
        words,
        owner=owner,
        due_at=due_at,
        told_at=told_at,
        visit_id=visit_id,
        zone=clinic.tz,
    )


def _extra_day(store: Store, today: date, within_days: int, clinic: Clinic) -> date:
    places = open_days(clinic, today, today + timedelta(days=within_days))
    return schedule.extra_day(today, within_days, places, visits.booked_counts(store))


def _make_task(
    store: Store,
    now: datetime,
    actor: Actor,
    found: Callback,
    outcome: str,
    words: str,
    *,
    owner: str | None,
    due_at: datetime | None = None,
    told_at: datetime | None = None,
    visit_id: str | None = None,
    zone: tzinfo | None = None,
) -> Task:
    kind = TASK_OF[outcome]
    usual = DUE_WITHIN[found.how_soon]
    due = due_at or now + min(TELL_WITHIN.get(kind, usual), usual)
    words = words.strip()
    id = tasks.add(store, now, found, kind, words, actor.id, owner, due, told_at=told_at, visit_id=visit_id)
    if told_at is not None and zone is not None:
        tasks.told(store, told_at, id, _do_by(_task(store, id), now, zone))
    detail = {"by": actor.name, "outcome": outcome, "words": words, "task": id}
    worries.add_step(store, now, found.id, actor.signature, "decided", detail)
    worries.back_to_the_clinic(store, found.id)
    _due_with_its_tasks(store, now, found)
    audit.note(store, now, actor.signature, "callback decided", found.id, {"outcome": outcome})
    return _task(store, id)


def _do_by(task: Task, now: datetime, zone: tzinfo) -> datetime:
    """By when it is done once the patient knows: with the day of its visit, else as soon as it is confirmed."""
    if task.visit_on:
        day = max(task.visit_on, now.astimezone(zone).date())
        return datetime.combine(day + timedelta(days=1), time(), zone)
    return now + (CONFIRM_WITHIN if task.kind == "theatre" else DUE_WITHIN["now"])


def _due_with_its_tasks(store: Store, now: datetime, found: Callback) -> None:
    """A callback is due with the earliest of its tasks; without one, anew by its urgency."""
    open_tasks = [t for t in tasks.of_callback(store, found.id) if t.done_at is None]
    due = min((t.due_at for t in open_tasks), default=now + DUE_WITHIN[found.how_soon])
    worries.put_due(store, found.id, due)


def _drop(store: Store, now: datetime, actor: Actor, task: Task, why: str) -> None:
    """End a task that is not done, and take its visit out of the book."""
    tasks.end(store, now, task.id, actor.id, why, given_up=True)
    if task.visit_id:
        withdraw_visit(store, now, actor, task.eye_id, task.visit_id)


def _settle(store: Store, now: datetime, actor: Actor, found: Callback, outcome: str, words: str) -> None:
    worries.settle(store, now, found.id, actor.id, outcome)
    detail = {"by": actor.name, "outcome": outcome, "words": words}
    worries.add_step(store, now, found.id, actor.signature, "settled", detail)
    audit.note(store, now, actor.signature, "callback settled", found.id, {"outcome": outcome})


def _spoken(store: Store, found: Callback) -> None:
    """Raises `CareError` unless somebody was spoken to since the last urgent sign."""
    if not _conversation(worries.steps_of(store, found.id)):
        raise CareError(
            "nobody has spoken to the patient or carer since this was raised: record the call that reached them", "outcome"
        )


def _conversation(steps: Sequence[Step]) -> bool:
    """Whether a call reached somebody after the last urgent sign; after any sign where none was urgent."""
    spoken = False
    for step in steps:
        if step.step == "reached":
            spoken = True
        elif step.step in ("opened", "raised again") and step.detail.get("how_soon") in URGENT:
            spoken = False
    return spoken


def _note_taken(store: Store, now: datetime, actor: Actor, callback_id: str, whose: str, name: str | None) -> None:
    detail = {"by": actor.name, "from": name, "from_id": whose}
    worries.add_step(store, now, callback_id, actor.signature, "taken over", detail)
    audit.note(store, now, actor.signature, "callback taken over", callback_id, {"from": whose})


def _meanwhile(holder: str | None) -> str:
    return f"meanwhile {holder} has it" if holder else "meanwhile this has changed; look at it again"


def _get(store: Store, callback_id: str) -> Callback:
    found = worries.callback(store, callback_id)
    if found is None:
        raise NotFound("there is no such callback")
    return found


def _task(store: Store, task_id: str) -> Task:
    found = tasks.task(store, task_id)
    if found is None:
        raise NotFound("there is no such task")
    return found


def _my_task(store: Store, actor: Actor, task_id: str) -> tuple[Task, Callback]:
    """An open task of this person, and its callback."""
    task = _task(store, task_id)
    if task.done_at:
        raise Conflict("this was ended meanwhile")
    if task.owner != actor.id:
        raise Conflict(f"{task.owner_name or 'nobody'} has this now; take it first")
    return task, _get(store, task.callback_id)


def _in_hand(store: Store, found: Callback, actor: Actor) -> list[Task]:
    """The open tasks of a callback that this person has or works on. Raises `Conflict` where it is somebody else's."""
    if found.state == "settled":
        raise Conflict("this callback is settled")
    open_tasks = [t for t in tasks.of_callback(store, found.id) if t.done_at is None]
    mine = any(t.owner == actor.id for t in open_tasks) if open_tasks else found.claimed_by == actor.id
    if not mine:
        raise Conflict("claim the callback first, so that nobody else calls at the same time")
    return open_tasks
