"""Lists for the clinic: who is due, who is missing, who is at risk, whom we have not heard from."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from followup.care.home import enrol
from followup.care.reading import finding
from followup.care.reading.attendance import attended_by_eye
from followup.care.watch import watching
from followup.clinical.warnings import HOW_SOON, HowSoon
from followup.records import Store, events, eyes, messages, patients, visits, worries
from followup.records.bodies.clinic import ArrivedBody, DidNotComeBody
from followup.records.values import Callback, Change, Eye, Message, Patient, Refused, Unreadable, Visit, saying

LOOK_AHEAD = timedelta(days=7)
MOST_FOUND = 40
REFUSED_SHOWN = 5


@dataclass(frozen=True)
class Due:
    """A visit on the clinic's list: `state` is here, due, missed, seen or coming; `reason` the worst open worry in words.

    `at` is when its patient came or was seen; `arrival` the entry that says that they came.
    """

    eye: Eye
    visit: Visit
    state: str
    how_soon: HowSoon | None
    worry: str
    reason: str
    last_heard: datetime | None
    at: datetime | None
    arrival: str


STATES = ("here", "due", "missed", "seen", "coming")


def due_visits(store: Store, now: datetime, zone: tzinfo) -> list[Due]:
    """Visits due up to a week from today: who is here, today's, the missed, those seen today, the coming ones."""
    today = now.astimezone(zone).date()
    until = today + LOOK_AHEAD
    followed = {known.id: known for known in eyes.followed(store)}
    seen, arrived = (attended_by_eye(store, kind, zone) for kind in ("seen", "arrived"))
    open_ones = worries.open_callbacks(store)
    worst, many = worst_by_eye(open_ones), Counter(c.eye_id for c in open_ones)
    heard = events.last_heard(store)
    resumed = eyes.resumed_at(store)
    arrivals = {said.visit_id: e.id for e, said in saying(events.of_kind(store, "arrived"), ArrivedBody)}
    absences = saying(events.of_kind(store, "did-not-come"), DidNotComeBody)
    stayed_away = {(said.visit_id, said.on) for _, said in absences}
    found = []
    with watching.parts(store, now, "list") as part:
        for visit in (v for v in visits.of_followed(store) if v.target <= until):
            id = visit.eye_id
            seen_at, here_at = seen[id].get(visit.identity), arrived[id].get(visit.identity)
            if seen_at and seen_at.astimezone(zone).date() < today:
                continue
            if not seen_at and visit.latest < _stage_began(followed.get(id), resumed.get(id), zone):
                continue
            with part(f"visits {visit.id}"):
                here = here_at is not None and here_at.astimezone(zone).date() >= today
                away = (visit.identity, visit.target) in stayed_away
                state = "seen" if seen_at else "here" if here else "missed" if away else _state(visit, today)
                how_soon = worst[id].how_soon if id in worst else None
                worry = worst[id].worry if id in worst else ""
                reason = _reason(store, worst[id]) if id in worst else ""
                reason += f" And {many[id] - 1} more." if many[id] > 1 else ""
                at, arrival = seen_at or (here_at if here else None), arrivals.get(visit.identity, "") if here else ""
                found.append(Due(followed[id], visit, state, how_soon, worry, reason, heard.get(id), at, arrival))
    return sorted(found, key=lambda d: (STATES.index(d.state), _rank(d.how_soon), d.visit.target, d.eye.patient.name))


def by_time(due: Iterable[Due]) -> list[Due]:
    """In the order in which people are expected: by day, time (where the clinic keeps times), urgency and name."""

    def order(d: Due) -> tuple[date, bool, time, int, str]:
        starts = d.visit.starts
        return d.visit.target, starts is None, starts or time(), _rank(d.how_soon), d.eye.patient.name

    return sorted(due, key=order)


def _stage_began(eye: Eye | None, resumed: datetime | None, zone: tzinfo) -> date:
    """The day of the latest operation or of taking follow-up up again: what was missed before is waited for no more."""
    times = [at for at in (eye.note.operated_at if eye and eye.note else None, resumed) if at]
    return max((at.astimezone(zone).date() for at in times), default=date.min)


def _reason(store: Store, callback: Callback) -> str:
    raised = worries.warnings_of_callback(store, callback.id)
    if not raised:
        return "What raised this callback cannot be read."
    return raised[0].words + (" Rests on an entry that was put right." if raised[0].unfounded else "")


def worst_by_eye(callbacks: Iterable[Callback]) -> dict[str, Callback]:
    """The most urgent open callback of each eye."""
    worst: dict[str, Callback] = {}
    for c in callbacks:
        id = c.eye_id
        if id not in worst or _rank(c.how_soon) < _rank(worst[id].how_soon):
            worst[id] = c
    return worst


@dataclass(frozen=True)
class Found:
    """A patient with both eyes."""

    patient: Patient
    eyes: tuple[Eye, ...]

    @property
    def followed(self) -> bool:
        return any(eye.is_followed for eye in self.eyes)


@dataclass(frozen=True)
class Findings:
    """Those shown, whoever has an eye that is followed first; `more` where others were found too."""

    shown: tuple[Found, ...]
    more: bool


def find(store: Store, words: str, today: date) -> Findings:
    """Patients by parts of a name, number or phone, by birth date, or by a scanned discharge card (its address or code)."""
    known = _find(store, words, today)
    shown = tuple(Found(p, tuple(eyes.of_patient(store, p.id))) for p in known[:MOST_FOUND])
    return Findings(shown, len(known) > MOST_FOUND)


def _find(store: Store, words: str, today: date) -> list[Patient]:
    code = words.rpartition("code=")[2] if "code=" in words else words
    carded = enrol.patient_of_code(store, code)
    known = patients.patient(store, carded) if carded else None
    if known is not None:
        return [known]
    born = finding.dates_in(words, today)
    ways = (patients.found(store, asked, born, MOST_FOUND + 1) for asked in finding.asked(words))
    return next((found for found in ways if found), [])


@dataclass(frozen=True)
class Troubles:
    """What staff must look at themselves: entries refused, records that cannot be read, messages that did not go."""

    refused: list[Refused]
    unreadable: list[Unreadable]
    unsent: list[Message]


def troubles(store: Store) -> Troubles:
    """The latest refused entries, and all else that waits for a person."""
    return Troubles(events.refused(store)[:REFUSED_SHOWN], eyes.unreadable(store), messages.troubled(store))


@dataclass(frozen=True)
class ToTell:
    """A change of a visit that its patient has to be told of; `change.changed` is withdrawn where it was cancelled."""

    eye: Eye
    change: Change


def to_tell(store: Store, now: datetime, today: date) -> list[ToTell]:
    """Whom nobody has told yet of a visit that was moved or cancelled, the soonest first; what is over is left out."""
    found = []
    for change in visits.to_tell(store):
        with watching.alone(store, now, "list", f"visits {change.changed.id}"):
            eye = eyes.eye(store, change.changed.eye_id)
            if eye and max(change.before.target, change.changed.target) >= today:
                found.append(ToTell(eye, change))
    return sorted(found, key=lambda t: min(t.change.before.target, t.change.changed.target))


def _rank(how_soon: HowSoon | None) -> int:
    return len(HOW_SOON) if how_soon is None else HOW_SOON.index(how_soon)


def _state(visit: Visit, today: date) -> str:
    if visit.latest < today:
        return "missed"
    return "due" if visit.target <= today else "coming"
