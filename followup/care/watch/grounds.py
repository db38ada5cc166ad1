"""Whether warnings still have what they rested on, after something was put right.

A warning has its grounds as long as its rule finds something in the eye's course at the time it was raised. When it finds
nothing there any more, the warning is marked and its callback is told; the callback stays open until a person settles it.
When a later correction brings the finding back, the mark goes, and a callback that was settled meanwhile is opened anew:
the same sign is never raised twice, so nothing else would call. Each of these is a row; the latest of a warning counts.
"""

from datetime import datetime, tzinfo

from followup.care.actors import CLOCK
from followup.care.desk import Desk
from followup.care.reading.eye import rulebook
from followup.care.reading.person import both_eyes
from followup.care.watch.raising import heard_again
from followup.clinical import warnings
from followup.clinical.callbacks import DUE_WITHIN
from followup.clinical.checks.look import Values
from followup.records import Store, worries
from followup.records.values import Warning

STEP = "entry put right"
Found = dict[str, dict[tuple[str, datetime], Values]]


def found(store: Store, patient_id: str, now: datetime, zone: tzinfo) -> Found:
    """What the rules find in both eyes of a patient, by eye: ask before and after something is put right."""
    book = rulebook(store)
    return {eye.id: warnings.found(eye.course, book, now) for eye in both_eyes(store, patient_id, zone)}


def follow(
    desk: Desk,
    patient_id: str,
    before: Found,
    told: str,
    reason: str,
    *,
    event_id: str | None = None,
    note_id: str | None = None,
) -> list[Warning]:
    """Compare the grounds of every kept warning with `before`; returns those that lost them.

    Call it in the transaction that put something right, by that event or that note of the operation. `told` says on the
    callbacks what was and what is.
    """
    after = found(desk.store, patient_id, desk.now, desk.zone)
    kept = [(w, eye_id) for eye_id in after for w in worries.warnings_of(desk.store, eye_id)]
    lost, back, changed = [], [], []
    for warning, eye_id in kept:
        key = warning.rule, warning.raised_at
        was, stands = before.get(eye_id, {}).get(key), after[eye_id].get(key)
        if stands is None and was is not None and not warning.unfounded:
            lost.append(warning)
        elif stands is not None and warning.unfounded:
            back.append(warning)
        elif stands is not None and was is not None and stands != was:
            changed.append(warning)
    for warning in (*lost, *back):
        worries.mark(desk.store, desk.now, warning.id, unfounded=warning in lost, event_id=event_id, note_id=note_id)
    for callback_id in dict.fromkeys(w.callback_id for w in (*lost, *back, *changed)):
        worries.add_step(
            desk.store,
            desk.now,
            callback_id,
            desk.actor.signature,
            STEP,
            {"by": desk.actor.name, "words": told, "why": f"because: {reason}"},
        )
    for warning in back:
        _call_again(desk.store, desk.now, warning)
    return lost


def _call_again(store: Store, now: datetime, warning: Warning) -> None:
    """A warning has its grounds again: somebody has to hear of it again, whatever was settled when it had none."""
    due = now + DUE_WITHIN[warning.how_soon]
    worries.open_anew(store, warning.callback_id, due)  # nothing where it is open, or another for this worry
    callback = worries.callback(store, warning.callback_id)
    if callback is None or callback.state == "settled":
        callback = worries.open_callback_of(store, warning.eye_id, warning.worry)
    assert callback is not None
    detail = {"rule": warning.rule, "how_soon": warning.how_soon, "words": warning.words}
    worries.add_step(store, now, callback.id, CLOCK.signature, "raised again", detail)
    heard_again(store, callback, warning.how_soon, now)
