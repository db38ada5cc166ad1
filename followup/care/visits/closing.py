"""Closing a clinic day: its visits get other days in one step, as near as their windows and the places allow."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading import state
from followup.care.reading.attendance import attended_by_eye
from followup.care.visits.book import LONGEST_WHY, Asks, change_back, doubts_of_calls, put_on
from followup.care.visits.openings import AHEAD, Openings, ahead, not_open
from followup.clinical import schedule
from followup.config import Clinic
from followup.records import day_lists, eyes, visits, worries
from followup.records.values import Closure, Eye, Visit


@dataclass(frozen=True)
class Displaced:
    """A visit of a day that closes: where it can go, or (`to` None) why nowhere."""

    eye: Eye
    visit: Visit
    to: date | None
    why_not: str = ""


def displaced(desk: Desk, clinic: Clinic, day: date) -> list[Displaced]:
    """The visits of a day, each with the day it is proposed to move to: together the least displacement in all.

    Nobody is moved out of a window, onto a closed day, into the past, or where no place is left.
    """
    standing, days = _still_to_come(desk), ahead(desk.store, clinic, desk.today)
    requests = {v.identity: schedule.Request(v.identity, v.target, v.earliest, v.latest) for v in standing.values()}
    booked = {v.identity: v.target for v in standing.values()}
    found = schedule.close_day(day, booked, requests, days.places)
    known = {eye.id: eye for eye in eyes.followed(desk.store)}
    return [
        Displaced(known[v.eye_id], v, found.placed.get(v.identity), _in_words(found.unplaced.get(v.identity), v))
        for v in sorted(standing.values(), key=lambda v: (v.starts is None, v.starts, known[v.eye_id].patient.name))
        if v.target == day
    ]


def close(desk: Desk, clinic: Clinic, day: date, why: str, to: Mapping[str, date], *, accepted: Collection[str] = ()) -> int:
    """Close a day and move its visits, each to its day in `to` (by identity); returns how many moved.

    One that is not named there stays, and stands on the list of visits on closed days. Raises `Asks` for a day in `to`
    that is closed, full, out of the visit's window, or after today while something about its eye is for now, and `Conflict`
    where the day's visits changed meanwhile.
    """
    why = why.strip()[:LONGEST_WHY]
    if not why:
        raise CareError("say why the clinic is closed that day", "why")
    if day < desk.today:
        raise CareError(f"{bounds.words(day)} is over; choose today or a later day", "day")
    with desk.store.transaction():
        if any(c.day == day for c in visits.closures(desk.store, day, day)):
            raise Conflict(f"{bounds.words(day)} was closed already")
        of_day = {id: v for id, v in _still_to_come(desk).items() if v.target == day}
        if gone := set(to) - set(of_day):
            raise Conflict(f"{len(gone)} of these visits changed meanwhile; look at the day again")
        if questions := _doubts(desk, ahead(desk.store, clinic, desk.today), of_day, to, set(accepted)):
            raise Asks(questions)
        visits.close(desk.store, desk.now, day, why, desk.actor.signature)
        for identity, target in to.items():
            put_on(desk, of_day[identity], target, None, f"the clinic is closed on {bounds.words(day)}: {why}"[:LONGEST_WHY])
        detail = {"why": why, "moved": len(to), "left": len(of_day) - len(to)}
        desk.note("day closed", day.isoformat(), detail)
    return len(to)


def open_again(desk: Desk, day: date, *, back: bool) -> int:
    """Open a day that was closed; with `back`, the visits that its closing moved return to it, where nothing changed since.

    Returns how many returned.
    """
    with desk.store.transaction():
        closure = next(iter(visits.closures(desk.store, day, day)), None)
        if closure is None:
            raise Conflict(f"{bounds.words(day)} is not closed here")
        visits.close(desk.store, desk.now, day, "", desk.actor.signature, closed=False)
        moved = moved_by(desk, closure) if back and day >= desk.today else []
        for v, before in moved:
            was = {n: getattr(before, n) for n in ("target", "earliest", "latest", "starts")}
            change_back(desk, v, f"the clinic is open on {bounds.words(day)} after all", **was)
        desk.note("day opened again", day.isoformat(), {"returned": len(moved)})
    return len(moved)


def moved_by(desk: Desk, closure: Closure) -> list[tuple[Visit, Visit]]:
    """Visits that stand where the closing of a day put them, each with what it was before."""
    found = [v for v in _still_to_come(desk).values() if v.recorded_at == closure.recorded_at and v.replaces]
    pairs = [(v, visits.visit(desk.store, v.replaces or "")) for v in found]
    return [(v, before) for v, before in pairs if before and before.target == closure.day]


def closed_here(desk: Desk) -> list[Closure]:
    """The days to come that somebody closed."""
    return visits.closures(desk.store, desk.today, desk.today + AHEAD)


def on_closed_days(desk: Desk, clinic: Clinic) -> list[tuple[Eye, Visit]]:
    """Visits to come that stand on a day on which the clinic sees nobody, by date."""
    state.bring_up_to_date(desk.store, desk.now, desk.zone)
    days = day_lists.days_unseen(desk.store, desk.today, desk.today + AHEAD)
    there = day_lists.unseen_on(desk.store, not_open(clinic, days, desk.store))
    known = eyes.by_ids(desk.store, sorted({v.eye_id for v in there}))
    planned = visits.versions(desk.store, [v.visit_id for v in there])
    return [(known[v.eye_id], planned[v.visit_id]) for v in there if v.eye_id in known and v.visit_id in planned]


def _still_to_come(desk: Desk) -> dict[str, Visit]:
    """Every visit of the book that has not taken place, by identity."""
    seen = attended_by_eye(desk.store, "seen", desk.zone)
    return {v.identity: v for v in visits.of_followed(desk.store) if v.identity not in seen[v.eye_id]}


def _doubts(
    desk: Desk, days: Openings, of_day: Mapping[str, Visit], to: Mapping[str, date], accepted: set[str]
) -> list[str]:
    taken = Counter(days.booked)
    known = eyes.by_ids(desk.store, [of_day[identity].eye_id for identity in to])
    found: list[str] = []
    for identity, target in to.items():
        v = of_day[identity]
        if target < desk.today or target == v.target:
            raise CareError(f"{v.name}: {bounds.words(target)} cannot be; choose another day", "to")
        if fault := bounds.after_surgery(target, v.earliest - timedelta(days=1), desk.today, f"the visit {v.name}"):
            raise CareError(fault, "to")
        doubt = Openings(days.first, days.last, days.places, taken, days.closed).doubt(target)
        found += [q for q in (doubt, None if v.holds(target) else f"{v.name} is due by {bounds.words(v.latest)}") if q]
        eye = known[v.eye_id]
        calls = doubts_of_calls(eye.side, worries.callbacks_of(desk.store, eye.id), target, desk.today)
        found += [f"{eye.patient.name}: {call}" for call in calls]
        taken[target] += 1
    return found if not set(found) <= accepted else []


def _in_words(unplaced: str | None, v: Visit) -> str:
    if unplaced is None:
        return ""
    return "it is due on that day alone" if v.earliest == v.latest else "no day in its window has a place left"
