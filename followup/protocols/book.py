"""Read and check the three parts of a protocol: rulebook, reviews, postures.

Texts come in as TOML, are checked by the models below (the JSON Schema comes from them too) and
turn into the plain values of `followup.clinical`. A protocol is known by the hash of what it says,
so a signature holds for exactly those words and numbers.
"""

import hashlib
import json
import tomllib
from collections.abc import Collection, Sequence
from functools import lru_cache
from importlib import resources
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from followup.clinical import coverage, posture, pressure, schedule, warnings
from followup.clinical.agents import AGENTS
from followup.clinical.errors import ClinicalError
from followup.clinical.evidence import SOURCES
from followup.clinical.rulebook import SecondLook
from followup.clinical.surgery import INDICATIONS, RISKS
from followup.errors import FollowupError

PARTS = ("rulebook", "reviews", "postures")
Part = Literal["rulebook", "reviews", "postures"]


class ProtocolError(FollowupError, ValueError):
    """A protocol that cannot be used; the message names the place and what is accepted."""


def _known(values: Collection[str], what: str) -> Any:
    items: dict[str, Any] = {"type": "string", "enum": sorted(values)}
    return Field(json_schema_extra={"items": items}, description=what)


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


Pressure = Annotated[float, Field(ge=pressure.LOWEST_MMHG, le=pressure.HIGHEST_MMHG)]


class SecondLookText(_Strict):
    """What the phone asks back at once about a lone mild sign, and by how many hours later it must have looked again.

    What is often a slip, or the bubble, is looked at twice more (`looks`) before somebody is called.
    """

    ask: Annotated[str, Field(min_length=1)]
    hours: Annotated[float, Field(gt=0)]
    looks: Annotated[int, Field(ge=1, le=3)] = 1


class RuleText(_Strict):
    """One warning rule as written."""

    id: Annotated[str, Field(pattern=r"^[a-z0-9-]+$")]
    check: Annotated[str, Field(json_schema_extra={"enum": sorted(warnings.CHECKS)})]
    worry: Annotated[str, Field(pattern=r"^[a-z-]+$")]
    how_soon: warnings.HowSoon
    words: Annotated[str, Field(min_length=1)]
    source: Annotated[str, Field(json_schema_extra={"enum": sorted(SOURCES)})]
    threshold: dict[str, Any]
    patient_words: str = ""
    threshold_source: Annotated[str, Field(json_schema_extra={"enum": sorted(SOURCES)})] = "CP"
    second_look: SecondLookText | None = None
    ask: tuple[str, ...] = ()
    agents: Annotated[tuple[str, ...], _known(AGENTS, "only eyes with one of these")] = ()
    risks: Annotated[tuple[str, ...], _known(RISKS, "only eyes with one of these")] = ()
    from_day: Annotated[float, Field(ge=0)] = 0
    until_day: Annotated[float, Field(ge=0)] = 3650
    eyes: warnings.Eyes = "operated"


class BandsText(_Strict):
    """Edges of the pressure bands in mmHg, rising."""

    hypotony_at_most: Pressure
    normal_from: Pressure
    normal_to: Pressure
    spike_from: Pressure
    severe_from: Pressure


class RulebookText(_Strict):
    version: str
    bands: BandsText
    rules: tuple[RuleText, ...]


class VisitText(_Strict):
    """One review visit as written, in days after surgery."""

    name: Annotated[str, Field(min_length=1)]
    target_day: Annotated[int, Field(ge=0)]
    earliest_day: Annotated[int, Field(ge=0)]
    latest_day: Annotated[int, Field(ge=0)]
    reason: str
    source: str
    days_source: str = "CP"
    agents: tuple[str, ...] = ()
    risks: tuple[str, ...] = ()


class ReviewsText(_Strict):
    version: str
    visits: tuple[VisitText, ...]


class PlanText(_Strict):
    """One posture plan as written; `position = "best"` leaves it to the geometry of the breaks."""

    position: str
    hours_a_day: Annotated[float, Field(ge=0, le=24)]
    days: Annotated[int, Field(ge=0, le=60)]
    source: str
    agents: tuple[str, ...] = ()
    indications: tuple[str, ...] = ()
    needs_breaks: bool = False

    def fits(self, operation_agent: str, indication: str, breaks: Sequence[coverage.Break]) -> bool:
        return (
            (not self.agents or operation_agent in self.agents)
            and (not self.indications or indication in self.indications)
            and (bool(breaks) or not self.needs_breaks)
        )


class PosturesText(_Strict):
    version: str
    plans: tuple[PlanText, ...]


MODELS: dict[str, type[_Strict]] = {"rulebook": RulebookText, "reviews": ReviewsText, "postures": PosturesText}


@lru_cache
def draft_text(part: str) -> str:
    """The draft that ships with the software."""
    return resources.files(__package__).joinpath(f"{part}.toml").read_text(encoding="utf-8")


