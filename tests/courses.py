"""Made-up eyes for the tests of the rulebook: a course and short ways to add facts to it."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

from followup.clinical import posture
from followup.clinical.acuity import read
from followup.clinical.course import Course, PlannedVisit
from followup.clinical.facts import BubbleSeen, Fact, Measures, Postured, Seen, Symptoms
from followup.clinical.surgery import Operation
from followup.clinical.warnings import Sign, evaluate
from followup.protocols import book

OPERATED = datetime(2027, 3, 2, 14, tzinfo=UTC)
WELL: dict[str, Any] = {
    "pain": 1,
    "vision": "same",
    "redness": "same",
    "discharge": False,
    "curtain": False,
    "flashes": "same",
    "floaters": "same",
    "vomiting": False,
    "fever": False,
    "injury": False,
}


def at(day: float) -> datetime:
    """The time that many days after surgery."""
    return OPERATED + timedelta(days=day)


def operation(**changes: Any) -> Operation:
    usual: dict[str, Any] = {
        "eye": "right",
        "at": OPERATED,
        "agent": "c2f6",
        "percent": 16,
        "fill_percent": 95,
        "lens": "phakic",
        "indication": "diabetic-traction",
        "risks": frozenset({"diabetic"}),
        "baseline_acuity": read("6/60"),
        "baseline_iop_mmhg": 15,
        "steroid_drops_until": at(28),
    }
    return Operation(**{**usual, **changes})


def measures(day: float, **given: Any) -> Measures:
    reading = given.pop("acuity", None)
    findings = frozenset(given.pop("findings", ()))
    usual = {"correction": "pinhole", "instrument": "applanation"}
    return Measures(at(day), "right", acuity=read(reading) if reading else None, findings=findings, **{**usual, **given})


def symptoms(day: float, **given: Any) -> Symptoms:
    return Symptoms(at(day), **{**WELL, **given})


def again(day: float, **given: Any) -> list[Fact]:
    """A check with something wrong, and the same at a second look an hour later and at a third."""
    alone = {name: answer for name, answer in given.items() if answer not in ("same", "better", False)}
    return [symptoms(day, **given), *(Symptoms(at(day + hours / 24), **alone) for hours in (1, 2))]


def postured(day: float, hours: float = 11, position: str = "face-down") -> Postured:
    """Logged at 21:00 UTC of that calendar day."""
    end = datetime.combine(OPERATED.date() + timedelta(days=int(day)), datetime.min.time(), UTC) + timedelta(hours=20)
    return Postured(end + timedelta(hours=1), posture.Block(position, end - timedelta(hours=hours), end))


def visit(name: str, day: int, late: int | None = None) -> PlannedVisit:
    day_of = OPERATED.date() + timedelta(days=day)
    return PlannedVisit(name, day_of, day_of if late is None else OPERATED.date() + timedelta(days=late))


def signs(facts: Sequence[Fact], until: float, visits: Sequence[PlannedVisit] = (), **changes: Any) -> list[Sign]:
    """What the draft rulebook raises by that day."""
    return evaluate(Course.after(operation(**changes), tuple(visits), tuple(facts)), book.rulebook(), at(until))


def rules(found: Sequence[Sign]) -> set[str]:
    return {s.rule for s in found}


def diary(until: float, every: float = 1) -> list[Fact]:
    """Calm checks, so that nobody worries about silence."""
    days = []
    day = 0.3
    while day < until:
        days.append(symptoms(day))
        day += every
    return list(days)


def gas_course(until: int = 90) -> tuple[list[Fact], list[PlannedVisit]]:
    """An uneventful C2F6 eye: posture kept, visits kept, sight returning, pressure normal, gas gone by five weeks."""
    facts: list[Fact] = [*diary(14), *(symptoms(d) for d in range(21, until, 7))]
    facts += [postured(d) for d in range(1, 5)]
    seen_at = {
        "day 1": (1, "HM", 18, 88),
        "week 1": (8, "HM", 17, 52),
        "week 2": (15, "CF", 16, 32),
        "week 4": (30, "6/36", 17, 10),
        "gas check": (38, "6/24", 16, None),
        "month 3": (90, "6/18", 15, None),
    }
    visits = []
    for name, (day, acuity, iop, level) in seen_at.items():
        visits.append(visit(name, day - 1, day + 5))
        if day < until:
            facts += [measures(day, acuity=acuity, iop_mmhg=iop, bubble_percent=level, pain=1), Seen(at(day), name)]
    return facts, visits


def oil_course(until: int = 120) -> tuple[list[Fact], list[PlannedVisit]]:
    """An uneventful oil eye until it is listed for removal."""
    facts: list[Fact] = [*diary(14), *(symptoms(d) for d in range(21, until, 7)), postured(1)]
    visits = []
    for name, day, acuity in (("day 1", 1, "CF"), ("week 1", 8, "6/60"), ("week 4", 30, "6/48"), ("month 3", 90, "6/36")):
        visits.append(visit(name, day - 1, day + 5))
        facts += [measures(day, acuity=acuity, iop_mmhg=18, pain=1), Seen(at(day), name)]
    return facts, visits


GAS_PLAN = posture.Plan("face-down", 12, 5)
OIL: dict[str, Any] = {"agent": "silicone-oil", "percent": 0, "plan": posture.Plan("face-down", 8, 2)}
__all__ = ["BubbleSeen", "Seen"]
