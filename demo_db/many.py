"""An invented clinic of any size: some eyes are lived through, all others are copies of them under other names and days.

A tenth is followed and stands where one of the lived eyes stands today; the rest ended somewhen in the last ten years. Each
operation stood on a theatre list before its discharge, and of most eyes a visit was moved without anybody’s saying that the
patient was told: what grows with the clinic, and is over.
"""

from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime, timedelta
from pathlib import Path
from random import Random

from demo_db import build as small
from demo_db import data
from demo_db.data import ToldEye
from followup import jobs
from followup.care.actors import Actor
from followup.care.callbacks import settling
from followup.care.desk import Desk
from followup.care.discharge import waiting
from followup.care.patients import following
from followup.care.reading import finding
from followup.care.reading.eye import load
from followup.care.visits import book
from followup.care.visits.openings import AHEAD, openings
from followup.care.visits.visit import known_eye
from followup.care.watch.raising import check_eye
from followup.config import Clinic, Settings
from followup.records import Store, copies, listed, open_store, visits, worries
from followup.records import eyes as eye_rows

FOLLOWED_SHARE = 0.1
WEEKS = 520
MOST_LIVED = 24
"""Lived through beside the eyes that the small clinic has: followed, and as many of those that ended."""
THEATRE_LIST, LISTED = "theatre.csv", 12
MOVED_AFTER = 21
"""Days since surgery from which on a visit of its second week was moved and took place: nothing of that is still to be told."""
_GIVEN = ("Alba", "Brida", "Caspar", "Dorle", "Elio", "Fenna", "Gero", "Hedda", "Ivo", "Jorun", "Kalle", "Lioba", "Mirko", "Nelda",
          "Oskar", "Pia", "Quirin", "Runa", "Silvan", "Tilda", "Ulrik", "Veda", "Wenzel", "Xenia", "Yorick", "Zita")  # fmt: skip
_FIRST = ("Bal", "Cor", "Dum", "Eber", "Fal", "Gram", "Hol", "Ist", "Jor", "Kes", "Lam", "Mor", "Nid", "Ost", "Pel", "Quen", "Ros",
          "Sal", "Tam", "Ul", "Vor", "Wes", "Zel")  # fmt: skip
_MIDDLE = ("a", "bri", "de", "gu", "li", "me", "no", "ra", "su", "ti", "vo", "we")
_LAST = (
    "bach",
    "dorn",
    "fink",
    "gren",
    "holt",
    "kamp",
    "lund",
    "mark",
    "nes",
    "quist",
    "rath",
    "stad",
    "trup",
    "vik",
    "zik",
)


def build(made: Settings, now: datetime, eyes: int, seed: int, told: Callable[[int], None] = lambda written: None) -> None:
    """Build a clinic with so many operated eyes in the demo's place, and tell now and then how many it has."""
    with small.building(made.server.database) as unfinished:
        store = open_store(unfinished, create=True)
        rest = fill(store, made, now, eyes, seed)
        store.close()
        rest.write(unfinished, lambda copied: told(rest.lived + copied))


