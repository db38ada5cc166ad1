"""The rules of one version of the rulebook: which check, against what, for which eyes, how soon, from which source."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any, Literal, get_args

from followup.clinical import pressure
from followup.clinical.checks import CHECKS
from followup.clinical.course import Course
from followup.clinical.errors import Unknown, one_of, within
from followup.clinical.surgery import Operation
from followup.clinical.timeline import Timeline

HowSoon = Literal["now", "today", "this-week"]
HOW_SOON: tuple[HowSoon, ...] = get_args(HowSoon)
Eyes = Literal["operated", "fellow"]
EYES: tuple[Eyes, ...] = get_args(Eyes)
_HOUR = timedelta(hours=1)
_WORDS = ("finding", "category", "direction", "finger")  # what a threshold says in words
_LOOKS = (2, 3)  # common practice, no source


# How long somebody may take before a callback moves up. Common practice, no source.
DUE_WITHIN: dict[HowSoon, timedelta] = {
    "now": timedelta(hours=1),
    "today": timedelta(hours=8),
    "this-week": timedelta(days=5),
}


@dataclass(frozen=True, slots=True)
class SecondLook:
    """A lone mild sign is asked about plainly at once, and looked at again by `hours` later before anybody is called.

    So often as `looks` says, each time within those hours.
    """

    ask: str
    hours: float
    looks: int = 1


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the rulebook. `threshold` holds the numbers its check compares with.

    `source` says where the danger is described, `threshold_source` where the number comes from.

    It applies only to eyes with one of `agents` and one of `risks` (any, where empty), between the
    days `from_day` and `until_day` after surgery; with `eyes = "fellow"` to eyes that were not operated.
    Rules of one `worry` share one callback.
    """

    id: str
    check: str
    worry: str
    how_soon: HowSoon
    words: str
    source: str
    threshold: Mapping[str, Any] = field(default_factory=dict)
    patient_words: str = ""
    threshold_source: str = "CP"
    second_look: SecondLook | None = None
    ask: tuple[str, ...] = ()
    agents: tuple[str, ...] = ()
    risks: tuple[str, ...] = ()
    from_day: float = 0.0
    until_day: float = 3650.0
    eyes: Eyes = "operated"

    def __post_init__(self) -> None:
        one_of("check", self.check, CHECKS)
        one_of("urgency", self.how_soon, HOW_SOON)
        one_of("kind of eye", self.eyes, EYES)
        if self.second_look is not None:
            self._check_second_look(self.second_look)
        if self.eyes == "fellow" and not CHECKS[self.check].fits_fellow:
            raise Unknown(f"rule “{self.id}”: the check “{self.check}” needs an operated eye")
        missing = CHECKS[self.check].needs - set(self.threshold)
        if missing:
            raise Unknown(f"rule “{self.id}”: the check “{self.check}” also needs {', '.join(sorted(missing))}")
        self._check_numbers()

    def _check_numbers(self) -> None:
        """A text for a number would be noticed only when an eye is judged, and too many looks would never call."""
        for name, value in self.threshold.items():
            if isinstance(value, str) and name not in _WORDS:
                raise Unknown(f"rule “{self.id}”: {name} must be a number, not “{value}”")
        if "looks" in self.threshold:
            within(f"rule “{self.id}”: looks in a row", self.threshold["looks"], *_LOOKS)

    def _check_second_look(self, look: SecondLook) -> None:
        if self.check != "symptoms":
            raise Unknown(f"rule “{self.id}”: only what a patient answers can be asked back")
        within(
            f"rule “{self.id}”: a second look after", look.hours * look.looks, 0.25, DUE_WITHIN[self.how_soon] / _HOUR, " h"
        )

    @property
    def always(self) -> bool:
        """Free text reaches a person whatever the day, also where a wrong clock puts it before the operation."""
        return self.check == "words"

    @property
    def signs(self) -> tuple[str, ...]:
        """What its check looks for in a patient's answers; empty where it looks at something else."""
        return tuple(self.threshold.get("signs", ()))

    @property
    def also(self) -> tuple[str, ...]:
        """What has to be there beside one of its signs."""
        return tuple(self.threshold.get("also", ()))

    @property
    def count(self) -> int:
        """How many of its signs it takes."""
        return int(self.threshold["count"])

    def number(self, name: str) -> float:
        """A number that its check compares with, in the unit that its name says."""
        return float(self.threshold[name])

    def applies(self, operation: Operation | None) -> bool:
        """Whether this rule looks at an eye after that operation; None for an eye that was not operated."""
        if self.always:
            return True
        if operation is None or self.eyes == "fellow":
            return operation is None and self.eyes == "fellow"
        return (not self.agents or operation.agent in self.agents) and (
            not self.risks or not operation.risks.isdisjoint(self.risks)
        )


@dataclass(frozen=True, slots=True)
class Rulebook:
    """The rules of one version, and the pressure bands that go with them."""

    version: str
    rules: tuple[Rule, ...]
    bands: pressure.Bands = pressure.DEFAULT_BANDS

    def __post_init__(self) -> None:
        names = [rule.id for rule in self.rules]
        if twice := {name for name in names if names.count(name) > 1}:
            raise Unknown(f"two rules share the name “{min(twice)}”")

    def rule(self, id: str) -> Rule:
        return next(r for r in self.rules if r.id == id)

    def applied(self, course: Course, now: datetime) -> Iterator[tuple[Timeline, Rule]]:
        """Each stage of a course up to `now` with each rule that looks at it."""
        rules = [rule for rule in self.rules if CHECKS[rule.check].app in (None, course.app)]
        for timeline in course.timelines(now):
            operation = timeline.operation if timeline.operated else None
            yield from ((timeline, rule) for rule in rules if rule.applies(operation))
