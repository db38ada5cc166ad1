"""What forecasts keep from one evaluation for the next changes no answer: every evaluation gives what one from scratch gives."""

from collections.abc import Iterable
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import forecasts, tamponade
from followup.clinical.course import Course
from followup.clinical.facts import BubbleSeen, Fact
from followup.clinical.warnings import Sign, evaluate
from followup.protocols import book
from tests.courses import GAS_PLAN, OIL, at, measures, operation, symptoms

NOW = at(60)
KEPT = (forecasts._updated, forecasts._contradiction, forecasts._middle_percent, tamponade._prior)

days = st.integers(1, 118).map(lambda half: half / 2)
levels = st.sampled_from([0, 5, 20, 38, 40, 60, 90, 100])
facts = st.one_of(
    st.builds(lambda d, level, acuity: measures(d, acuity=acuity, iop_mmhg=16, bubble_percent=level, pain=1), days, levels,
              st.sampled_from(["HM", "CF", "6/60", "6/24", "6/12"])),
    st.builds(lambda d, level: BubbleSeen(at(d), level), days, levels),
    st.builds(lambda d, vision: symptoms(d, vision=vision), days, st.sampled_from(["same", "worse"])),
    st.builds(lambda d, acuity: measures(d, acuity=acuity), days, st.sampled_from(["CF", "6/36", "6/9"])),
)  # fmt: skip
operations = st.sampled_from(
    [
        operation(plan=GAS_PLAN),
        operation(agent="sf6", percent=20, lens="aphakic"),
        operation(agent="c3f8", percent=14),
        operation(**OIL),
    ]
)


def from_scratch(course: Course) -> list[Sign]:
    for kept in KEPT:
        kept.cache_clear()
    return evaluate(course, book.rulebook(), NOW)


@given(operations, st.lists(facts, max_size=12))
def test_fact_after_fact_gives_what_the_whole_gives_from_scratch(after: object, told: Iterable[Fact]) -> None:
    course = Course.after(after)  # type: ignore[arg-type]
    for fact in told:
        course = replace(course, facts=(*course.facts, fact))
        seen = evaluate(course, book.rulebook(), NOW)
        assert evaluate(course, book.rulebook(), NOW) == seen
    assert evaluate(course, book.rulebook(), NOW) == from_scratch(course)


@given(operations, operations, days, levels)
def test_forecasts_of_two_eyes_are_never_taken_for_one_another(one: object, other: object, day: float, level: int) -> None:
    seen = tamponade.Observation(day, level)
    given_by = [
        tamponade.forecast(o.agent, o.percent, o.fill_percent, o.lens, (seen,)).fill_percent(day)  # type: ignore[attr-defined]
        for o in (one, other, one)
    ]
    for kept in KEPT:
        kept.cache_clear()
    anew = tamponade.forecast(other.agent, other.percent, other.fill_percent, other.lens, (seen,))  # type: ignore[attr-defined]
    assert given_by[1] == anew.fill_percent(day)
    assert given_by[0] == given_by[2]


def test_an_entry_of_a_known_eye_asks_for_no_level_anew() -> None:
    """Only what is new is worked out: so an entry costs the same however often the eye was seen."""
    seen = tuple(measures(d, iop_mmhg=16, bubble_percent=max(0, 90 - 2 * d), acuity="CF") for d in range(1, 30, 4))
    course = Course.after(operation(plan=GAS_PLAN), facts=seen)
    from_scratch(course)
    worked_out = [kept.cache_info().misses for kept in KEPT]
    evaluate(replace(course, facts=(*seen, symptoms(31, pain=9))), book.rulebook(), NOW)
    assert [kept.cache_info().misses for kept in KEPT] == worked_out
