"""What the clinic holds after a walk in the browser."""

from followup.records import Store, events, eyes
from followup.records.values import Event


def of_both_eyes(store: Store, eye_id: str, kind: str | None = None) -> list[Event]:
    """What stands of an eye and its fellow, of one kind or of every one: measures go to the eye they were taken on."""
    known = eyes.eye(store, eye_id)
    assert known is not None
    both = eyes.of_patient(store, known.patient.id)
    return [e for eye in both for e in events.of_eye(store, eye.id) if kind in (None, e.kind)]
