"""When the clock alone could next raise something in an eye: until then nobody need look at it, unless something changes."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from followup.clinical.checks import CHECKS
from followup.clinical.course import Course
from followup.clinical.rulebook import Rule, Rulebook
from followup.clinical.second_looks import Asked, told
from followup.clinical.timeline import Timeline

LEEWAY = timedelta(seconds=1)  # hours are fractions: what falls on this very moment is looked at once more


def next_look(course: Course, rulebook: Rulebook, now: datetime) -> datetime | None:
    """The first time after `now` at which `evaluate` may give more than it gives now; None where no time alone does.

    It may come too early, never too late. What lies at `now` itself, within `LEEWAY`, is given too.
    """
    return min((at for at in _times(course, rulebook, now) if at >= now - LEEWAY), default=None)


def _times(course: Course, rulebook: Rulebook, now: datetime) -> Iterator[datetime]:
    yield from (thing.at for thing in (*course.operations, *course.facts))  # a phone's clock may be ahead
    for timeline, rule in rulebook.applied(course, now):
        if timeline.ended_at is None:
            yield from CHECKS[rule.check].wakes(timeline, rule.threshold)
            yield from _second_looks(timeline, rule)


def _second_looks(timeline: Timeline, rule: Rule) -> Iterator[datetime]:
    if rule.second_look is not None:
        yield from (said.due_at for said in told(timeline, rule) if isinstance(said, Asked))
