"""What the patient answered, and wrote."""

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any, NamedTuple

from followup.clinical.checks.look import NOTHING, Check, Look
from followup.clinical.errors import one_of
from followup.clinical.facts import PAIN_RANGE, SYMPTOM_SIGNS, SYMPTOM_TRENDS, TRENDS, Anaesthetic, Symptoms
from followup.clinical.timeline import ASKED_BACK_WITHIN, Timeline


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
    asked = {answer.partition("=")[0] for answer in signs.answers | also.answers} | ({"pain"} if signs.pain else set())
    was_fine = True
    for answers in timeline.answers:
        if answers.given.isdisjoint(asked):
            continue
        present = signs.answers & answers.said
        number = len(present) + (answers.pain >= painful)
        if number < count or not also.answers <= answers.said:
            if not was_fine:
                yield (answers.at, None, NOTHING)
            was_fine = True
            continue
        was_fine = False
        told = {a.partition("=")[0]: getattr(answers.told, a.partition("=")[0]) for a in sorted(present | also.answers)}
        yield (answers.at, number * 11 + answers.pain, {"pain": answers.told.pain, **told})


LOOKS_IN_A_ROW = 2  # where a rulebook does not say; common practice, no source


def _symptoms_again(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """The same at so many `looks` in a row, each at most `within_hours` after the one before: no slip of a finger.

    To say so again within minutes, when the plain question comes back, is no second look yet.
    """
    said: list[datetime] = []
    for at, severity, values in _symptoms(timeline, threshold):
        if severity is None:
            said.clear()
            yield (at, None, NOTHING)
            continue
        if said and at - said[-1] < ASKED_BACK_WITHIN:
            continue
        if said and at - said[-1] > timedelta(hours=threshold["within_hours"]):
            said.clear()
        said.append(at)
        if len(said) >= threshold.get("looks", LOOKS_IN_A_ROW):
            yield (at, severity, {**values, "said_first": said[0].isoformat()})


def _words(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Whatever the patient wrote, each time: what it means only a person can say."""
    written: list[Symptoms | Anaesthetic] = [*timeline.symptoms, *timeline.anaesthetics]
    for told in sorted(written, key=lambda f: f.at):
        if said := told.words.strip():
            yield (told.at, 1.0, {"said": said})
            yield (told.at, None, NOTHING)


CHECKS = {
    "symptoms": Check(_symptoms, frozenset({"signs", "count"}), fits_fellow=True),
    "symptoms-again": Check(_symptoms_again, frozenset({"signs", "count", "within_hours"}), fits_fellow=True),
    "words": Check(_words, frozenset(), fits_fellow=True),
}