def fill(store: Store, made: Settings, now: datetime, eyes: int, seed: int) -> "Copies":
    """Live through the eyes that are copied, in a database that holds nobody yet; at most `eyes` of them."""
    random = Random(seed)  # noqa: S311  the same clinic for the same seed
    told, clinic = data.eyes(), made.clinic
    followed = max(1, round(eyes * FOLLOWED_SHARE))
    more = min(MOST_LIVED, max(0, followed - len(told)) // 8)
    ended = min(MOST_LIVED, max(0, eyes - len(told) - more) // 8)
    with store.transaction():
        nurse, surgeon = small.staff(store, now)
        lives = [*told[:eyes], *(_varied(random, told, f"M-{n}") for n in range(more))]
        stand = [Life(store, clinic, eye, nurse, surgeon, now) for eye in lives]
        for life in stand:
            life.live()
        gone = [_ended(store, clinic, _varied(random, told, f"E-{n}"), nurse, surgeon, now) for n in range(ended)]
        _put_on_theatre_list(Desk(store, now, nurse, clinic.tz), random)
    jobs.check_all(store, made, now)  # what stands of each eye is copied too: the clock has looked at all of them
    followed = max(0, followed - len(stand))
    rest = max(0, eyes - len(stand) - len(gone) - followed)
    return Copies(
        [_original(store, life) for life in stand], [_original(store, life) for life in gone], followed, rest, random
    )


class Life(small.Life):
    """An eye’s course that leaves what a clinic leaves behind: a line of a theatre list, and a change that nobody was told of."""

    def _discharged(self, at: datetime) -> str:
        eye_id = super()._discharged(at)
        desk, note = Desk(self.store, at, self.nurse, self.zone), eye_rows.notes_of(self.store, eye_id)[-1]
        day, line = self.operated_at.astimezone(self.zone).date(), f"{THEATRE_LIST}, line 2"
        listed.add(
            self.store,
            at,
            note.operation_id,
            self.eye.number,
            self.eye.name,
            day,
            self.eye.eye,
            {},
            line,
            self.nurse.signature,
        )
        desk.note("theatre list taken in", note.operation_id, {"new": 1, "known": 0})
        planned = [v for v in visits.of_eye(self.store, eye_id) if v.target > day]
        if self.eye.operated_days_ago > MOVED_AFTER and len(planned) > 1:
            places = openings(self.store, self.clinic, day, day + AHEAD).places
            target = min(day for day in places if day > planned[1].target)
            book.put_on(desk, planned[1], target, None, "the day was full")
            desk.note("visit moved", eye_id, {"visit": planned[1].name, "to": target.isoformat()})
        return eye_id


def _put_on_theatre_list(desk: Desk, random: Random) -> None:
    """Operations that wait for their discharge, and some still to come."""
    people = [_person(random, f"L-{n}") for n in range(LISTED)]
    days = [desk.today + timedelta(days=n // 3 - 2) for n in range(LISTED)]
    rows = [
        waiting.Row(n, one.number, one.name, day, "right", {"born_on": one.born_on.isoformat()})
        for n, (one, day) in enumerate(zip(people, days, strict=True), 2)
    ]
    waiting.put_on(desk, rows, THEATRE_LIST)


def _original(store: Store, life: small.Life) -> copies.Original:
    return copies.Original(store, load(store, life.operation, life.zone).patient.id)


def _varied(random: Random, told: Sequence[ToldEye], number: str) -> ToldEye:
    """One of the told eyes some days later, of somebody else."""
    person = _person(random, number)
    who = {"number": number, "name": person.name, "born": person.born_on, "phone": person.phone}
    eye = random.choice([eye for eye in told if eye.reached_by != "no-app"])
    return eye.model_copy(update={**who, "operated_days_ago": eye.operated_days_ago + random.randint(1, 30)})


def _ended(store: Store, clinic: Clinic, eye: ToldEye, nurse: Actor, surgeon: Actor, now: datetime) -> small.Life:
    """An eye that was followed for some months, and is no more; what was open at its end was closed with it."""
    end = now - timedelta(days=14)
    days = eye.operated_days_ago % 30 + 100
    life = Life(store, clinic, eye.model_copy(update={"operated_days_ago": days, "diary_until": 56}), nurse, surgeon, end)
    life.live()
    life.now = end + small.SETTLED_AFTER + timedelta(hours=1)
    life.work_through_callbacks(end)
    desk = Desk(store, life.now, surgeon, life.zone)
    check_eye(store, life.operation, life.now, life.zone)
    for found in worries.callbacks_of(store, life.operation):
        if found.state != "settled":
            settling.close_for_end(desk, found, following.REASONS["finished"])
    booked = following.confirmed_theatre(store, [known_eye(store, life.operation)])
    following.end(desk, life.operation, "finished", "", withdraws=booked)
    return life


class Copies:
    """What is still to be written to make the clinic as large as was asked for."""

    def __init__(
        self, stand: list[copies.Original], gone: list[copies.Original], followed: int, ended: int, random: Random
    ) -> None:
        self._stand, self._gone, self._random = stand, gone, random
        self._followed, self._ended = followed, ended if gone else 0
        self.lived = len(stand) + len(gone)

    def write(self, path: Path, told: Callable[[int], None] = lambda written: None) -> None:
        for written in copies.write(path, self._all(), self._random):
            told(written)

    def _all(self) -> Iterator[copies.Copy]:
        """Those of long ago first. Those of one week come one original after the other, which is quicker."""
        number = 0
        for week in range(WEEKS):
            share = self._ended * (week + 1) // WEEKS - self._ended * week // WEEKS
            for of in sorted(self._random.choices(range(len(self._gone)), k=share) if share else ()):
                number += 1
                yield copies.Copy(self._gone[of], _person(self._random, f"C-{number}"), WEEKS - week)
        for n in range(self._followed):
            number += 1
            yield copies.Copy(self._stand[n % len(self._stand)], _person(self._random, f"C-{number}"))


def _person(random: Random, number: str) -> copies.Person:
    """Somebody invented."""
    name = f"{random.choice(_GIVEN)} {random.choice(_FIRST)}{random.choice(_MIDDLE)}{random.choice(_LAST)}"
    phone = f"+00 5550 {random.randrange(10**6):06}"
    terms = finding.terms([name], [number, phone])
    return copies.Person(
        number, name, date(random.randint(1932, 1996), random.randint(1, 12), random.randint(1, 28)), phone, frozenset(terms)
    )
