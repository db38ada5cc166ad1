"""From signs to warnings and callbacks: kept once, merged while open, raised again when worse."""

from collections.abc import Iterator
from datetime import datetime, timedelta, tzinfo
from zlib import crc32

from followup.care.actors import CLOCK
from followup.care.reading.eye import Eye, load, rulebook
from followup.clinical import warnings
from followup.clinical.callbacks import DUE_WITHIN
from followup.clinical.next_look import next_look
from followup.clinical.rulebook import Rulebook
from followup.records import Store, audit, eyes, states, worries
from followup.records.values import Callback, Warning

LEFT_ALONE = timedelta(days=7)  # no eye is left for longer than twice that; common practice, no source


def raise_signs(store: Store, eye: Eye, now: datetime) -> list[Warning]:
    """Keep every sign of the eye's course that is not kept yet; returns the new ones, the most urgent first.

    Call it inside the transaction that recorded the cause. A late entry is judged at its own time; what it raises opens or
    joins a callback now.
    """
    book = rulebook(store)
    new = [_kept(store, eye, sign, book.version, now) for sign in new_signs(store, eye, book, now)]
    return most_urgent_first(new)


def new_signs(store: Store, eye: Eye, book: Rulebook, now: datetime) -> Iterator[warnings.Sign]:
    """The signs of an eye's course that are not kept yet."""
    for sign in warnings.evaluate(eye.course, book, now):
        if eye.watched_at(sign.raised_at) and not worries.has_warning(store, eye.id, sign.rule, sign.raised_at):
            yield sign


def raised_at(store: Store, eye_id: str, at: datetime) -> list[Warning]:
    """What was raised in an eye by what was recorded at that moment."""
    return [w for w in worries.warnings_of(store, eye_id) if w.recorded_at == at]


def raise_signs_of_patient(store: Store, patient_id: str, now: datetime, zone: tzinfo) -> list[Warning]:
    """`raise_signs` for both eyes: what is told of one may be about the other, or about the person.

    Whatever is entered is judged, also after follow-up has ended; what the clock alone raises is not.
    """
    both = eyes.of_patient(store, patient_id)
    if not any(known.followed_since for known in both):
        return []
    return most_urgent_first([w for known in both for w in raise_signs(store, load(store, known.id, zone), now)])


def check_eye(store: Store, eye_id: str, now: datetime, zone: tzinfo) -> list[Warning]:
    """What the clock alone may raise: silence, missed visits, missed posture, oil past its time."""
    return look(store, eye_id, now, zone)[0]


def look(store: Store, eye_id: str, now: datetime, zone: tzinfo) -> tuple[list[Warning], datetime]:
    """`check_eye`, and when the clock must look next. The write lock is taken only where something comes up."""
    eye, book = load(store, eye_id, zone), rulebook(store)
    raised: list[Warning] = []
    if next(new_signs(store, eye, book, now), None) is not None:
        with store.transaction():
            raised = raise_signs(store, load(store, eye_id, zone), now)
    return raised, _next(eye, book, now)


def _next(eye: Eye, book: Rulebook, now: datetime) -> datetime:
    """As the rules say, and within a week or two whatever they say; not all eyes on one day."""
    at_last = now + LEFT_ALONE * (1 + crc32(eye.id.encode()) / 2**32)
    return min(next_look(eye.course, book, now) or at_last, at_last)


def looked_at_too_late(store: Store, zone: tzinfo) -> list[str]:
    """The eyes in which something comes up before the clock would look again."""
    book = rulebook(store)
    kept = ((load(store, eye_id, zone), at) for eye_id, at in states.looks(store).items() if at is not None)
    return [eye.id for eye, at in kept if next(new_signs(store, eye, book, at - timedelta(microseconds=1)), None)]


def most_urgent_first(found: list[Warning]) -> list[Warning]:
    return sorted(found, key=lambda w: warnings.HOW_SOON.index(w.how_soon))


def _kept(store: Store, eye: Eye, sign: warnings.Sign, version: str, now: datetime) -> Warning:
    open_one = worries.open_callback_of(store, eye.id, sign.worry)
    if open_one is None:
        due = now + DUE_WITHIN[sign.how_soon]
        callback_id = worries.add_callback(store, eye.id, sign.worry, sign.how_soon, now, due)
        worries.add_step(store, now, callback_id, CLOCK.signature, "opened", _summary(sign))
    else:
        callback_id = open_one.id
        worries.add_step(store, now, callback_id, CLOCK.signature, "raised again", _summary(sign))
        heard_again(store, open_one, sign.how_soon, now)
    kept = worries.add_warning(store, now, eye.id, callback_id, sign, version)
    audit.note(store, now, CLOCK.signature, "warning", eye.id, {"rule": sign.rule, "how_soon": sign.how_soon})
    return kept


def heard_again(store: Store, open_one: Callback, how_soon: warnings.HowSoon, now: datetime) -> None:
    """Something more has come up under an open callback: the more urgent counts, and it is due in time for what came up, also
    where what was decided before is due later.
    """
    worst = min(open_one.how_soon, how_soon, key=warnings.HOW_SOON.index)
    due = min(open_one.due_at, now + DUE_WITHIN[how_soon])
    if (worst, due) != (open_one.how_soon, open_one.due_at):
        worries.raise_callback(store, open_one.id, worst, due)


def _summary(sign: warnings.Sign) -> dict[str, str]:
    return {"rule": sign.rule, "how_soon": sign.how_soon, "words": sign.words}
