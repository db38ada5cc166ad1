"""Review visits: from a protocol and an operation to windows, from windows to booked clinic days.

Booking a batch is an assignment problem: least total displacement from the target days within each
window and each day's capacity, solved as a minimum-cost flow.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from followup.clinical.errors import OutOfRange
from followup.clinical.evidence import Model


@dataclass(frozen=True, slots=True)
class VisitRule:
    """One visit of a review protocol, in days after surgery.

    Applies if the agent is among `agents` (any if empty) and a risk among `risks` is present (always if
    empty). A rule of the same name further down the protocol replaces this one.
    """

    name: str
    target_day: int
    earliest_day: int
    latest_day: int
    reason: str
    agents: tuple[str, ...] = ()
    risks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not 0 <= self.earliest_day <= self.target_day <= self.latest_day:
            raise OutOfRange(f"visit “{self.name}”: earliest, target and latest day must follow one another from 0 up")

    def applies(self, agent: str, risks: Collection[str]) -> bool:
        return (not self.agents or agent in self.agents) and (not self.risks or any(r in risks for r in self.risks))


@dataclass(frozen=True, slots=True)
class Window:
    """A visit with the dates between which it is due."""

    name: str
    target: date
    earliest: date
    latest: date
    reason: str


@dataclass(frozen=True, slots=True)
class Request:
    """A visit to be placed on a clinic day."""

    id: str
    target: date
    earliest: date
    latest: date


@dataclass(frozen=True, slots=True)
class Booking:
    """Where each request went; `unplaced` says why for each that found no place."""

    placed: dict[str, date]
    unplaced: dict[str, str]
    displacement_days: int


def windows(rules: Iterable[VisitRule], operated_on: date, agent: str, risks: Collection[str] = ()) -> list[Window]:
    """The review windows of one operation, by target date."""
    chosen = {rule.name: rule for rule in rules if rule.applies(agent, risks)}
    return sorted(
        (
            Window(
                r.name,
                operated_on + timedelta(days=r.target_day),
                operated_on + timedelta(days=r.earliest_day),
                operated_on + timedelta(days=r.latest_day),
                r.reason,
            )
            for r in chosen.values()
        ),
        key=lambda w: (w.target, w.name),
    )


def clinic_days(
    first: date, last: date, capacity_by_weekday: Mapping[int, int], closures: Collection[date] = ()
) -> dict[date, int]:
    """Places on each open clinic day from first to last; weekday 0 is Monday."""
    span = ((first + timedelta(days=n)) for n in range((last - first).days + 1))
    return {day: capacity_by_weekday[day.weekday()] for day in span
            if capacity_by_weekday.get(day.weekday(), 0) > 0 and day not in closures}  # fmt: skip


def book(requests: Sequence[Request], places: Mapping[date, int]) -> Booking:
    """Place as many requests as possible, with the least total displacement in days from their targets.

    `places` holds the free places of each open clinic day. A request that finds none is named with the reason.
    """
    open_days = {r.id: [d for d in sorted(places) if r.earliest <= d <= r.latest and places[d] > 0] for r in requests}
    unplaced = {
        r.id: f"no clinic day is open from {r.earliest.isoformat()} to {r.latest.isoformat()}"
        for r in requests
        if not open_days[r.id]
    }
    wanting = [r for r in requests if open_days[r.id]]
    flow = _least_cost_flow(wanting, open_days, places)
    placed = {}
    for request in wanting:
        day = next((d for d in open_days[request.id] if flow[("visit", request.id)].get(("day", d))), None)
        if day is None:
            unplaced[request.id] = (
                f"every clinic day from {request.earliest.isoformat()} to {request.latest.isoformat()} is full"
            )
        else:
            placed[request.id] = day
    moved = sum(abs((placed[r.id] - r.target).days) for r in wanting if r.id in placed)
    return Booking(placed, unplaced, moved)


def _least_cost_flow(
    requests: Sequence[Request], open_days: Mapping[str, Sequence[date]], places: Mapping[date, int]
) -> dict[Any, dict[Any, int]]:
    import networkx as nx  # takes a quarter of a second to load, and only booking needs it

    graph: nx.DiGraph[Any] = nx.DiGraph()
    graph.add_node("end", demand=len(requests))
    longest = max(((r.latest - r.earliest).days for r in requests), default=0)
    no_place = (longest + 1) * (len(requests) + 1)  # dearer than moving everybody else
    for request in requests:
        visit = ("visit", request.id)
        graph.add_node(visit, demand=-1)
        graph.add_edge(visit, "end", weight=no_place, capacity=1)
        for day in open_days[request.id]:
            graph.add_edge(visit, ("day", day), weight=abs((day - request.target).days), capacity=1)
            graph.add_edge(("day", day), "end", weight=0, capacity=places[day])
    result: dict[Any, dict[Any, int]] = nx.min_cost_flow(graph)
    return result


def close_day(
    closed: date, booked: Mapping[str, date], requests: Mapping[str, Request], places: Mapping[date, int]
) -> Booking:
    """Move everybody booked on a day that closes, as one batch, as little as possible from that day.

    `places` is the capacity of each clinic day; those already booked elsewhere keep their places.
    """
    free = {day: seats - sum(1 for d in booked.values() if d == day) for day, seats in places.items() if day != closed}
    batch = [Request(id, closed, requests[id].earliest, requests[id].latest) for id, day in booked.items() if day == closed]
    return book(batch, free)


def extra_day(today: date, within_days: int, places: Mapping[date, int], booked: Mapping[date, int]) -> date:
    """The day of an extra visit at most `within_days` from today: the first open one with a place, else the first open
    one, else today. With `within_days` 0 it is today, open or not: an eye in danger is seen."""
    days = [today + timedelta(days=n) for n in range(1, within_days + 1)]
    opened = [day for day in days if places.get(day, 0) > 0]
    return next((day for day in opened if booked.get(day, 0) < places[day]), opened[0] if opened else today)


MODEL = Model(
    "Visits",
    (
        "The signed review protocol gives each visit an earliest, a target and a latest day after surgery, by agent and risk.",
        "A batch of visits is placed on open clinic days with the least total displacement, never outside a window "
        "and never beyond a day’s places. Who finds no place is named, with the reason.",
    ),
    ("The windows are common practice unless a source stands beside them in the protocol.",),
    (),
)
