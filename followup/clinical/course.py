"""One eye's course: its operations in order, the planned visits and every fact recorded, as plain values.

An eye that was never operated has a course too. Each operation begins a stage that lasts until the next one;
rules, forecast and picture read one stage at a time (`Timeline`). All times are aware datetimes. A fact carries
the time it happened; the order in which facts arrive never matters.
"""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta, tzinfo
from functools import cached_property
from typing import Any, ClassVar, Literal

from followup.clinical import altitude, bubble, posture, tamponade
from followup.clinical.acuity import Acuity
from followup.clinical.coverage import EYES, Break
from followup.clinical.errors import OutOfRange, one_of, within
from followup.clinical.evidence import Figure
from followup.clinical.pressure import HIGHEST_MMHG, INSTRUMENTS, LOWEST_MMHG

Trend = Literal["better", "same", "worse"]
TRENDS: tuple[Trend, ...] = ("better", "same", "worse")

INDICATIONS: dict[str, str] = {
    "diabetic-traction": "diabetic traction detachment",
    "diabetic-haemorrhage": "diabetic vitreous haemorrhage",
    "retinal-detachment": "retinal detachment with a break",
    "proliferative-vitreoretinopathy": "proliferative vitreoretinopathy",
    "macular-hole": "macular hole",
    "epiretinal-membrane": "epiretinal membrane",
    "submacular-haemorrhage": "submacular haemorrhage",
    "other": "other",
}
RISKS: dict[str, str] = {
    "residual-traction": "traction left behind",
    "surgical-break": "break made during surgery",
    "long-standing-fluid": "long-standing fluid under the retina",
    "diabetic": "diabetes",
    "pressure-prone": "glaucoma, or a known pressure rise on steroid drops",
    "only-good-eye": "this is the only good eye",
    "angle-vessels": "new vessels in the angle or on the iris before surgery",
    "fellow-new-vessels": "new vessels with pressure in the fellow eye",
    "myopia": "myopia, or an eye of 26 mm or longer",
}
FINDINGS: dict[str, str] = {
    "leak": "wound leak",
    "hypopyon": "cells settled in the front chamber (hypopyon)",
    "iris-vessels": "new vessels on the iris or in the angle",
    "inflammation": "inflammation inside the eye (cells, haze)",
    "detached": "retina detached",
    "traction": "traction on the retina",
    "haemorrhage": "blood in the vitreous cavity",
    "tamponade-in-front": "gas or oil in the front chamber",
}
PAIN_RANGE = (0, 10)
SIGHT_COVERED_FROM = Figure("height from which the bubble is taken to disturb the line of sight", 40, "%", "CP", "common practice",
                            "half way up by geometry; edge and pupil disturb earlier")  # fmt: skip
_COVERED_FROM_FILL = bubble.fill_percent(SIGHT_COVERED_FROM.value)
View = Literal["gas over sight", "gas below sight", "oil", "clear"]
TELLING_PAIN = Figure("pain that says something, from", 4, "of 10", "VIP21", note="over 3 of 10 in 15 % of eyes at 24 h")
SEVERE_PAIN = Figure("severe pain, from", 7, "of 10", "CP", "common practice")
SYMPTOM_TRENDS = ("vision", "redness", "flashes", "floaters", "other_eye")
SYMPTOM_SIGNS = ("discharge", "curtain", "vomiting", "fever", "injury")
SYMPTOM_NAMES = ("pain", *SYMPTOM_TRENDS, *SYMPTOM_SIGNS)
ANSWER_STANDS = timedelta(hours=24)  # common practice, no source
ASKED_BACK_WITHIN = timedelta(
    minutes=15
)  # what is said again so soon answers the plain question: common practice, no source


@dataclass(frozen=True, slots=True)
class Operation:
    """What was done, and the eye as it was before. Heights in metres, times aware, fill in percent of volume."""

    eye: str
    at: datetime
    agent: str
    percent: float = 0.0
    fill_percent: float = 0.0
    lens: str = "unknown"
    indication: str = "other"
    breaks: tuple[Break, ...] = ()
    risks: frozenset[str] = frozenset()
    steroid_drops_until: datetime | None = None
    baseline_acuity: Acuity | None = None
    baseline_iop_mmhg: float | None = None
    plan: posture.Plan | None = None
    height_metres: float = 0.0

    def __post_init__(self) -> None:
        one_of("eye", self.eye, EYES)
        one_of("indication", self.indication, INDICATIONS)
        for risk in self.risks:
            one_of("risk", risk, RISKS)
        tamponade.forecast(self.agent, self.percent, self.fill_percent, self.lens)
        altitude.pressure_hpa(self.height_metres)

    def day(self, at: datetime) -> float:
        """Days after surgery, with its fraction."""
        return (at - self.at).total_seconds() / 86400

    @property
    def fades(self) -> bool:
        return tamponade.AGENTS[self.agent].fades

    @property
    def liquid(self) -> bool:
        return self.agent in tamponade.LIQUIDS


