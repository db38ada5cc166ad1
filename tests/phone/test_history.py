"""One's own history by day, against the core's own sums of hours and what was entered. Common practice, no source."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from followup.clinical import posture
from tests.phone.conftest import Run

SCRIPT = """
import { answersOf, historyOf } from "./patient/later/history.js";

answer = given.bodies ? given.bodies.map(answersOf) : historyOf(given.eye, given.entries, new Date(2027, 2, given.day, 18));
""".strip()


def receipt(n: int, kind: str, at: str, **body: Any) -> dict[str, Any]:
    return {"id": str(n), "kind": kind, "at": at, "body": body}


def block(n: int, start: datetime, end: datetime) -> dict[str, Any]:
    return receipt(n, "posture", end.isoformat(), position="face-down", **{"from": start.isoformat(), "to": end.isoformat()})


def eye(*receipts: dict[str, Any], operated_on: str = "2027-03-02") -> dict[str, Any]:
    return {
        "operation": "e",
        "operated_on": operated_on,
        "posture": {"position": "face-down", "hours_a_day": 12, "dates": ["2027-03-03", "2027-03-04"]},
        "visits": [{"target": "2027-03-03", "words": "day 1", "seen": True}],
        "receipts": list(receipts),
    }


def test_each_day_has_what_was_entered_on_it(run: Run) -> None:
    here = datetime.now().astimezone().tzinfo  # node goes by the machine's own zone
    noon = datetime(2027, 3, 3, 12, tzinfo=here).astimezone(UTC)
    found = eye(
        receipt(1, "symptoms", noon.isoformat(), pain=2, vision="same"),
        receipt(2, "symptoms", (noon + timedelta(hours=3)).isoformat(), pain=5, vision="worse"),
        receipt(3, "bubble-seen", noon.isoformat(), percent=90),
        receipt(4, "bubble-seen", (noon + timedelta(hours=1)).isoformat(), percent=85),
        receipt(5, "drops", noon.isoformat(), name="steroid"),
        receipt(6, "drops", noon.isoformat(), name="steroid"),
        receipt(7, "journey", (noon + timedelta(days=1)).isoformat(), heights_metres=[300]),
    )
    days = run(SCRIPT, {"eye": found, "entries": [], "day": 5})
    assert [day["day"] for day in days] == [f"2027-03-0{n}" for n in (2, 3, 4, 5)]
    surgery, first, second, last = days
    assert (first["pain"], first["bubble"], first["drops"]) == (5, 85, [["steroid", 2]])
    assert [check["body"]["pain"] for check in first["checks"]] == [2, 5]
    assert [visit["words"] for visit in first["visits"]] == ["day 1"]
    assert (first["hours"], first["target"], surgery["hours"], last["target"]) == (0, 12, None, None)
    assert [entry["kind"] for entry in second["others"]] == ["journey"]
    assert (surgery["pain"], surgery["bubble"], last["checks"]) == (None, None, [])


def test_hours_are_the_cores_own_sums(run: Run) -> None:
    here = datetime.now().astimezone().tzinfo or UTC
    at = datetime(2027, 3, 3, tzinfo=here)
    spans = [(8, 10.5), (9, 11), (22, 30), (31, 33)]  # over each other, and across midnight
    blocks = [(at + timedelta(hours=a), at + timedelta(hours=b)) for a, b in spans]
    held = [block(n, a, b) for n, (a, b) in enumerate(blocks)]
    beside = {**block(9, at + timedelta(hours=14), at + timedelta(hours=15)), "id": "other"}
    beside["body"] = {**beside["body"], "position": "upright"}  # was not what the plan asked for
    days = run(SCRIPT, {"eye": eye(*held, beside), "entries": [], "day": 5})
    told = {day["day"]: day["hours"] for day in days if day["hours"]}
    summed = posture.hours_by_day(
        [posture.Block("face-down", a, b) for a, b in blocks], here, at + timedelta(days=3), "face-down"
    )
    assert told == {day.isoformat(): hours for day, hours in summed.items() if hours}
    assert told == {"2027-03-03": 5, "2027-03-04": 8}


def test_the_last_thirty_days_are_shown(run: Run) -> None:
    days = run(SCRIPT, {"eye": eye(operated_on="2026-12-01"), "entries": [], "day": 20})
    assert len(days) == 30
    assert (days[0]["day"], days[-1]["day"]) == ((date(2027, 3, 20) - timedelta(days=29)).isoformat(), "2027-03-20")


def test_what_a_check_answered_is_all_there(run: Run) -> None:
    bodies = [
        {"pain": 0, "vision": "same", "curtain": False},
        {"vision": "worse", "curtain": True, "fever": False, "words": "all black"},
        {"cannot_tell": ["vision", "curtain"]},
        {"pain": 7, "flashes": "better"},
    ]
    well, bad, unsure, better = run(SCRIPT, {"bodies": bodies})
    assert well == {"pain": 0, "told": [], "unsure": [], "words": "", "rest": True}
    assert (bad["told"], bad["words"], bad["rest"]) == ([["vision", "worse"], ["curtain", "yes"]], "all black", True)
    assert (unsure["unsure"], unsure["rest"]) == (["vision", "curtain"], False)
    assert (better["pain"], better["told"]) == (7, [["flashes", "better"]])
