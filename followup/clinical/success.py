"""How each operation on an eye turned out, and how the eye stands in the end: read from its course.

An eye with oil or heavy liquid in it is not yet attached by its own: what is counted then begins when that was taken out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from followup.clinical.course import Course
from followup.clinical.evidence import Figure, Model
from followup.clinical.facts import Measures
from followup.clinical.surgery import Operation
from followup.clinical.timeline import Timeline
from followup.clinical.vision import Acuity

LEAST_FOLLOW_UP = Figure(
    "an eye counts for success when last looked at so long after its first operation", 90, "days", "CP", "common practice"
)
SPIKE_WITHIN = Figure("a pressure spike is one within", 14, "days", "CP", "common practice")
State = Literal["attached", "under-liquid", "detached"]


@dataclass(frozen=True, slots=True)
class AfterOperation:
    """What was found between one operation and the next (or now).

    `counted_from` is from when nothing but gas, air or its own fluid held the retina (None: oil or heavy liquid all the
    time). `last_look` and `detached_at` are the last and the first finding of their kind; `highest_early_mmhg` is the
    highest pressure within 14 days.
    """

    operation: Operation
    counted_from: datetime | None
    last_look: datetime | None
    detached_at: datetime | None
    highest_early_mmhg: float | None

    @property
    def seen_on_its_own(self) -> tuple[float, bool] | None:
        """(days without liquid until found detached, True), or (until the last look, False); None if never looked at so."""
        end = self.detached_at or self.last_look
        if self.counted_from is None or end is None or end < self.counted_from:
            return None
        return (end - self.counted_from) / timedelta(days=1), self.detached_at is not None

    @property
    def detached_under_liquid(self) -> bool:
        return self.detached_at is not None and (self.counted_from is None or self.detached_at < self.counted_from)


@dataclass(frozen=True, slots=True)
class InTheEnd:
    """How an eye stood when last looked at: `once` is attached, and never found detached since its first operation."""

    state: State
    once: bool


def after_operations(course: Course, now: datetime, ended_at: datetime | None = None) -> list[AfterOperation]:
    """Each operation by `now`, in order; what came after the end of follow-up was not looked for and does not count."""
    return [_after(stage, _looks(stage, ended_at)) for stage in course.timelines(now) if stage.operated]


def in_the_end(stages: Sequence[AfterOperation]) -> InTheEnd | None:
    """The eye at its last look; None before that was long enough after, or where nobody looked since the last operation.

    `stages` are all operations on the eye, in order.
    """
    last = stages[-1] if stages else None
    if last is None or last.last_look is None:
        return None
    if last.last_look - stages[0].operation.at < timedelta(days=LEAST_FOLLOW_UP.value):
        return None
    if last.detached_at is not None:
        return InTheEnd("detached", once=False)
    if last.counted_from is None or last.last_look < last.counted_from:
        return InTheEnd("under-liquid", once=False)
    return InTheEnd("attached", once=all(stage.detached_at is None for stage in stages))


def last_acuity(course: Course, now: datetime) -> Acuity | None:
    """The last acuity of the stage that stands not read through gas over the line of sight."""
    views = course.timeline(now).views
    return next((seen for _, seen, through in reversed(views) if through != "gas over sight"), None)


def _looks(stage: Timeline, ended_at: datetime | None) -> list[Measures]:
    return [m for m in stage.measures if ended_at is None or m.at <= ended_at]


def _after(stage: Timeline, looks: list[Measures]) -> AfterOperation:
    operation = stage.operation
    out = next((at for at, empty in stage.emptied if empty), None)
    spike_until = operation.at + timedelta(days=SPIKE_WITHIN.value)
    return AfterOperation(
        operation,
        out if operation.liquid else operation.at,
        looks[-1].at if looks else None,
        next((m.at for m in looks if "detached" in m.findings), None),
        max((m.iop_mmhg for m in looks if m.iop_mmhg is not None and m.at <= spike_until), default=None),
    )


MODEL = Model(
    "Success",
    (
        "Attachment is counted from each operation to the next, or from the day oil or heavy liquid was taken out.",
        "An eye counts for success when it was last looked at at least 90 days after its first operation. Once: attached, "
        "without oil or heavy liquid, and never found detached. In the end: so at the last look, after however many operations.",
    ),
    ("A retina that nobody noted as detached counts as attached: what is not looked for is not found.",),
    (LEAST_FOLLOW_UP, SPIKE_WITHIN),
)