@dataclass(frozen=True, slots=True)
class PlannedVisit:
    """A review visit with the local dates between which it is due. `id` tells visits of one name apart."""

    name: str
    earliest: date
    latest: date
    id: str = ""


@dataclass(frozen=True, slots=True)
class Measures:
    """What the clinic measured on one eye. `bubble_percent` is the height of the meniscus, pain runs from 0 to 10."""

    at: datetime
    eye: str
    acuity: Acuity | None = None
    correction: str | None = None
    iop_mmhg: float | None = None
    instrument: str | None = None
    bubble_percent: float | None = None
    pain: int | None = None
    findings: frozenset[str] = frozenset()
    from_patient: ClassVar[bool] = False

    def __post_init__(self) -> None:
        one_of("eye", self.eye, EYES)
        if self.iop_mmhg is not None:
            within("a pressure of", self.iop_mmhg, LOWEST_MMHG, HIGHEST_MMHG, " mmHg")
        if self.instrument is not None:
            one_of("instrument", self.instrument, INSTRUMENTS)
        if self.bubble_percent is not None:
            within("a bubble height of", self.bubble_percent, 0, 100, " %")
        if self.pain is not None:
            within("pain of", self.pain, *PAIN_RANGE)
        for finding in self.findings:
            one_of("finding", finding, FINDINGS)


@dataclass(frozen=True, slots=True)
class Symptoms:
    """What the patient answered; a missing answer is None and never counts as well or as bad. `words` as typed."""

    at: datetime
    pain: int | None = None
    vision: Trend | None = None
    redness: Trend | None = None
    discharge: bool | None = None
    curtain: bool | None = None
    flashes: Trend | None = None
    floaters: Trend | None = None
    vomiting: bool | None = None
    fever: bool | None = None
    injury: bool | None = None
    other_eye: Trend | None = None
    words: str = ""
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        if self.pain is not None:
            within("pain of", self.pain, *PAIN_RANGE)
        for name in SYMPTOM_TRENDS:
            if (answer := getattr(self, name)) is not None:
                one_of(f"answer for {name}", answer, TRENDS)

    @property
    def said(self) -> frozenset[str]:
        """The answers as rules name them: `vision=worse`, `discharge`. Pain is a number and stays apart."""
        trends = [f"{name}={answer}" for name in SYMPTOM_TRENDS if (answer := getattr(self, name))]
        return frozenset(trends + [name for name in SYMPTOM_SIGNS if getattr(self, name)])


@dataclass(frozen=True, slots=True)
class Postured:
    """A stretch of posturing that the patient or carer logged."""

    at: datetime
    block: posture.Block
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class BubbleSeen:
    """The level the patient sees: share of the view below the line, in percent."""

    at: datetime
    percent: float
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        within("a bubble height of", self.percent, 0, 100, " %")


@dataclass(frozen=True, slots=True)
class Journey:
    """A journey planned or made, as heights in metres in order."""

    at: datetime
    heights_metres: tuple[float, ...]
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        altitude.journey(self.heights_metres)


@dataclass(frozen=True, slots=True)
class Anaesthetic:
    """An anaesthetic, dental sedation or gas-and-air that is planned or was given, and what was written with it."""

    at: datetime
    words: str = ""
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class Heard:
    """The patient or carer was heard from in some other way: a call, a message, drops ticked off."""

    at: datetime
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class Seen:
    """The planned visit of that id took place, or, where visits have no id, of that name."""

    at: datetime
    visit: str
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class NoGasSeen:
    """A clinician looked and saw no gas: the only thing that lifts the travel and nitrous oxide caution."""

    at: datetime
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class TamponadeRemoved:
    """The oil (or gas) was taken out."""

    at: datetime
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class Settled:
    """The open callbacks of one worry, or of every worry, were settled: a danger that lasts calls again at the next look."""

    at: datetime
    worry: str | None = None
    from_patient: ClassVar[bool] = False


