"""One eye as the records have it: its operation, visits, events, warnings, and the course the core reads."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from functools import cached_property
from typing import Any

from followup.care.attendance import attended, holds
from followup.care.errors import NotFound
from followup.care.watching import fact_in_time
from followup.clinical import acuity, posture, tamponade, warnings
from followup.clinical.course import Course, Fact, Measures, Operation, PlannedVisit, Seen, Settled, Timeline
from followup.clinical.coverage import EYES, Break
from followup.protocols import book
from followup.records import Store, eyes, protocols, worries
from followup.records.store import Row
from followup.records.watch import readable


@dataclass(frozen=True)
class Eye:
    """Everything known of one operated eye, read once; `facts_elsewhere` were recorded beside the patient's other eye.

    An entry that cannot be read is left out, and named to staff.
    """

    operation_id: str
    row: Row
    operation: Operation
    visits: list[Row]
    events: list[Row]
    warnings: list[Row]
    callbacks: list[Row]
    zone: tzinfo
    facts: tuple[Fact, ...]
    facts_elsewhere: tuple[Fact, ...]
    set_aside: list[Row]  # entries that cannot be read

    @property
    def patient_name(self) -> str:
        return str(self.row["patient_name"])

    @property
    def agent(self) -> tamponade.Agent:
        return tamponade.AGENTS[self.operation.agent]

    @property
    def drops(self) -> list[dict[str, Any]]:
        drops: list[dict[str, Any]] = self.row["body"].get("drops", [])
        return drops

    @cached_property
    def course(self) -> Course:
        planned = tuple(
            PlannedVisit(v["name"], date.fromisoformat(v["earliest"]), date.fromisoformat(v["latest"]), v["identity"])
            for v in self.visits
        )
        seen = tuple(Seen(at, identity) for identity, at in self.seen_visits.items())
        here = tuple(f for f in self.facts if not isinstance(f, Seen))
        return Course.after(self.operation, planned, (*here, *self.facts_elsewhere, *seen, *self.settlements), self.zone)

    @cached_property
    def fellow(self) -> Course:
        """The other eye, from what was measured on it beside this one."""
        side = next(side for side in EYES if side != self.operation.eye)
        measures = tuple(f for f in self.facts if isinstance(f, Measures))
        return Course(side, facts=(*measures, *self.settlements), zone=self.zone)

    @property
    def settlements(self) -> tuple[Settled, ...]:
        return tuple(Settled(c["settled_at"], c["worry"]) for c in self.callbacks if c["settled_at"])

    def timeline(self, now: datetime) -> Timeline:
        return self.course.timeline(now)

    def forecast(self, now: datetime) -> tamponade.Forecast:
        """The forecast with every level seen up to now."""
        return self.timeline(now).forecasts[-1][1]

    def no_gas_by(self, now: datetime) -> bool:
        """Whether a clinician has recorded that no gas is left: all that lifts the travel caution."""
        return self.timeline(now).empty_at(now)

    @property
    def no_gas_record(self) -> Row | None:
        """The clinician's latest record that no gas was seen, whether gas was seen since or not."""
        return next((e for e in reversed(self.events) if e["kind"] == "no-gas-seen"), None)

    def caution(self, now: datetime) -> bool:
        """Whether the flying and nitrous oxide caution stands."""
        return self.operation.fades and not self.no_gas_by(now)

    @cached_property
    def seen_visits(self) -> dict[str, datetime]:
        """When each visit that took place did, by the visit's identity."""
        return attended(self.visits, [e for e in self.events if e["kind"] == "seen"], self.zone)

    @property
    def open_visits(self) -> list[Row]:
        """Planned visits that have not taken place, by date."""
        return [v for v in self.visits if v["identity"] not in self.seen_visits]


def visit_of_today(open_visits: list[Row], today: date) -> Row | None:
    """The open visit that somebody who comes today comes for: one whose window holds today, the nearest of several."""
    fitting = [v for v in open_visits if holds(v, today)]
    return min(fitting, key=lambda v: abs((date.fromisoformat(v["target"]) - today).days), default=None)


def operation_of(row: Row) -> Operation:
    """The clinical operation of a stored record."""
    body = row["body"]
    baseline = body.get("baseline", {})
    plan = body.get("posture")
    until = body.get("steroid_drops_until")
    return Operation(
        eye=row["eye"],
        at=row["operated_at"],
        agent=row["agent"],
        percent=body.get("percent") or 0,
        fill_percent=body.get("fill_percent") or 0,
        lens=body["lens"],
        indication=body["indication"],
        breaks=tuple(Break(b["clock"], b["reach"]) for b in body["breaks"]),
        risks=frozenset(body["risks"]),
        steroid_drops_until=datetime.fromisoformat(until) if until else None,
        baseline_acuity=acuity.read(baseline["acuity"], baseline.get("notation")) if baseline.get("acuity") else None,
        baseline_iop_mmhg=baseline.get("iop_mmhg"),
        plan=posture.Plan(plan["position"], plan["hours_a_day"], plan["days"]) if plan else None,
        height_metres=body.get("height_metres", 0),
    )


def load(store: Store, operation_id: str, zone: tzinfo) -> Eye:
    """Read an eye; raises `NotFound`."""
    row = eyes.operation(store, operation_id)
    if row is None:
        raise NotFound("there is no such eye in the records")
    read, facts, set_aside = _read(store, eyes.events_of(store, operation_id))
    _, elsewhere, _ = _read(store, eyes.events_beside(store, operation_id, row["patient_id"]))
    return Eye(
        operation_id,
        row,
        operation_of(row),
        eyes.visits_of(store, operation_id),
        read,
        worries.warnings_of(store, operation_id),
        worries.callbacks_of(store, operation_id),
        zone,
        facts,
        elsewhere,
        set_aside,
    )


def _read(store: Store, events: list[Row]) -> tuple[list[Row], tuple[Fact, ...], list[Row]]:
    """The events that can be read, what they say, and those that cannot: each is noted, and none takes the eye down."""
    read = readable(store, "events", events, fact_in_time)
    known = {event["id"] for event in read}
    return read, tuple(e["fact"] for e in read if e["fact"] is not None), [e for e in events if e["id"] not in known]


@dataclass(frozen=True)
class Protocol:
    """The text of one part that is in force, and who signed it (None for a draft)."""

    part: str
    text: str
    fingerprint: str
    signature: Row | None

    @property
    def is_draft(self) -> bool:
        return self.signature is None


def protocol(store: Store, part: str) -> Protocol:
    """The clinic's own latest text of a part, else the draft that ships."""
    text = protocols.latest_text(store, part) or book.draft_text(part)
    mark = book.fingerprint(text)
    return Protocol(part, text, mark, protocols.signature(store, part, mark))


def rulebook(store: Store) -> warnings.Rulebook:
    return book.rulebook(protocol(store, "rulebook").text)
