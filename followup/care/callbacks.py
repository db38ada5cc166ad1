"""Callbacks: claimed by one person, tried, settled with an outcome; moved up when nobody does."""

from datetime import datetime, timedelta, tzinfo

from followup.care.actors import CLOCK, Actor
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.events import HeardBody, stored
from followup.care.eye import load
from followup.care.visit import bring_forward, put_back
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import Store, audit, eyes, worries
from followup.records.store import Row, new_id

OUTCOMES: dict[str, str] = {
    "advice": "advice given",
    "sooner": "seen sooner",
    "same-day": "seen the same day",
    "theatre": "theatre",
    "not-reached": "not reached",
    "no-action": "no action, and why",
}
SOONER_DAYS = 3
UNDO_WITHIN = timedelta(minutes=5)
LEVELS = ("clinic nurse", "surgeon", "on-call contact")


def claim(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take a waiting callback. Raises `Conflict` if somebody has it or it is settled."""
    with store.transaction():
        found = _get(store, callback_id)
        if not worries.claim(store, now, callback_id, actor.id):
            who = found["claimed_by_name"] or "somebody"
            state = "is settled" if found["state"] == "settled" else f"was claimed by {who}"
            raise Conflict(f"this callback {state}")
        worries.add_step(store, now, callback_id, actor.signature, "claimed", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback claimed", callback_id)


def release(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Give a claimed callback back to the list."""
    with store.transaction():
        if not worries.release(store, callback_id, actor.id):
            raise Conflict("only the person who claimed a callback can give it back")
        worries.add_step(store, now, callback_id, actor.signature, "given back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback given back", callback_id)


def attempt(store: Store, now: datetime, actor: Actor, callback_id: str, reached: bool, words: str, zone: tzinfo) -> None:
    """Record a call: whether the patient was reached and what was said."""
    with store.transaction():
        found = _get(store, callback_id)
        _mine(found, actor)
        detail = {"by": actor.name, "reached": reached, "words": words}
        worries.add_step(store, now, callback_id, actor.signature, "reached" if reached else "not reached", detail)
        if reached:
            body = stored(HeardBody(words=words))
            eyes.add_event(store, new_id(), found["operation_id"], "heard", now, body, actor.signature, now)
        audit.note(store, now, actor.signature, "callback attempt", callback_id, {"reached": reached})


def settle(
    store: Store, now: datetime, actor: Actor, callback_id: str, outcome: str, words: str, zone: tzinfo
) -> Row | None:
    """Settle with an outcome; `sooner` and `same-day` re-plan the next visit in the same step and return it."""
    if outcome not in OUTCOMES:
        raise CareError("choose an outcome: nothing is closed without one", "outcome")
    if outcome == "no-action" and not words.strip():
        raise CareError("say why no action is needed", "words")
    with store.transaction():
        found = _get(store, callback_id)
        _mine(found, actor)
        visit = None
        if outcome in ("sooner", "same-day"):
            eye = load(store, found["operation_id"], zone)
            days = 0 if outcome == "same-day" else SOONER_DAYS
            visit = bring_forward(store, now, actor, eye, days, f"after a callback ({found['worry']})", zone)
        worries.settle(store, now, callback_id, actor.id, outcome)
        detail = {"by": actor.name, "outcome": outcome, "words": words.strip(), "visit": visit["id"] if visit else None}
        worries.add_step(store, now, callback_id, actor.signature, "settled", detail)
        audit.note(store, now, actor.signature, "callback settled", callback_id, {"outcome": outcome})
    return visit


def decide(
    store: Store, now: datetime, actor: Actor, callback_id: str, outcome: str, words: str, zone: tzinfo
) -> Row | None:
    """A surgeon's decision in one step: take the callback if it is waiting, and settle it."""
    with store.transaction():
        if _get(store, callback_id)["state"] == "waiting":
            claim(store, now, actor, callback_id)
        return settle(store, now, actor, callback_id, outcome, words, zone)


def can_undo(found: Row, actor: Actor, now: datetime) -> bool:
    """Whether this person settled the callback only a short while ago."""
    mine = found["state"] == "settled" and found["claimed_by"] == actor.id
    return bool(mine and now - found["settled_at"] <= UNDO_WITHIN)


def undo(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take back a settlement within five minutes; a visit that it moved goes back to its place."""
    with store.transaction():
        found = _get(store, callback_id)
        if not can_undo(found, actor, now):
            raise Conflict("only the person who settled it can take it back, and only for five minutes")
        if not worries.reopen(store, callback_id, actor.id):
            raise Conflict("the same worry was raised again meanwhile; see the new callback")
        moved = next(
            (s["detail"].get("visit") for s in reversed(worries.steps_of(store, callback_id)) if s["step"] == "settled"),
            None,
        )
        if moved:
            put_back(store, now, actor, found["operation_id"], moved)
        worries.add_step(store, now, callback_id, actor.signature, "taken back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback taken back", callback_id)


def escalate_overdue(store: Store, now: datetime) -> list[Row]:
    """Move every callback past its time one level up, each exactly once whoever asks; returns those moved."""
    moved = []
    for found in worries.overdue_callbacks(store, now):
        if found["level"] >= len(LEVELS) - 1:
            continue
        with store.transaction():
            due = now + max(DUE_WITHIN[found["how_soon"]] / 2, timedelta(minutes=30))
            if worries.escalate(store, found["id"], found["level"], due):
                to = LEVELS[found["level"] + 1]
                worries.add_step(store, now, found["id"], CLOCK.signature, "moved up", {"to": to})
                audit.note(store, now, CLOCK.signature, "callback moved up", found["id"], {"to": to})
                moved.append({**found, "level": found["level"] + 1})
    return moved


def _get(store: Store, callback_id: str) -> Row:
    found = worries.callback(store, callback_id)
    if found is None:
        raise NotFound("there is no such callback")
    return found


def _mine(found: Row, actor: Actor) -> None:
    if found["state"] == "settled":
        raise Conflict("this callback is settled")
    if found["claimed_by"] != actor.id:
        raise Conflict("claim the callback first, so that nobody else calls at the same time")
