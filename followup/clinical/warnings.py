"""A rulebook and an eye's course to warning signs, each with its values, threshold, source and how soon.

A rule names a check (one of `checks.CHECKS`) and its threshold. A check walks the timeline and yields
`Look`s: a time, and how bad it was then (None for fine). Folding them gives the signs: one when
something starts, another whenever it gets worse, a fresh one after it had been fine again. Each
look uses only what was known at its time, so one pass over a whole course raises what hourly
passes would have raised, at the same times, whatever order the facts arrived in.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple

from followup.clinical import pressure, seen_levels, vision
from followup.clinical.agents import AGENTS
from followup.clinical.checks import CHECKS
from followup.clinical.checks.look import Values
from followup.clinical.checks.symptoms import LOOKS_IN_A_ROW, signs_of
from followup.clinical.course import Course
from followup.clinical.evidence import Model
from followup.clinical.rulebook import HOW_SOON, Eyes, HowSoon, Rule, Rulebook
from followup.clinical.second_looks import Raised, in_days, told
from followup.clinical.timeline import SIGHT_COVERED_FROM, Timeline

__all__ = [
    "CHECKS",
    "HOW_SOON",
    "LOOKS_IN_A_ROW",
    "MODEL",
    "Eyes",
    "Finding",
    "HowSoon",
    "Rule",
    "Rulebook",
    "Sign",
    "evaluate",
    "in_order",
    "signs_of",
]


@dataclass(frozen=True, slots=True)
class Sign:
    """A warning sign: which rule, in which eye, when it came up, on which values, against which threshold, how soon to act."""

    eye: str
    rule: str
    worry: str
    how_soon: HowSoon
    raised_at: datetime
    severity: float
    values: Values
    threshold: Mapping[str, Any]
    source: str
    words: str
    threshold_source: str = "CP"


def evaluate(course: Course, rulebook: Rulebook, now: datetime) -> list[Sign]:
    """Every sign that the course has given up to `now`, in the order raised (the most urgent first at one instant)."""
    return in_order(sign for timeline, rule in rulebook.applied(course, now) for sign in _signs(timeline, rule))


class Finding(NamedTuple):
    """What a rule finds at a time: how bad (higher is worse), and the values it saw."""

    severity: float
    values: Values


def found(course: Course, rulebook: Rulebook, now: datetime) -> dict[tuple[str, datetime], Finding]:
    """Whatever the rules find in a course, by rule and time: also where it is no news and gives no sign.

    A warning has its grounds as long as its rule still finds something at its time. (Signs alone do not say so: a second
    high pressure gives a sign only where the first was lower.)
    """
    pairs = list(rulebook.applied(course, now))
    seen = {
        (rule.id, at): Finding(severity, values)
        for timeline, rule in pairs
        for at, severity, values in CHECKS[rule.check].look(timeline, rule.threshold)
        if severity is not None and in_days(timeline, rule, at)
    }
    unanswered = {
        (rule.id, said.at): Finding(said.severity, said.values)
        for timeline, rule in pairs
        for said in told(timeline, rule)
        if isinstance(said, Raised)
    }
    return unanswered | seen


def in_order(signs: Iterable[Sign]) -> list[Sign]:
    """By time; the most urgent first at one instant."""
    return sorted(signs, key=lambda s: (s.raised_at, HOW_SOON.index(s.how_soon), s.rule))


def _signs(timeline: Timeline, rule: Rule) -> Iterator[Sign]:
    for said in told(timeline, rule):
        if isinstance(said, Raised):
            words = rule.words.format_map({**rule.threshold, **_in_words(said.values)})
            yield Sign(
                timeline.course.eye, rule.id, rule.worry, rule.how_soon, said.at, said.severity, said.values,
                rule.threshold, rule.source, words, rule.threshold_source,
            )  # fmt: skip


def _in_words(values: Values) -> dict[str, Any]:
    """What was seen, with the name of what is in the eye as people say it."""
    return {**values, **({"agent": AGENTS[values["agent"]].words} if "agent" in values else {})}


MODEL = Model(
    "Warning signs",
    (
        "Each rule of the signed rulebook looks at every fact with what was known at that time, and says which values it saw, "
        "against which threshold, from which source, and how soon somebody must act.",
        "A sign is raised when it starts, again when it gets worse, and afresh after it had been well in between. "
        "Once its callback was settled, the first look that still finds it raises it afresh. "
        "It is never withdrawn. The order in which entries arrive does not matter.",
        "An eye that was not operated is watched by rules of its own: pressure, lost sight, infection, inflammation.",
        "While gas covers the line of sight poor vision is expected: only lost light perception counts then. "
        "Readings past a low bubble, through oil and with nothing in the eye are each compared with their own kind; "
        "a clear eye must not see less than it did past the gas, or before surgery.",
        "Infection does not need pain: about one in five had none.",
        "What the patient writes in their own words is not judged: it always opens a callback.",
    ),
    ("The rules support decisions and take none. Local protocol and licensed judgement come first.",),
    (SIGHT_COVERED_FROM, vision.NOISE_CLINIC, pressure.SPIKE_FROM, pressure.SEVERE_FROM, seen_levels.CONTRADICTS_BEYOND),
)
