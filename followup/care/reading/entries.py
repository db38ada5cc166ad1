"""What was entered about an eye, for people to read: who, when, what, and what became of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

from followup.care.accounts import name_of
from followup.clinical import acuity
from followup.clinical.facts import FINDINGS
from followup.records import Store, events, eyes, people
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import BARRIERS, DidNotComeBody, MeasuresBody, VisitBody
from followup.records.bodies.home import PostureBody, SymptomsBody
from followup.records.bodies.kinds import stored
from followup.records.values import Event

LATE_FROM = timedelta(minutes=1)  # a shorter way is nothing to tell


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry with what it put right (`earlier`, the latest first) and what put it right or took it back (`later`).

    `side` is the eye it stands on. Where `later` is None it stands.
    """

    event: Event
    side: str
    who: str
    words: str
    earlier: tuple["Entry", ...] = ()
    later: "Entry | None" = None

    @property
    def is_withdrawn(self) -> bool:
        return self.later is not None and self.later.event.kind == "withdrawal"

    @property
    def came_late(self) -> bool:
        return self.event.received_at - self.event.at >= LATE_FROM


def of_eye(store: Store, eye_id: str, zone: tzinfo, most: int | None = None) -> list[Entry]:
    """The entries of an eye, newest first; not more than `most`. One that was put right on the same eye is found under what
    stands in its place.
    """
    known = eyes.eye(store, eye_id)
    return _of(store, known.patient.id, known.id, zone, most) if known else []


def entry(store: Store, event_id: str, zone: tzinfo) -> Entry | None:
    """One entry with its history; None where there is none, or only a withdrawal."""
    found = events.event(store, event_id)
    known = eyes.eye(store, found.eye_id) if found else None
    if found is None or known is None or found.kind == "withdrawal":
        return None
    return _Histories(store, known.patient.id, zone).entry(found)


def _of(store: Store, patient_id: str, eye_id: str, zone: tzinfo, most: int | None) -> list[Entry]:
    known = _Histories(store, patient_id, zone)
    shown = [e for e in known.by_eye[eye_id] if e.kind != "withdrawal" and not known.stands_below(e, eye_id)]
    shown.sort(key=lambda e: (e.at, e.id), reverse=True)
    return [known.entry(event) for event in shown[:most]]


class _Histories:
    """Every event of both eyes, and which puts right which."""

    def __init__(self, store: Store, patient_id: str, zone: tzinfo) -> None:
        self.store, self.zone = store, zone
        both = eyes.of_patient(store, patient_id)
        self.by_eye = {known.id: events.history_of(store, known.id) for known in both}
        self.side_of = {event.id: known.side for known in both for event in self.by_eye[known.id]}
        self.known = {event.id: event for found in self.by_eye.values() for event in found}
        self.later = {event.corrects: event for found in self.by_eye.values() for event in reversed(found) if event.corrects}
        self.names = {member.id: member.name for member in people.all_staff(store)}

    def stands_below(self, event: Event, eye_id: str) -> bool:
        """Whether it was put right on this same eye."""
        later = self.later.get(event.id)
        return later is not None and later.kind != "withdrawal" and self.side_of[later.id] == self.side_of[event.id]

    def entry(self, event: Event) -> Entry:
        earlier, before = [], self.known.get(event.corrects or "")
        while before is not None:
            earlier.append(self._plain(before))
            before = self.known.get(before.corrects or "")
        later = self.later.get(event.id)
        return self._plain(event, tuple(earlier), self._plain(later) if later else None)

    def _plain(self, event: Event, earlier: tuple[Entry, ...] = (), later: Entry | None = None) -> Entry:
        side = self.side_of.get(event.id, "")
        words = said(event.body, self.zone)
        return Entry(event, side, who(self.store, event.author, self.names), words, earlier, later)


def who(store: Store, author: str, names: Mapping[str, str] | None = None) -> str:
    """The author of an entry in words; `names` of staff, where many are asked for."""
    return (names or {}).get(author.partition(":")[2]) or name_of(store, author)


def said(body: Body, zone: tzinfo) -> str:
    """What an entry says, in words; never raises, so that what cannot be read can still be withdrawn."""
    try:
        return _said(body, zone)
    except (OverflowError, ValueError):
        return "cannot be read"


def _said(body: Body, zone: tzinfo) -> str:
    match body:
        case MeasuresBody():
            return _measured(body)
        case PostureBody():
            ends = _clock(body.end, zone) if body.end else "still running"
            return f"{body.position.replace('-', ' ')}, {_clock(body.start, zone)} to {ends}"
        case VisitBody():
            return body.visit
        case DidNotComeBody():
            return ": ".join(filter(None, (body.visit, BARRIERS[body.barrier], body.words)))
    return _listed(body) or ("all as before" if isinstance(body, SymptomsBody) else body.KIND.replace("-", " "))


def _listed(body: Body) -> str:
    """Whatever was said, by its names."""
    told = {k: ", ".join(map(str, v)).replace("_", " ") if isinstance(v, list) else v for k, v in stored(body).items()}
    said = sorted((k, v) for k, v in told.items() if v is not False and v not in ("", None, "same"))
    return ", ".join(_part(name.replace("_", " "), what) for name, what in said)


def _part(name: str, what: object) -> str:
    if what is True:
        return name
    return f"“{what}”" if name == "words" else f"{name} {what}"


def _clock(at: datetime, zone: tzinfo) -> str:
    local = at.astimezone(zone)
    return f"{local.day} {local:%B} {local:%H:%M}"


def _measured(body: MeasuresBody) -> str:
    parts = [f"{body.eye} eye"]
    if body.acuity:
        seen = acuity.read(body.acuity, body.notation)
        parts.append(f"acuity {seen.typed} ({body.correction or 'unaided'})")
    if body.pinhole:
        parts.append(f"acuity {acuity.read(body.pinhole, body.notation).typed} (pinhole)")
    if body.acuity_not:
        parts.append(f"acuity not read: {body.acuity_not}")
    if body.iop_mmhg is not None:
        by = f" ({body.instrument})" if body.instrument else ""
        parts.append(f"pressure {body.iop_mmhg:g} mmHg{by}")
    if body.finger:
        parts.append(f"pressure by finger {body.finger}")
    if body.iop_not:
        parts.append(f"pressure not measured: {body.iop_not}")
    if body.bubble_percent is not None:
        parts.append(f"bubble {body.bubble_percent:g} % high")
    if body.pain is not None:
        parts.append(f"pain {body.pain}")
    findings = [FINDINGS.get(name, name) for name in body.findings]
    return ", ".join([*parts, *findings, *([body.notes] if body.notes else [])])
