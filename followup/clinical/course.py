"""One eye's course: its operations in order, the planned visits and every fact recorded, as plain values.

An eye that was never operated has a course too. Each operation begins a stage that lasts until the next one;
rules, forecast and picture read one stage at a time (`Timeline`). All times are aware datetimes. A fact carries
the time it happened; the order in which facts arrive never matters.
"""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, tzinfo

from followup.clinical.coverage import EYES
from followup.clinical.errors import OutOfRange, one_of
from followup.clinical.facts import Fact
from followup.clinical.surgery import Operation
from followup.clinical.timeline import Timeline


@dataclass(frozen=True, slots=True)
class PlannedVisit:
    """A review visit with the local dates between which it is due. `id` tells visits of one name apart."""

    name: str
    earliest: date
    latest: date
    id: str = ""


@dataclass(frozen=True, slots=True)
class Course:
    """One eye: what was done to it in order of time, which visits are planned, what was recorded, the zone of its days.

    `app` is whether entries from a phone are waited for: else nothing is made of silence, and calls are planned. That has
    been so since `reached_since` (None: from the beginning).

    Raises `OutOfRange` for a time without its offset, `Unknown` for an operation on the other eye.
    """

    eye: str
    operations: tuple[Operation, ...] = ()
    visits: tuple[PlannedVisit, ...] = ()
    facts: tuple[Fact, ...] = ()
    zone: tzinfo = field(default=UTC)
    app: bool = True
    reached_since: datetime | None = None

    @classmethod
    def after(
        cls,
        operation: Operation,
        visits: tuple[PlannedVisit, ...] = (),
        facts: tuple[Fact, ...] = (),
        zone: tzinfo = UTC,
    ) -> "Course":
        """The course of an eye that was operated once."""
        return cls(operation.eye, (operation,), visits, facts, zone)

    def __post_init__(self) -> None:
        one_of("eye", self.eye, EYES)
        for operation in self.operations:
            one_of("eye of an operation in this course", operation.eye, (self.eye,))
        if any(thing.at.tzinfo is None for thing in (*self.operations, *self.facts)):
            raise OutOfRange("every time needs its offset, for example 2027-03-02T14:00:00Z")

    def timelines(self, now: datetime) -> "list[Timeline]":
        """Every stage that has begun by `now`: the eye before any operation, then after each one."""
        operations = sorted((op for op in self.operations if op.at <= now), key=lambda op: op.at)
        begins: list[Operation | None] = [None, *operations]
        ends = [*(op.at for op in operations), None]
        return [Timeline(self, operation, end, now) for operation, end in zip(begins, ends, strict=True)]

    def timeline(self, now: datetime) -> "Timeline":
        """The stage that stands at `now`."""
        return self.timelines(now)[-1]