Fact = (
    Measures
    | Symptoms
    | Postured
    | BubbleSeen
    | Journey
    | Anaesthetic
    | Heard
    | Seen
    | NoGasSeen
    | TamponadeRemoved
    | Settled
)


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

    def __init__(self, course: Course, operation: Operation | None, end: datetime | None, now: datetime) -> None:
        self.course = course
        self.zone = course.zone
        self.now = now if end is None else min(now, end)
        self.ended_at = end
        self._operation = operation
        everything = _in_order(f for f in course.facts if f.at <= now)
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
    def visits(self) -> list[PlannedVisit]:
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
    def forecasts(self) -> list[tuple[datetime, tamponade.Forecast]]:
        """The forecast after surgery and after each level seen, with the time from which it holds."""
        op = self.operation
        latest = tamponade.forecast(op.agent, op.percent, op.fill_percent, op.lens)
        forecasts = [(op.at, latest)]
        for at, level in self.sightings:
            latest = latest.updated(level)
            forecasts.append((at, latest))
        return forecasts

    def forecast_before(self, at: datetime) -> tamponade.Forecast:
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
        gone_below = tamponade.AGENTS[op.agent].gone_below
        assert gone_below is not None
        return "gas below sight" if fill >= gone_below.value else "clear"

    @cached_property
    def views(self) -> list[tuple[Measures, Acuity, View]]:
        """Measures with an acuity, and what the eye looked through."""
        return [(m, m.acuity, self.seen_through(m)) for m in self.measures if m.acuity is not None]

    @cached_property
    def hours_in_plan(self) -> list[posture.DayAdherence]:
        """Each plan day that has begun, with its hours; empty without a plan."""
        op = self._operation
        if op is None or op.plan is None:
            return []
        return posture.adherence(op.plan, [p.block for p in self.postured], op.at, self.zone, self.now)

    @property
    def reached_since(self) -> datetime:
        """Since when the patient is reached as now; since surgery where it was so from the beginning."""
        return max(self.operation.at, self.course.reached_since or self.operation.at)

    @cached_property
    def silences(self) -> list[tuple[datetime, float]]:
        """From when and for how many hours nothing was heard from the patient, counted from surgery."""
        first = self.reached_since
        heard = [first, *(at for at in self.heard_at if at > first)]
        pairs = zip(heard, [*heard[1:], self.now], strict=True)
        return [(last, (following - last).total_seconds() / 3600) for last, following in pairs]


def _levelled(measures: Measures, eye: str) -> bool:
    return measures.eye == eye and measures.bubble_percent is not None


def _empties(fact: Fact, eye: str) -> bool | None:
    """True where a clinician recorded that nothing is left, False where gas was seen, by whomever; None for the rest."""
    if isinstance(fact, NoGasSeen | TamponadeRemoved):
        return True
    seen_percent = fact.percent if isinstance(fact, BubbleSeen) else 0.0
    if isinstance(fact, Measures) and _levelled(fact, eye):
        seen_percent = fact.bubble_percent or 0.0
    return False if seen_percent > 0 else None


def _sighting(operation: Operation, fact: BubbleSeen | Measures) -> tamponade.Observation:
    if isinstance(fact, BubbleSeen):
        return tamponade.Observation(operation.day(fact.at), fact.percent, "patient")
    assert fact.bubble_percent is not None
    return tamponade.Observation(operation.day(fact.at), fact.bubble_percent, "clinic")


def _in_order(facts: Iterable[Fact]) -> Sequence[Fact]:
    """By time and kind; those of one instant and kind by what they say, looked at only when there are such."""
    ordered = sorted(facts, key=_time_and_kind)
    if any(a.at == b.at and type(a) is type(b) for a, b in itertools.pairwise(ordered)):
        ordered.sort(key=lambda fact: (*_time_and_kind(fact), _words(fact)))
    return ordered


def _time_and_kind(fact: Fact) -> tuple[datetime, str]:
    return fact.at, type(fact).__name__


def _words(fact: Fact) -> str:
    """A fact as text that does not depend on the order of a set or the notation of its time."""
    parts = (getattr(fact, name) for name in fact.__dataclass_fields__ if name != "at")
    return repr([sorted(p) if isinstance(p, frozenset) else p for p in parts])


def end_of(day: date, zone: tzinfo) -> datetime:
    """The instant at which a local day is over, in UTC."""
    return datetime.combine(day + timedelta(days=1), datetime.min.time(), zone).astimezone(UTC)
