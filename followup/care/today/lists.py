"""Lists for the clinic: who is due, who is missing, who is at risk, whom we have not heard from."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo

from followup.care import accounts
from followup.care.home import enrol
from followup.care.home.senders import UNKNOWN
from followup.care.reading import finding, paging, state
from followup.care.watch import watching
from followup.clinical.warnings import HOW_SOON, HowSoon
from followup.records import Store, day_lists, events, eyes, messages, patients, people, states, visits
from followup.records.values import Change, Eye, Message, Patient, Refused, Unreadable, Visit, VisitState

LOOK_AHEAD = timedelta(days=7)
MOST_FOUND = 40
WISHES_SHOWN = 40
TO_TELL_SHOWN = 40
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


@dataclass(frozen=True)
class Request:
    """What a patient asked about a visit, in entry `id`; `identity` is the visit's, None where the book has none of that name."""

    id: str
    eye: Eye
    visit: str
    identity: str | None
    words: str
    at: datetime


STATES = day_lists.LIST_STATES
ON_THE_DAY = ("here", "due", "seen")
PARTS = {"day": ON_THE_DAY, "missed": ("missed",), "coming": ("coming",)}
FILTERS: dict[str, tuple[str, ...]] = {
    "today": (*ON_THE_DAY, "missed"),
    **{state: (state,) for state in ("here", "due", "missed", "seen")},
    "somebody": (*ON_THE_DAY, "missed"),
    "coming": ("coming",),
}
"""What of the list may be shown, with the states it holds; `somebody`: only visits of eyes with an open worry."""
LINES = 80  # on one page: more than a usual day has, so that a usual day is one page, printed too


@dataclass(frozen=True)
class TodayPage:
    """One page of today's list: its lines by part, how many each filter holds in all, and which page of how many it is."""

    parts: dict[str, list[Due]]
    sizes: dict[str, int]
    counts: dict[str, int]
    page: int
    pages: int


