"""The calendar file that the phone makes, read by another program's parser. Outside check: RFC 5545 by the library icalendar."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import icalendar
import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { calendarText, dropEvents, visitEvents } from "./patient/later/calendar.js";

const { eyes, today, title, words, place } = given;
const visits = visitEvents(eyes, today, (eye, visit) => ({ title: `${title} ${visit.words}`, words, place }));
const drops = dropEvents(eyes, today, (eye, drop) => ({ title: drop.name, words }));
answer = calendarText([...visits, ...drops], new Date("2027-03-03T09:00:00.000Z"));
""".strip()


def visit(id: str, target: str, starts_at: str | None = None, *, seen: bool = False) -> dict[str, Any]:
    return {"id": id, "words": id, "target": target, "starts_at": starts_at, "seen": seen}


def drop(name: str, first: str, until: str, *times: str) -> dict[str, Any]:
    return {"name": name, "first": first, "until": until, "times": [{"at": at, "opens": "00:00"} for at in times]}


def made(run: Run, **changes: Any) -> str:
    eye = {
        "operation": "eye-1",
        "visits": [
            visit("week 1", "2027-03-10", "2027-03-10T08:40:00Z"),
            visit("week 2", "2027-03-17"),
            visit("day 1", "2027-03-03", seen=True),
            visit("before", "2027-03-01"),
        ],
        "drops": [
            drop("steroid", "2027-03-02", "2027-03-09", "08:00", "20:00"),
            drop("steroid", "2027-03-10", "2027-03-16", "08:00"),
            drop("over", "2027-02-02", "2027-03-02", "08:00"),
        ],
    }
    given = {"eyes": [eye], "today": "2027-03-03", "title": "Visit", "words": "", "place": "", **changes}
    return str(run(SCRIPT, given))


def events(text: str) -> list[Any]:
    return list(icalendar.Calendar.from_ical(text).walk("VEVENT"))


def test_visits_and_drops_stand_in_it_at_their_times_with_alarms(run: Run) -> None:
    text = made(run)
    found = {str(event["UID"]): event for event in events(text)}
    assert sorted(found) == [
        "eye-1-drop-steroid-0-0800@followup", "eye-1-drop-steroid-0-2000@followup", "eye-1-drop-steroid-1-0800@followup",
        "week 1@followup", "week 2@followup",
    ]  # fmt: skip
    timed, whole = found["week 1@followup"], found["week 2@followup"]
    assert timed["DTSTART"].dt == datetime(2027, 3, 10, 8, 40, tzinfo=UTC)
    assert whole["DTSTART"].dt == date(2027, 3, 17)
    alarms = {str(event["UID"]): [a["TRIGGER"].dt for a in event.walk("VALARM")] for event in (timed, whole)}
    assert alarms["week 1@followup"] == [timedelta(days=-1), timedelta(hours=-2)]
    assert alarms["week 2@followup"] == [timedelta(hours=-15)]  # at nine on the day before
    evening, later = found["eye-1-drop-steroid-0-2000@followup"], found["eye-1-drop-steroid-1-0800@followup"]
    assert evening["DTSTART"].dt == datetime(2027, 3, 3, 20, 0)  # by the phone’s own clock
    rule = evening["RRULE"]
    assert (rule["FREQ"], rule["UNTIL"]) == (["DAILY"], [datetime(2027, 3, 9, 20, 0)])
    assert later["DTSTART"].dt == datetime(2027, 3, 10, 8, 0)
    assert [a["TRIGGER"].dt for a in evening.walk("VALARM")] == [timedelta(0)]
    assert {str(e["DTSTAMP"].dt) for e in found.values()} == {"2027-03-03 09:00:00+00:00"}


@pytest.mark.parametrize(
    "words",
    ["plain", "a, b; c\\d\nnew line", "موعد في عيادة العيون " * 12, "👁" * 60, "x" * 74, "x" * 300, 'say "ah": ok'],
    ids=["plain", "signs", "arabic", "four octets", "a line long", "four lines long", "quotes"],
)
def test_whatever_the_words_they_come_out_as_they_went_in(run: Run, words: str) -> None:
    text = made(run, words=words, place=words, title=words)
    assert text.endswith("END:VCALENDAR\r\n")
    for line in text.removesuffix("\r\n").split("\r\n"):
        assert "\n" not in line
        assert len(line.encode()) <= 75  # RFC 5545, section 3.1
    event = events(text)[0]
    assert (str(event["DESCRIPTION"]), str(event["LOCATION"])) == (words, words)
    assert str(event["SUMMARY"]) == f"{words} week 1"
    assert [str(alarm["DESCRIPTION"]) for alarm in event.walk("VALARM")] == [f"{words} week 1"] * 2


def test_nothing_to_come_makes_a_file_all_the_same(run: Run) -> None:
    assert events(made(run, eyes=[])) == []


TAPER = [drop("steroid", "2027-03-02", "2027-03-09", "08:00", "20:00"), drop("Steroid", "2027-03-10", "2027-03-16", "08:00")]


def uids(run: Run, drops: list[dict[str, Any]], today: str) -> set[str]:
    return {str(e["UID"]) for e in events(made(run, eyes=[{"operation": "e", "visits": [], "drops": drops}], today=today))}


def test_a_second_file_names_each_time_of_a_drop_as_the_first_did(run: Run) -> None:
    """RFC 5545, 3.8.4.7: a UID is persistent, so that a calendar that takes the file again has no alarm twice."""
    first = uids(run, TAPER, "2027-03-03")
    assert len(first) == 3
    assert uids(run, TAPER, "2027-03-11") < first  # the first step is over
    other = drop("eye, drop; 50\\", "2027-03-02", "2027-03-20", "12:00")
    more = uids(run, [other, *TAPER], "2027-03-03")  # another drop was written before it
    assert more > first
    assert len(more) == 4
    assert f"e-drop-{other['name']}-0-1200@followup" in more
    longer = [TAPER[0] | {"until": "2027-03-11"}, TAPER[1] | {"first": "2027-03-12"}]
    assert uids(run, longer, "2027-03-03") == first
