"""Whether warnings still have what they rested on, after something was put right.

A warning has its grounds as long as its rule finds something in the eye's course at the time it was raised. When it finds
nothing there any more, the warning is marked and its callback is told; the callback stays open until a person settles it.
When a later correction brings the finding back, the mark goes, and a callback that was settled meanwhile is opened anew:
the same sign is never raised twice, so nothing else would call. So is one whose finding was worse than what was entered:
it was settled by what was wrong. Each mark is a row; the latest of a warning counts.
"""

from datetime import datetime, tzinfo

from followup.care.actors import CLOCK
from followup.care.desk import Desk
from followup.care.reading.eye import rulebook
from followup.care.reading.person import both_eyes
from followup.care.watch.raising import heard_again
from followup.clinical import warnings
from followup.clinical.callbacks import DUE_WITHIN
from followup.clinical.warnings import Finding
from followup.records import Store, eyes, worries
from followup.records.values import Callback, Warning

STEP = "entry put right"
CALLS_AGAIN = "raised again"
Found = dict[str, dict[tuple[str, datetime], Finding]]


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
    at: datetime | None = None,
    event_id: str | None = None,
    note_id: str | None = None,
) -> list[Warning]:
    """Compare the grounds of every kept warning with `before`; returns those that lost them.

    Call it in the transaction that put something right, by that event or that note of the operation. `told` says on the
    callbacks what was and what is. `at` is when what was put right happened: what is worse there than it was said to be
    calls again (only there: a warning of another time rests on it as what is usual for the eye, or was before).
    """
    after = found(desk.store, patient_id, desk.now, desk.zone)
    kept = [(w, eye_id) for eye_id in after for w in worries.warnings_of(desk.store, eye_id)]
    lost, back, changed, worse = [], [], [], []
    for warning, eye_id in kept:
        key = warning.rule, warning.raised_at
        was, stands = before.get(eye_id, {}).get(key), after[eye_id].get(key)
        if stands is None and was is not None and not warning.unfounded:
            lost.append(warning)
        elif stands is not None and warning.unfounded:
            back.append(warning)
        elif stands is not None and was is not None and stands != was:
            changed.append(warning)
            if warning.raised_at == at and stands.severity > was.severity:
                worse.append(warning)
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
    for warning in (*back, *worse):
        _call_again(desk.store, desk.now, warning, event_id or note_id)
    return lost


def called_again(store: Store, patient_id: str, by: str) -> list[Callback]:
    """The callbacks that call again because of what that event, or that note of an operation, put right."""
    both = eyes.of_patient(store, patient_id)
    return [
        c
        for eye in both
        for c in worries.callbacks_of(store, eye.id)
        if any(s.step == CALLS_AGAIN and s.detail.get("put_right_by") == by for s in worries.steps_of(store, c.id))
    ]


def _call_again(store: Store, now: datetime, warning: Warning, by: str | None) -> None:
    """A warning has its grounds again, or graver ones: somebody has to hear of it again, whatever was settled without them."""
    due = now + DUE_WITHIN[warning.how_soon]
    worries.open_anew(store, warning.callback_id, due)  # nothing where it is open, or another for this worry
    callback = worries.callback(store, warning.callback_id)
    if callback is None or callback.state == "settled":
        callback = worries.open_callback_of(store, warning.eye_id, warning.worry)
    assert callback is not None
    detail = {"rule": warning.rule, "how_soon": warning.how_soon, "words": warning.words, "put_right_by": by}
    worries.add_step(store, now, callback.id, CLOCK.signature, CALLS_AGAIN, detail)
    heard_again(store, callback, warning.how_soon, now)
