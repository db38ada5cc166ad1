"""What counts as success, case by case: invented eyes, each for one boundary. The definitions are common practice, no source."""

from datetime import timedelta

import pytest

from followup.clinical import success
from followup.clinical.course import Course
from followup.clinical.facts import Fact, Measures, TamponadeRemoved
from tests.courses import OPERATED, operation

NOW = OPERATED + timedelta(days=200)


def look(day: float, *findings: str, iop: float | None = None) -> Measures:
    return Measures(OPERATED + timedelta(days=day), "right", iop_mmhg=iop, findings=frozenset(findings))


def course(*facts: Fact, agent: str = "c3f8") -> Course:
    return Course.after(operation(at=OPERATED, agent=agent, percent=14 if agent == "c3f8" else 0), (), facts)


def out(day: float) -> TamponadeRemoved:
    return TamponadeRemoved(OPERATED + timedelta(days=day))


@pytest.mark.parametrize(
    ("facts", "agent", "seen"),
    [
        ((look(10), look(20)), "c3f8", (20, False)),
        ((look(10), look(20, "detached"), look(30)), "c3f8", (20, True)),
        ((), "c3f8", None),
        ((look(10),), "silicone-oil", None),
        ((look(10), out(60), look(95)), "silicone-oil", (35, False)),
        ((look(10), out(60)), "silicone-oil", None),
    ],
)
def test_how_long_a_retina_was_seen_attached_on_its_own(
    facts: tuple[Fact, ...], agent: str, seen: tuple[float, bool] | None
) -> None:
    (after,) = success.after_operations(course(*facts, agent=agent), NOW)
    assert after.seen_on_its_own == seen


@pytest.mark.parametrize(("day", "top"), [(14, 34), (14.01, 20)])
def test_a_spike_is_one_within_fourteen_days(day: float, top: float) -> None:
    (after,) = success.after_operations(course(look(1, iop=20), look(day, iop=34)), NOW)
    assert after.highest_early_mmhg == top


@pytest.mark.parametrize(
    ("facts", "agent", "end"),
    [
        ((look(89),), "c3f8", None),
        ((look(90),), "c3f8", ("attached", True)),
        ((look(20, "detached"), look(95)), "c3f8", ("detached", False)),
        ((look(95),), "silicone-oil", ("under-liquid", False)),
        ((look(95), out(100)), "silicone-oil", ("under-liquid", False)),
        ((out(60), look(95)), "silicone-oil", ("attached", True)),
    ],
)
def test_how_an_eye_stands_in_the_end(facts: tuple[Fact, ...], agent: str, end: tuple[str, bool] | None) -> None:
    found = success.in_the_end(success.after_operations(course(*facts, agent=agent), NOW))
    assert (found and (found.state, found.once)) == end
