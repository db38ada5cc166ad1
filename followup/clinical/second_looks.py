"""From the looks of one rule to what it says: raised, or asked back first.

A lone mild sign of a rule with a second look is asked back. It is raised by the next answer that still finds it (the one
after that, where the rule wants it looked at twice more), or at the end of the time given where no answer came; an answer
that finds it gone ends it. To say so again within minutes, when the plain question comes back, is no second look yet.
Anything else is raised at once: a sign that is not alone, also where the other one comes within those minutes, one that was
raised and settled and is still there, and rules without a second look.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from followup.clinical.checks import CHECKS
from followup.clinical.checks.look import Values
from followup.clinical.course import Course
from followup.clinical.rulebook import Rule, Rulebook, SecondLook
from followup.clinical.timeline import ASKED_BACK_WITHIN as ASKED_BACK_WITHIN
from followup.clinical.timeline import Timeline


@dataclass(frozen=True, slots=True)
class Raised:
    """A sign: when it was raised, how bad, and the values seen."""

    at: datetime
    severity: float
    values: Values


@dataclass(frozen=True, slots=True)
class Asked:
    """A second look, or the next one: asked at that time, due by then; `signs` are named as in a symptom check."""

    asked_at: datetime
    due_at: datetime
    signs: tuple[str, ...]
    unanswered: Raised = field(compare=False, repr=False)
    number: int = field(default=1, compare=False)


def told(timeline: Timeline, rule: Rule) -> Iterator[Raised | Asked]:
    """All that a rule says of one stage, in order of time."""
    worst: float | None = None
    raised_at = timeline.now
    waiting: Asked | None = None
    for at, severity, values in CHECKS[rule.check].look(timeline, rule.threshold):
        if waiting is not None and at > waiting.due_at:
            yield waiting.unanswered
            worst, raised_at, waiting = waiting.unanswered.severity, waiting.due_at, None
        lasts = worst is not None and timeline.settled_between(rule.worry, raised_at, at)
        if lasts:
            worst = None
        if severity is None:
            worst, waiting = None, None
        elif _answers_plain_question(timeline, waiting, at) if waiting else not in_days(timeline, rule, at):
            continue
        elif worst is None and not lasts and rule.second_look and _asks_back(timeline, rule.second_look, waiting, at):
            waiting = _asked(rule.second_look.hours, Raised(at, severity, values), waiting.number + 1 if waiting else 1)
            yield waiting
        elif worst is None or severity > worst:
            worst, raised_at, waiting = severity, at, None
            yield Raised(at, severity, values)
    if waiting is not None and waiting.due_at <= timeline.now:
        yield waiting.unanswered


def _answers_plain_question(timeline: Timeline, waiting: Asked, at: datetime) -> bool:
    """Whether the same was said so soon that it only answers the question asked at once; with more beside it, it calls."""
    return at - waiting.asked_at < ASKED_BACK_WITHIN and timeline.lone_mild_sign(at)


def _asks_back(timeline: Timeline, second_look: SecondLook, waiting: Asked | None, at: datetime) -> bool:
    """Whether what was found is to be looked at again: a lone mild sign that was not yet looked at often enough."""
    looks = waiting.number if waiting else 0
    return looks < second_look.looks and timeline.lone_mild_sign(at)


def _asked(hours: float, first: Raised, number: int) -> Asked:
    due = first.at + timedelta(hours=hours)
    names = tuple(sorted(name for name in first.values if name != "pain")) or ("pain",)
    return Asked(first.at, due, names, Raised(due, first.severity, {**first.values, "second_look": "no answer"}), number)


def in_days(timeline: Timeline, rule: Rule, at: datetime) -> bool:
    """Whether a rule is in force at that time of a stage."""
    return rule.always or not timeline.operated or rule.from_day <= timeline.operation.day(at) <= rule.until_day


def second_looks(course: Course, rulebook: Rulebook, now: datetime) -> list[Asked]:
    """Every second look that was asked for by `now`, one for the same signs at one time: the soonest."""
    found: dict[tuple[datetime, tuple[str, ...]], Asked] = {}
    for timeline, rule in rulebook.applied(course, now):
        for said in told(timeline, rule) if rule.second_look else ():
            if isinstance(said, Asked):
                known = found.get((said.asked_at, said.signs), said)
                found[said.asked_at, said.signs] = min(known, said, key=lambda asked: asked.due_at)
    return sorted(found.values(), key=lambda asked: (asked.asked_at, asked.due_at, asked.signs))
