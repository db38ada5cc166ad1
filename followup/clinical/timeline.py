"""One stage of a course up to a moment, sorted once and split by kind: what rules, forecast and picture read."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, tzinfo
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

from followup.clinical import bubble, posture, tamponade
from followup.clinical.agents import AGENTS
from followup.clinical.evidence import Figure
from followup.clinical.facts import (
    SYMPTOM_NAMES,
    Anaesthetic,
    BubbleSeen,
    Fact,
    GasTakenBack,
    Journey,
    Measures,
    NoGasSeen,
    Postured,
    Seen,
    Settled,
    Symptoms,
    TamponadeRemoved,
    in_order,
)
from followup.clinical.forecasts import Forecast
from followup.clinical.seen_levels import Observation
from followup.clinical.surgery import Operation
from followup.clinical.vision import Acuity

if TYPE_CHECKING:
    from followup.clinical.course import Course, PlannedVisit

SIGHT_COVERED_FROM = Figure("height from which the bubble is taken to disturb the line of sight", 40, "%", "CP", "common practice",
                            "half way up by geometry; edge and pupil disturb earlier")  # fmt: skip
_COVERED_FROM_FILL = bubble.fill_percent(SIGHT_COVERED_FROM.value)
View = Literal["gas over sight", "gas below sight", "oil", "clear"]
TELLING_PAIN = Figure("pain that says something, from", 4, "of 10", "VIP21", note="over 3 of 10 in 15 % of eyes at 24 h")
SEVERE_PAIN = Figure("severe pain, from", 7, "of 10", "CP", "common practice")
ANSWER_STANDS = timedelta(hours=24)  # common practice, no source
ASKED_BACK_WITHIN = timedelta(minutes=15)  # said again so soon, it answers the plain question: common practice, no source


class Answers:
    """What the patient has said by the end of one check: `told` all that stands, `given` the questions answered in it."""

    __slots__ = ("at", "bad", "given", "pain", "said", "told")

    def __init__(self, at: datetime, told: Symptoms, given: frozenset[str]) -> None:
        self.at, self.told, self.given = at, told, given
        self.pain, self.said = told.pain or 0, told.said
        hurts = {"pain"} if self.pain >= TELLING_PAIN.value else set()
        self.bad = {a for a in self.said if "=" not in a or a.endswith("=worse")} | hurts


class Timeline:
    """One stage of a course up to `now`, sorted once and split by kind: what rules and charts read.

    A stage begins with an operation (None: the eye before any) and holds what was recorded until `end`, the time of the
    next operation (None: it stands). Facts at the same instant are put into a fixed order, so the order of arrival
    cannot matter. What several rules ask for is worked out once.
    """

    def __init__(self, course: "Course", operation: Operation | None, end: datetime | None, now: datetime) -> None:
        self.course = course
        self.zone = course.zone
        self.now = now if end is None else min(now, end)
        self.ended_at = end
        self._operation = operation
        everything = in_order(f for f in course.facts if f.at <= now)
        facts = [f for f in everything if (operation is None or f.at >= operation.at) and (end is None or f.at < end)]
        self.measures = [f for f in facts if type(f) is Measures and f.eye == course.eye]
        self.symptoms = [f for f in facts if type(f) is Symptoms]
        self.postured = [f for f in facts if type(f) is Postured]
        self.journeys = [f for f in facts if type(f) is Journey]
        self.anaesthetics = [f for f in facts if type(f) is Anaesthetic]
        self.heard_at = [f.at for f in facts if f.from_patient]
        self.seen = {f.visit: f.at for f in reversed(everything) if type(f) is Seen}
        self.settlements = [f for f in facts if type(f) is Settled]
        self.emptied = [(f.at, empty) for f in facts if (empty := _empties(f, course.eye)) is not None]
        self.sightings = [
            (f.at, _sighting(operation, f))
            for f in facts
            if operation is not None and (type(f) is BubbleSeen or (type(f) is Measures and _levelled(f, course.eye)))
        ]

    @property
    def operated(self) -> bool:
        return self._operation is not None

    @property
    def operation(self) -> Operation:
        """The operation that began this stage; only where there is one."""
        assert self._operation is not None, "this stage began without an operation"
        return self._operation

    @property
    def baseline_iop_mmhg(self) -> float | None:
        return self._operation.baseline_iop_mmhg if self._operation else None

    @property
    def baseline_acuity(self) -> Acuity | None:
        return self._operation.baseline_acuity if self._operation else None

    @property
    def visits(self) -> "list[PlannedVisit]":
        """The planned visits whose time runs out in this stage."""
        first = self._operation is None or self._operation is min(self.course.operations, key=lambda op: op.at)
        begins = None if first or self._operation is None else self._operation.at
        return [
            v
            for v in self.course.visits
            if (begins is None or end_of(v.latest, self.zone) > begins)
            and (self.ended_at is None or end_of(v.latest, self.zone) <= self.ended_at)
        ]

    def empty_at(self, at: datetime) -> bool:
        """Whether by then a clinician had recorded that nothing is left in the eye, and no gas was seen since."""
        return next((empty for since, empty in reversed(self.emptied) if since <= at), False)

    def settled_between(self, worry: str, since: datetime, until: datetime) -> bool:
        """Whether callbacks of that worry were settled from `since` to just before `until`."""
        return any(s.worry in (None, worry) and since <= s.at < until for s in self.settlements)

    @cached_property
    def answers(self) -> "list[Answers]":
        """Each symptom check; what it leaves out stands as it was last said, for a day."""
        found: list[Answers] = []
        said_at: dict[str, tuple[datetime, Any]] = {}
        for told in self.symptoms:
            given = {name: answer for name in SYMPTOM_NAMES if (answer := getattr(told, name)) is not None}
            said_at |= {name: (told.at, answer) for name, answer in given.items()}
            standing = {name: answer for name, (at, answer) in said_at.items() if told.at - at <= ANSWER_STANDS}
            found.append(Answers(told.at, Symptoms(told.at, **standing), frozenset(given)))
        return found

    def lone_mild_sign(self, at: datetime) -> bool:
        """Whether what the patient said then is one thing alone, and not severe pain."""
        answers = next((a for a in reversed(self.answers) if a.at == at), None)
        return answers is not None and len(answers.bad) == 1 and answers.pain < SEVERE_PAIN.value

    @cached_property
    def forecasts(self) -> list[tuple[datetime, Forecast]]:
        """The forecast after surgery and after each level seen, with the time from which it holds."""
        op = self.operation
        latest = tamponade.forecast(op.agent, op.percent, op.fill_percent, op.lens)
        forecasts = [(op.at, latest)]
        for at, level in self.sightings:
            latest = latest.updated(level)
            forecasts.append((at, latest))
        return forecasts

    def forecast_before(self, at: datetime) -> Forecast:
        """The forecast as it stood just before `at`."""
        return next((f for since, f in reversed(self.forecasts) if since < at), self.forecasts[0][1])

    def seen_through(self, measures: Measures) -> View:
        """What the eye looked through then: gas over the line of sight, gas below it, oil, or nothing.

        By the level seen at that visit, else by the forecast of that moment.
        """
        if not self.operated or self.empty_at(measures.at):
            return "clear"
        op = self.operation
        if op.liquid:
            return "oil"
        if not op.fades:
            return "clear"
        level = measures.bubble_percent
        if level is not None and level >= SIGHT_COVERED_FROM.value:
            return "gas over sight"
        if level == 0:
            return "clear"
        fill = self.forecast_before(measures.at).fill_percent(op.day(measures.at))
        if level is None and fill >= _COVERED_FROM_FILL:
            return "gas over sight"
        gone_below = AGENTS[op.agent].gone_below
        assert gone_below is not None
        return "gas below sight" if fill >= gone_below.value else "clear"

    @cached_property
    def views(self) -> list[tuple[Measures, Acuity, View]]:
        """Each acuity with its measures (which say its correction), and what the eye looked through."""
        return [
            (replace(m, acuity=seen, correction=correction, pinhole=None), seen, self.seen_through(m))
            for m in self.measures
            for seen, correction in m.readings
        ]

    @cached_property
    def hours_in_plan(self) -> list[posture.DayAdherence]:
        """Each plan day that has begun, with its hours; empty without a plan."""
        op = self._operation
        if op is None or op.plan is None:
            return []
        return posture.adherence(op.plan, [p.block for p in self.postured], op.at, self.zone, self.now)

    @property
    def reached_since(self) -> datetime:
        """Since when the patient is reached as now; where it was so from the beginning, since the operation was entered."""
        operation = self.operation
        return max(operation.at, operation.entered_at or operation.at, self.course.reached_since or operation.at)

    @cached_property
    def silences(self) -> list[tuple[datetime, float]]:
        """From when and for how many hours nothing was heard from the patient, counted from when they could be."""
        first = self.reached_since
        heard = [first, *(at for at in self.heard_at if at > first)]
        pairs = zip(heard, [*heard[1:], self.now], strict=True)
        return [(last, (following - last).total_seconds() / 3600) for last, following in pairs]


def _levelled(measures: Measures, eye: str) -> bool:
    return measures.eye == eye and measures.bubble_percent is not None


def _empties(fact: Fact, eye: str) -> bool | None:
    """True where a clinician recorded that nothing is left, False where gas was seen, by whomever, also where the patient took
    that back; None for the rest.
    """
    if isinstance(fact, NoGasSeen | TamponadeRemoved):
        return True
    if isinstance(fact, GasTakenBack):
        return False
    seen_percent = fact.percent if isinstance(fact, BubbleSeen) else 0.0
    if isinstance(fact, Measures) and _levelled(fact, eye):
        seen_percent = fact.bubble_percent or 0.0
    return False if seen_percent > 0 else None


def _sighting(operation: Operation, fact: BubbleSeen | Measures) -> Observation:
    if isinstance(fact, BubbleSeen):
        return Observation(operation.day(fact.at), fact.percent, "patient")
    assert fact.bubble_percent is not None
    return Observation(operation.day(fact.at), fact.bubble_percent, "clinic")


def end_of(day: date, zone: tzinfo) -> datetime:
    """The instant at which a local day is over, in UTC."""
    return datetime.combine(day + timedelta(days=1), datetime.min.time(), zone).astimezone(UTC)
