"""What the patient answered."""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any, NamedTuple

from followup.clinical.checks.look import NOTHING, Check, Look
from followup.clinical.course import PAIN_RANGE, SYMPTOM_SIGNS, SYMPTOM_TRENDS, TRENDS, Timeline
from followup.clinical.errors import one_of


class Signs(NamedTuple):
    """Conditions on one symptom check: answers given (`vision=worse`, `discharge`) and pain of at least a score."""

    answers: frozenset[str]
    pain: int | None


@lru_cache(maxsize=1024)
def signs_of(conditions: tuple[str, ...]) -> Signs:
    """Read the conditions of a rule; raises `Unknown` for a symptom that nobody is asked about."""
    answers = set()
    pain = None
    for text in conditions:
        name, at_least, level = text.partition(">=")
        if at_least:
            one_of("symptom with a score", name, ("pain",))
            pain = int(level)
            continue
        name, equals, trend = text.partition("=")
        one_of("symptom", name, SYMPTOM_TRENDS if equals else SYMPTOM_SIGNS)
        if equals:
            one_of(f"answer for {name}", trend, TRENDS)
        answers.add(text)
    return Signs(frozenset(answers), pain)


def _symptoms(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """At least `count` of the `signs` at once, and all of `also`; worse with more signs and more pain."""
    signs = signs_of(tuple(threshold["signs"]))
    also = signs_of(tuple(threshold.get("also", ())))
    count = threshold["count"]
    painful = signs.pain or PAIN_RANGE[1] + 1
    was_fine = True
    for at, pain, said, told in timeline.answers:
        present = signs.answers & said
        number = len(present) + (pain >= painful)
        if number < count or not also.answers <= said:
            if not was_fine:
                yield (at, None, NOTHING)
            was_fine = True
            continue
        was_fine = False
        fields = sorted(answer.partition("=")[0] for answer in present | also.answers)
        yield (at, number * 11 + pain, {"pain": told.pain, **{name: getattr(told, name) for name in fields}})


CHECKS = {"symptoms": Check(_symptoms, frozenset({"signs", "count"}), fits_fellow=True)}
