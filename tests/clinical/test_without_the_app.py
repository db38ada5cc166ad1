"""A patient without the app: nothing is made of silence or of missing hours, and calls come up on fixed days instead.

The days, the weekdays and the hour of a call: common practice, no source.
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from followup.clinical.checks.attendance import planned_calls
from followup.clinical.course import Course, PlannedVisit
from followup.clinical.facts import Heard, Postured, Settled, Symptoms
from followup.clinical.posture import Block, Plan
from followup.clinical.surgery import Operation
from followup.clinical.warnings import Sign, evaluate
from followup.protocols import book

ZONE = ZoneInfo("Europe/Vienna")
OPERATED = datetime(2027, 3, 2, 14, 0, tzinfo=UTC)  # a Tuesday
OPERATION = Operation("right", OPERATED, "c2f6", 16, 95, plan=Plan("face-down", 12, 5))
VISITS = (PlannedVisit("day 1", date(2027, 3, 3), date(2027, 3, 3)),)
APP_ONLY = {"silence", "posture"}


def course(*facts: object, app: bool, since: datetime | None = None) -> Course:
    return Course("right", (OPERATION,), VISITS, facts, ZONE, app, since)  # type: ignore[arg-type]


def signs(told: Course, days: float) -> list[Sign]:
    return evaluate(told, book.rulebook(), OPERATED + timedelta(days=days))


def test_silence_and_posture_are_for_those_with_the_app_and_calls_for_those_without() -> None:
    little = Postured(
        OPERATED + timedelta(days=1.2), Block("face-down", OPERATED + timedelta(days=1), OPERATED + timedelta(days=1.1))
    )
    with_app = {s.worry for s in signs(course(little, app=True), 30)}
    without = {s.worry for s in signs(course(little, app=False), 30)}
    assert with_app == {*APP_ONLY, "missed-visit"}
    assert without == {"diary", "missed-visit"}


def test_everything_else_is_watched_alike() -> None:
    bad = Symptoms(OPERATED + timedelta(days=3), pain=8, vision="worse", curtain=True)
    urgent = [{s.rule for s in signs(course(bad, app=app), 3) if s.how_soon == "now"} for app in (True, False)]
    assert urgent[0] == urgent[1] != set()


def test_a_call_comes_up_at_eight_on_its_day_and_on_the_next_weekday_where_that_is_none() -> None:
    # Surgery on Tuesday 2 March: day 2 is Thursday; day 5 a Sunday, so Monday; 9 Thursday; 14 Tuesday; 21 Tuesday.
    found = [
        (s.raised_at.astimezone(ZONE).isoformat()[:16], s.how_soon)
        for s in signs(course(app=False), 40)
        if s.worry == "diary"
    ]
    days = ("2027-03-04", "2027-03-08", "2027-03-11", "2027-03-16", "2027-03-23")
    assert found == [(f"{day}T08:00", "today") for day in days]
    eight = datetime(2027, 3, 4, 7, 0, tzinfo=UTC)
    assert not [s for s in evaluate(course(app=False), book.rulebook(), eight - timedelta(seconds=1)) if s.worry == "diary"]
    assert [s.rule for s in evaluate(course(app=False), book.rulebook(), eight) if s.worry == "diary"] == ["diary-call"]


@pytest.mark.parametrize(
    ("days", "weekdays", "expected"),
    [
        ([2, 5], [1, 2, 3, 4, 5], {date(2027, 3, 4): 2, date(2027, 3, 8): 5}),
        ([5, 6], [1, 2, 3, 4, 5], {date(2027, 3, 8): 5}),  # one call, not two, on a Monday
        ([5], [7, 1, 2, 3, 4], {date(2027, 3, 7): 5}),  # where the week begins on Sunday
        ([5], [], {date(2027, 3, 7): 5}),
    ],
)
def test_planned_calls(days: list[int], weekdays: list[int], expected: dict[date, int]) -> None:
    assert planned_calls(date(2027, 3, 2), days, weekdays) == expected


def test_a_settled_call_does_not_come_back_and_the_next_one_does() -> None:
    settled = Settled(datetime(2027, 3, 4, 9, tzinfo=UTC), "diary")
    found = [s for s in signs(course(settled, app=False), 6) if s.worry == "diary"]
    assert [s.values["day"] for s in found] == [2, 5]


def test_giving_the_app_up_or_taking_it_up_counts_from_then() -> None:
    late = OPERATED + timedelta(days=10)
    assert [s.values["day"] for s in signs(course(app=False, since=late), 40) if s.worry == "diary"] == [14, 21]
    back = [s for s in signs(course(app=True, since=late), 14) if s.worry in APP_ONLY]
    assert [(s.rule, s.raised_at) for s in back] == [("silent-early", late + timedelta(hours=72))]
    heard = [Heard(late + timedelta(days=1))]
    assert not [s for s in signs(course(*heard, app=True, since=late), 13.5) if s.worry in APP_ONLY]


def test_an_older_rulebook_calls_those_without_the_app_all_the_same() -> None:
    text = book.draft_text("rulebook")
    start = text.index('[[rules]]\nid = "diary-call"')
    older = text[:start] + text[text.index("[[rules]]", start + 5) :]
    assert "diary-call" not in older
    assert "diary-call" in {rule.id for rule in book.rulebook(older).rules}
