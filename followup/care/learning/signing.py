"""Protocols: the clinic's own text, what a change would have done, and the surgeon's signature."""

from dataclasses import dataclass
from datetime import datetime, tzinfo

from followup.care.desk import Desk
from followup.care.errors import CareError, NotFound
from followup.care.reading.eye import load, protocol
from followup.clinical import warnings
from followup.protocols import book
from followup.records import Store, eyes, protocols


@dataclass(frozen=True)
class Effect:
    """What a changed rulebook would have done to one past eye: signs only one of the two books raises."""

    eye_id: str
    patient_name: str
    added: list[warnings.Sign]
    dropped: list[warnings.Sign]


def save(desk: Desk, part: str, text: str) -> str:
    """Keep a changed text as the clinic's new draft; returns its fingerprint. Raises `CareError` if it cannot be used."""
    _checked(part, text)
    mark = book.fingerprint(text)
    with desk.store.transaction():
        protocols.save_text(desk.store, desk.now, part, text, mark, desk.actor.signature)
        desk.note("protocol saved", part, {"fingerprint": mark})
    return mark


def sign(desk: Desk, part: str, fingerprint: str) -> None:
    """A surgeon signs the text in force; raises `CareError` if it changed since it was read."""
    if desk.actor.role != "surgeon":
        raise CareError("only a surgeon signs a protocol")
    if part not in book.PARTS:
        raise NotFound("there is no such part of the protocol")
    with desk.store.transaction():
        if protocol(desk.store, part).fingerprint != fingerprint:
            raise CareError("the text was changed since you opened it; read it again before signing")
        protocols.sign(desk.store, desk.now, part, fingerprint, desk.actor.id)
        desk.note("protocol signed", part, {"fingerprint": fingerprint})


def effects(store: Store, text: str, now: datetime, zone: tzinfo) -> list[Effect]:
    """What a changed rulebook would have raised, or not raised, on the clinic's own past eyes."""
    _checked("rulebook", text)
    old, new = book.rulebook(protocol(store, "rulebook").text), book.rulebook(text)
    found = []
    for row in eyes.operated(store):
        eye = load(store, row.id, zone)
        before, after = (warnings.evaluate(eye.course, rules, now) for rules in (old, new))
        added, dropped = _only_in(after, before), _only_in(before, after)
        if added or dropped:
            found.append(Effect(row.id, row.patient.name, added, dropped))
    return found


def _only_in(these: list[warnings.Sign], those: list[warnings.Sign]) -> list[warnings.Sign]:
    known = {(s.rule, s.raised_at, s.how_soon) for s in those}
    return [s for s in these if (s.rule, s.raised_at, s.how_soon) not in known]


def _checked(part: str, text: str) -> None:
    if part not in book.PARTS:
        raise CareError(f"“{part}” is not a part of the protocol; accepted are: {', '.join(book.PARTS)}")
    try:
        book.check(part, text)
    except book.ProtocolError as error:
        raise CareError(str(error), "text") from error