def json_schema(part: str) -> dict[str, Any]:
    """JSON Schema of a part, made from the model that checks it."""
    return MODELS[part].model_json_schema()


@lru_cache(maxsize=32)
def fingerprint(text: str) -> str:
    """Short hash of what a protocol says: comments and layout do not count."""
    said = json.dumps(_parsed(text), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(said.encode()).hexdigest()[:16]


def check(part: str, text: str) -> None:
    """Raise `ProtocolError` unless the text is a usable protocol of that part."""
    {"rulebook": rulebook, "reviews": reviews, "postures": postures}[part](text)


@lru_cache(maxsize=32)
def rulebook(text: str | None = None) -> warnings.Rulebook:
    """The warning rules of a text (of the draft without one), ready to evaluate."""
    text = draft_text("rulebook") if text is None else text
    read = _validated("rulebook", text)
    assert isinstance(read, RulebookText)
    try:
        rules = tuple(_rule(rule) for rule in _with_what_stays(read.rules))
        for rule in rules:
            _citation(f"rule “{rule.id}”", rule.source)
            _citation(f"rule “{rule.id}”", rule.threshold_source)
            for conditions in (rule.threshold.get("signs", ()), rule.threshold.get("also", ())):
                warnings.signs_of(tuple(conditions))
        return warnings.Rulebook(fingerprint(text), rules, pressure.Bands(**read.bands.model_dump()))
    except (ClinicalError, TypeError) as error:
        raise ProtocolError(str(error)) from error


def _rule(text: RuleText) -> warnings.Rule:
    look = text.second_look and SecondLook(**text.second_look.model_dump())
    return warnings.Rule(**{**text.model_dump(), "second_look": look})


@lru_cache(maxsize=32)
def reviews(text: str | None = None) -> tuple[schedule.VisitRule, ...]:
    """The review visits of a text (of the draft without one)."""
    read = _validated("reviews", draft_text("reviews") if text is None else text)
    assert isinstance(read, ReviewsText)
    try:
        for visit in read.visits:
            _citation(f"visit “{visit.name}”", visit.source)
            _citation(f"visit “{visit.name}”", visit.days_source)
        return tuple(schedule.VisitRule(**visit.model_dump(exclude={"source", "days_source"})) for visit in read.visits)
    except ClinicalError as error:
        raise ProtocolError(str(error)) from error


@lru_cache(maxsize=32)
def postures(text: str | None = None) -> tuple[PlanText, ...]:
    """The posture plans of a text (of the draft without one), in the order in which they are tried."""
    read = _validated("postures", draft_text("postures") if text is None else text)
    assert isinstance(read, PosturesText)
    for plan in read.plans:
        _citation(f"plan “{plan.position}”", plan.source)
        if plan.position != "best" and plan.position not in coverage.POSTURES:
            raise ProtocolError(
                f"“{plan.position}” is not a known posture; accepted are: best, {', '.join(coverage.POSTURES)}"
            )
        if plan.indications and not set(plan.indications) <= set(INDICATIONS):
            raise ProtocolError(f"unknown indication among {', '.join(plan.indications)}")
    return read.plans


def propose_plan(
    plans: Sequence[PlanText], agent: str, indication: str, breaks: Sequence[coverage.Break], fill_percent: float
) -> posture.Plan | None:
    """The first plan that fits, its position worked out from the breaks where it says `best`; None for no posturing."""
    chosen = next((plan for plan in plans if plan.fits(agent, indication, breaks)), None)
    if chosen is None or chosen.days == 0:
        return None
    position = chosen.position
    if position == "best":
        position = coverage.best_postures(breaks, fill_percent, AGENTS[agent].moves)[0].name
    return posture.Plan(position, chosen.hours_a_day, chosen.days)


ALWAYS = ("words", "diary-call", "pressure-by-finger")


def _with_what_stays(rules: Sequence[RuleText]) -> Sequence[RuleText]:
    """The rules, and the draft's for what always calls where a clinic's own text, perhaps an older one, has none.

    What a patient writes always reaches a person, somebody always calls those who have no app, and an eye that feels hard or
    soft is never only written down; no rulebook can switch that off.
    """
    missing = {check for check in ALWAYS if all(rule.check != check for rule in rules)}
    if not missing:
        return rules
    draft = RulebookText.model_validate(_parsed(draft_text("rulebook")))
    return [*rules, *(rule for rule in draft.rules if rule.check in missing)]


def _validated(part: str, text: str) -> _Strict:
    try:
        return MODELS[part].model_validate(_parsed(text))
    except ValidationError as error:
        first = error.errors()[0]
        place = " → ".join(str(step + 1 if isinstance(step, int) else step) for step in first["loc"])
        raise ProtocolError(f"{part}: {place}: {first['msg']}") from error


def _parsed(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProtocolError(f"this is not TOML: {error}") from error


def _citation(where: str, source: str) -> None:
    if source not in SOURCES:
        raise ProtocolError(f"{where} names the source “{source}”, which is not in the list; mark common practice as CP")