def today_page(store: Store, now: datetime, zone: tzinfo, shown: str, page: int = 1) -> TodayPage:
    """A page of the visits up to a week from today that a filter shows: the day's, then the missed, or the coming ones."""
    state.bring_up_to_date(store, now, zone)
    day, signs = _day(now, zone), shown == "somebody"
    held = day_lists.count_on_list(store, day)
    counts = {name: sum(held[kind][name == "somebody"] for kind in kinds) for name, kinds in FILTERS.items()}
    sizes = {part: sum(held[kind][signs] for kind in kinds if kind in FILTERS[shown]) for part, kinds in PARTS.items()}
    pages = max(1, -(-counts[shown] // LINES))
    page = min(max(1, page), pages)
    skipped, left = (page - 1) * LINES, LINES
    parts: dict[str, list[Due]] = {}
    for part, size in sizes.items():
        kinds = [kind for kind in PARTS[part] if kind in FILTERS[shown]]
        most = min(left, max(0, size - skipped))
        found = day_lists.on_list(store, kinds, day, signs=signs, most=most, after=skipped) if most else []
        parts[part] = _lines(store, now, found)
        skipped, left = max(0, skipped - size), left - most
    return TodayPage(parts, sizes, counts, page, pages)


def of_the_day(store: Store, now: datetime, zone: tzinfo) -> list[Due]:
    """Who is here, today's visits, the missed, those seen today, and of the coming ones those of eyes with an open worry."""
    state.bring_up_to_date(store, now, zone)
    day = _day(now, zone)
    noted = [
        *day_lists.on_list(store, FILTERS["today"], day),
        *day_lists.on_list(store, FILTERS["coming"], day, signs=True),
    ]
    found = _lines(store, now, noted)
    return sorted(found, key=lambda d: (STATES.index(d.state), _rank(d.how_soon), d.visit.target, d.eye.patient.name))


def due_in(store: Store, now: datetime, zone: tzinfo, kinds: Sequence[str]) -> list[Due]:
    """Those of them that are in one of these states, in the order in which they are expected."""
    state.bring_up_to_date(store, now, zone)
    return _lines(store, now, day_lists.on_list(store, kinds, _day(now, zone)))


def _day(now: datetime, zone: tzinfo) -> day_lists.Day:
    today = now.astimezone(zone).date()
    return day_lists.Day(today, state.midnight(now, zone), today + LOOK_AHEAD)


def _lines(store: Store, now: datetime, found: Sequence[tuple[str, VisitState]]) -> list[Due]:
    ids = list(dict.fromkeys(v.eye_id for _, v in found))
    known, worried = eyes.by_ids(store, ids), states.of_eyes(store, ids)
    planned = visits.versions(store, [v.visit_id for _, v in found])
    lines: list[Due] = []
    with watching.some(store, now, "list") as part:
        for kind, v in found:
            with part(f"visits {v.visit_id}"):
                one, here = worried[v.eye_id], kind == "here"
                at, arrival = v.seen_at or (v.here_at if here else None), v.arrival if here else ""
                worry = (one.how_soon, one.worry, one.reason)
                lines.append(Due(known[v.eye_id], planned[v.visit_id], kind, *worry, one.last_heard, at, arrival))
    return lines


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
    """Patients by parts of a name, number or phone, by birth date or both, or by a scanned discharge card (its address or code)."""
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
    beside, day = finding.date_beside(words, today)
    ways = (patients.found(store, asked, born, MOST_FOUND + 1) for asked in finding.asked(words))
    return next((found for found in ways if found), []) or patients.found(store, beside, day, MOST_FOUND + 1, both=True)


@dataclass(frozen=True)
class NotTaken:
    """An entry that was refused: why, when it came, and who sent it; for one from a phone also whose phone that is."""

    reason: str
    at: datetime
    who: str
    patient: Patient | None


@dataclass(frozen=True)
class Troubles:
    """What staff must look at themselves: entries refused, records that cannot be read, messages that did not go."""

    refused: list[NotTaken]
    unreadable: list[Unreadable]
    unsent: list[Message]


def troubles(store: Store) -> Troubles:
    """The latest refused entries, and all else that waits for a person."""
    refused = [_not_taken(store, one) for one in events.refused(store, REFUSED_SHOWN)]
    return Troubles(refused, eyes.unreadable(store), messages.troubled(store))


def _not_taken(store: Store, entry: Refused) -> NotTaken:
    phone = people.device(store, entry.device_id) if entry.device_id else None
    patient = patients.patient(store, phone.patient_id) if phone else None
    if phone and patient:
        is_carer = phone.carer_name or phone.used_by == "carer"
        carer = f"{accounts.name_of(store, f'carer:{phone.id}')} of " if is_carer else ""
        return NotTaken(entry.reason, entry.received_at, f"{carer}{patient.name} ({patient.number})", patient)
    known = entry.device_id and entry.device_id != UNKNOWN.id
    who = accounts.name_of(store, entry.device_id or "") if known else "somebody whom the clinic cannot tell"
    return NotTaken(entry.reason, entry.received_at, who, None)


@dataclass(frozen=True)
class ToTell:
    """A change of a visit that its patient has to be told of; `change.changed` is withdrawn where it was cancelled."""

    eye: Eye
    change: Change


def to_tell(store: Store, today: date, most: int = -1, after: int = 0) -> list[ToTell]:
    """Whom nobody has told yet of a visit that was moved or cancelled, the soonest first; what is over is left out."""
    found = visits.to_tell(store, today, most, after)
    known = eyes.by_ids(store, sorted({change.changed.eye_id for change in found}))
    return [ToTell(known[c.changed.eye_id], c) for c in found if c.changed.eye_id in known]


def to_tell_page(store: Store, today: date, page: int = 1, lines: int = paging.LINES) -> paging.Page[ToTell]:
    """So many of them, and how many there are."""
    return paging.page_of(
        visits.count_to_tell(store, today), page, lines, lambda most, after: to_tell(store, today, most, after)
    )


def open_requests(store: Store, now: datetime, zone: tzinfo, most: int = -1) -> list[Request]:
    """Wishes for another time that nobody has answered yet, newest first, each visit once; at most so many."""
    state.bring_up_to_date(store, now, zone)
    asked = day_lists.wishes(store, most)
    known = eyes.by_ids(store, sorted({wish.eye_id for wish in asked}))
    return [
        Request(wish.event_id, known[wish.eye_id], wish.visit, wish.identity, wish.words, wish.at)
        for wish in asked
        if wish.eye_id in known
    ]


def _rank(how_soon: HowSoon | None) -> int:
    return len(HOW_SOON) if how_soon is None else HOW_SOON.index(how_soon)
