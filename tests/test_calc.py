"""`followup calc`: exactly the keys that DEVELOPERS.md promises, and one plain line with exit code 2 for bad input. A real process."""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import COMMAND

ACUITY = {"logmar", "decimal", "snellen_6m", "snellen_20ft", "letters", "category", "who_category"}
BUBBLE = {
    "fill_percent",
    "low_percent",
    "high_percent",
    "meniscus_percent",
    "arc_degrees",
    "clear_of_sight_day",
    "gone_day",
    "gone_day_low",
    "gone_day_high",
}


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*COMMAND, "calc", *words], capture_output=True, text=True, timeout=60)


def answer(*words: str) -> dict[str, Any]:
    done = run(*words, "--json")
    assert done.returncode == 0, done.stderr
    made: dict[str, Any] = json.loads(done.stdout)
    return made


def test_acuity() -> None:
    # Definition: 6/12 is logMAR 0.301 and 70 letters; two letters missed add 0.04.
    made = answer("acuity", "6/12-2")
    assert set(made) == ACUITY
    assert (made["logmar"], made["letters"], made["category"]) == (0.341, 68, None)
    assert answer("acuity", "0.5", "--notation", "decimal")["snellen_20ft"] == "20/40"
    assert answer("acuity", "hm")["category"] == "HM"
    assert answer("acuity", "-0.1", "--notation", "logmar")["letters"] == 90


def test_pressure() -> None:
    # Definition: 31 mmHg is 4.133 kPa. Spike from 30 [Bern12].
    assert answer("pressure", "31", "--baseline", "15") == {"mmhg": 31, "kpa": 4.133, "band": "spike", "rise_mmhg": 16}
    assert answer("pressure", "15")["rise_mmhg"] is None


def test_bubble() -> None:
    # RCO18, IJRV24: 20 % SF6 is gone in 10 to 14 days.
    made = answer("bubble", "--agent", "sf6", "--percent", "20", "--fill", "95", "--lens", "phakic", "--day", "7")
    assert set(made) == BUBBLE
    assert 0 < made["low_percent"] < made["fill_percent"] < made["high_percent"] <= 95  # type: ignore[operator]
    assert 10 <= made["gone_day"] <= 14  # type: ignore[operator]
    oil = answer("bubble", "--agent", "silicone-oil", "--fill", "95")
    assert set(oil) == BUBBLE
    assert oil["gone_day"] is None


def test_bubble_with_levels_seen() -> None:
    # Mey92, eye 6: 82.5 and 75 % of the volume on days 1 and 2 (heights 73 and 67 %), 77.5 % on day 9 (69 %).
    words = ("bubble", "--agent", "c3f8", "--percent", "20", "--fill", "95", "--day", "9")
    before, made = answer(*words), answer(*words, "--seen", "1:73", "--seen", "2:67")
    assert set(made) == BUBBLE | {"reading_low_percent", "reading_high_percent"}
    assert made["reading_low_percent"] < 69 < made["reading_high_percent"]  # type: ignore[operator]
    assert made["reading_low_percent"] < made["meniscus_percent"] < made["reading_high_percent"]  # type: ignore[operator]
    assert made["fill_percent"] < before["fill_percent"]  # type: ignore[operator]
    assert made["high_percent"] - made["low_percent"] < before["high_percent"] - before["low_percent"]  # type: ignore[operator]
    assert answer(*words, "--seen", "2:67", "--seen", "1:73") == made
    oil = answer("bubble", "--agent", "silicone-oil", "--fill", "95", "--day", "9", "--seen", "5:80")
    assert oil["reading_low_percent"] < 80 < oil["reading_high_percent"]  # type: ignore[operator]


def test_acuity_says_what_it_took_for_granted() -> None:
    shown = run("acuity", "6/9p ph").stdout
    assert "read with: pinhole" in shown
    assert "how many letters is not said" in shown
    assert set(answer("acuity", "6/9 ph")) == ACUITY


def test_coverage() -> None:
    made = answer(
        "coverage", "--eye", "right", "--break", "11", "--reach", "equator", "--posture", "left-cheek", "--fill", "60"
    )
    assert set(made) == {"covered", "margin_degrees", "postures"}
    assert made["postures"][0]["name"] == "upright"  # type: ignore[index]


def test_altitude() -> None:
    # ICAO: 752.7 hPa at 2438 m; wet expansion 1.378, derived.
    made = answer("altitude", "--metres", "2438", "--volume-ml", "2")
    assert set(made) == {"pressure_hpa", "expansion", "volume_ml"}
    assert (made["pressure_hpa"], made["expansion"], made["volume_ml"]) == pytest.approx((752.7, 1.378, 2.755), rel=0.001)


def test_plan() -> None:
    visits = answer("plan", "--agent", "c3f8", "--operated", "2027-03-02", "--diabetic", "--risk", "residual-traction")[
        "visits"
    ]
    assert {frozenset(v) for v in visits} == {frozenset({"name", "target", "earliest", "latest", "reason"})}  # type: ignore[attr-defined]
    assert visits[0] == {
        "name": "day 1",
        "target": "2027-03-03",
        "earliest": "2027-03-03",
        "latest": "2027-03-03",
        "reason": "pressure, infection, fill",
    }  # type: ignore[index]
    assert [v["target"] for v in visits] == sorted(v["target"] for v in visits)  # type: ignore[attr-defined]


COURSE = {
    "operation": {
        "eye": "right",
        "at": "2027-03-02T14:00:00Z",
        "indication": "diabetic-traction",
        "agent": "c2f6",
        "percent": 16,
        "fill_percent": 95,
        "lens": "phakic",
        "breaks": [{"clock": 11, "reach": "equator"}],
        "risks": ["diabetic", "residual-traction"],
        "steroid_drops_until": "2027-03-30",
        "baseline": {"acuity": "6/60", "iop_mmhg": 15},
        "posture": {"position": "face-down", "hours_a_day": 12, "days": 5},
    },
    "visits": [{"name": "day 1", "earliest": "2027-03-03", "latest": "2027-03-03"}],
    "facts": [
        {
            "at": "2027-03-03T09:10:00Z",
            "kind": "measures",
            "eye": "right",
            "acuity": "HM",
            "correction": "unaided",
            "iop_mmhg": 34,
            "instrument": "applanation",
            "bubble_percent": 90,
            "pain": 2,
        },
        {
            "at": "2027-03-05T20:00:00Z",
            "kind": "symptoms",
            "pain": 7,
            "vision": "worse",
            "redness": "worse",
            "discharge": True,
            "curtain": False,
            "flashes": "same",
            "floaters": "same",
            "vomiting": False,
            "fever": False,
            "injury": False,
        },
        {
            "at": "2027-03-05T20:05:00Z",
            "kind": "posture",
            "position": "face-down",
            "from": "2027-03-05T08:00:00Z",
            "to": "2027-03-05T19:00:00Z",
        },
        {"at": "2027-03-09T08:00:00Z", "kind": "bubble-seen", "percent": 60},
        {"at": "2027-03-10T08:00:00Z", "kind": "journey", "heights_metres": [20, 790]},
        {"at": "2027-03-10T09:00:00Z", "kind": "seen", "visit": "week 1"},
    ],
    "until": "2027-06-01T00:00:00Z",
}


def write(folder: Path, course: object) -> str:
    file = folder / "course.json"
    file.write_text(json.dumps(course), encoding="utf-8")
    return str(file)


def test_course_as_the_contract_has_it(tmp_path: Path) -> None:
    found = answer("course", write(tmp_path, COURSE))["warnings"]
    assert {frozenset(f) for f in found} == {
        frozenset({"rule", "worry", "how_soon", "raised_at", "values", "threshold", "source", "words"})
    }  # type: ignore[attr-defined]
    raised = {(f["rule"], f["raised_at"], f["how_soon"]) for f in found}  # type: ignore[attr-defined]
    assert ("pressure-spike", "2027-03-03T09:10:00Z", "today") in raised
    assert ("infection-suspected", "2027-03-05T20:00:00Z", "now") in raised
    assert ("climbing-with-gas", "2027-03-10T08:00:00Z", "today") in raised
    assert ("missed-early-visit", "2027-03-04T00:00:00Z", "today") in raised
    times = [f["raised_at"] for f in found]  # type: ignore[attr-defined]
    assert times == sorted(times)


def test_a_course_may_leave_out_everything_but_the_operation(tmp_path: Path) -> None:
    assert answer("course", write(tmp_path, {"operation": {"at": "2027-03-02T14:00:00Z"}})) == {
        "warnings": [],
        "callbacks": [],
        "rechecks": [],
    }
    silent = {"operation": {"at": "2027-03-02T14:00:00Z"}, "until": "2027-03-07T14:00:00Z"}
    assert answer("course", write(tmp_path, silent))["warnings"][0]["rule"] == "silent-early"  # type: ignore[index]


def test_a_course_may_say_that_there_is_no_app(tmp_path: Path) -> None:
    silent = {"operation": {"at": "2027-03-02T14:00:00Z"}, "until": "2027-03-12T14:00:00Z"}
    rules = [
        {w["rule"] for w in answer("course", write(tmp_path, silent | told))["warnings"]}  # type: ignore[index]
        for told in ({}, {"app": True}, {"app": False})
    ]
    assert rules == [{"silent-early"}, {"silent-early"}, {"diary-call"}]


FELLOW: dict[str, Any] = {
    "operations": [
        {"eye": "right", "at": "2027-03-02T14:00:00Z", "agent": "sf6", "percent": 20, "fill_percent": 90},
        {"eye": "right", "at": "2027-04-02T14:00:00Z", "agent": "silicone-oil"},
    ],
    "facts": [
        {"at": "2027-03-03T09:00:00Z", "kind": "measures", "eye": "left", "acuity": "NLP", "iop_mmhg": 55},
        {"at": "2027-03-04T09:00:00Z", "kind": "measures", "eye": "right", "iop_mmhg": 38},
        {"at": "2027-03-04T10:00:00Z", "kind": "settled", "outcome": "advice", "worry": "pressure"},
        {"at": "2027-03-04T11:00:00Z", "kind": "measures", "eye": "right", "iop_mmhg": 37},
    ],
    "until": "2027-03-04T12:00:00Z",
}


def test_a_fellow_eye_a_second_operation_and_a_settlement_in_a_course(tmp_path: Path) -> None:
    found = answer("course", write(tmp_path, FELLOW))
    told = [(w["rule"], w["raised_at"][8:13]) for w in found["warnings"] if w["how_soon"] != "this-week"]
    assert told == [
        ("fellow-light-perception-lost", "03T09"),
        ("fellow-pressure-severe", "03T09"),
        ("fellow-only-light-perception", "03T09"),
        ("fellow-pressure-spike", "03T09"),
        ("pressure-spike", "04T09"),
        ("pressure-spike", "04T11"),
    ]
    assert [(c["how_soon"], c["settled_at"]) for c in found["callbacks"]] == [
        ("now", None),
        ("today", "2027-03-04T10:00:00Z"),
        ("today", None),
    ]
    assert {frozenset(c) for c in found["callbacks"]} == {
        frozenset({"how_soon", "opened_at", "due_at", "settled_at", "rules"})
    }


def test_several_courses_answer_one_line_each(tmp_path: Path) -> None:
    one, two = write(tmp_path, FELLOW), tmp_path / "two.json"
    two.write_text(json.dumps({"operation": {"at": "2027-03-02T14:00:00Z"}}), encoding="utf-8")
    done = run("course", one, str(two), "--json")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert [len(line["callbacks"]) for line in lines] == [3, 0]
    lined = "\n".join(json.dumps(c) for c in (FELLOW, {"operation": {"at": "2027-03-02T14:00:00Z"}}))
    piped = subprocess.run([*COMMAND, "calc", "course", "-"], input=lined, capture_output=True, text=True, check=True)
    assert [json.loads(line) for line in piped.stdout.splitlines()] == lines


def test_a_bad_line_among_several_courses_is_named() -> None:
    piped = subprocess.run([*COMMAND, "calc", "course", "-"], input="{}\n", capture_output=True, text=True, check=False)
    assert (piped.returncode, piped.stderr.count("\n")) == (2, 1)
    assert "line 1" in piped.stderr


def test_a_changed_rulebook_is_tried_on_a_course(tmp_path: Path) -> None:
    from followup.protocols.book import draft_text

    changed = tmp_path / "rules.toml"
    changed.write_text(
        draft_text("rulebook").replace("threshold = { mmhg = 30 }", "threshold = { mmhg = 35 }"), encoding="utf-8"
    )
    found = answer("course", write(tmp_path, COURSE), "--rulebook", str(changed))["warnings"]
    assert "pressure-spike" not in {f["rule"] for f in found}  # type: ignore[attr-defined]


def test_tables_are_for_people() -> None:
    shown = run("bubble", "--agent", "air", "--fill", "90").stdout
    assert "gone_day" in shown
    assert "never clears anyone to fly" in shown
    assert "name=day 1" in run("plan", "--agent", "air", "--operated", "2027-03-02").stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("acuity", "0.3"), "decimal"),
        (("acuity", "60"), "--notation"),
        (("acuity", "6"), "6/6"),
        (("acuity", "6/0"), "zero"),
        (("acuity", "20/"), "whole Snellen"),
        (("acuity", "6/6", "--notation", "inches"), "snellen"),
        (("pressure", "310"), "0 to 90"),
        (("pressure", "abc"), "mmHg"),
        (("pressure", "20", "--baseline", "x"), "mmHg"),
        (("pressure",), "VALUE"),
        (("bubble", "--agent", "helium", "--fill", "90"), "air, sf6"),
        (("bubble", "--agent", "sf6", "--percent", "120", "--fill", "90"), "0 to 100"),
        (("bubble", "--agent", "sf6", "--fill", "90"), "--percent"),
        (("bubble", "--agent", "air", "--fill", "x"), "not a valid float"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen", "5"), "DAY:HEIGHT"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen", "x:50"), "DAY:HEIGHT"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen", "5:60:70"), "DAY:HEIGHT"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen", "5:120"), "0 to 100"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen", "5:nan"), "0 to 100"),
        (("bubble", "--agent", "air", "--fill", "90", "--seen=-1:50"), "0 to 3650"),
        (("bubble", "--agent", "air", "--fill", "90", "--day", "-1"), "0 to 3650"),
        (("bubble", "--agent", "air", "--fill", "90", "--lens", "iron"), "phakic"),
        (("coverage", "--eye", "third", "--break", "3", "--fill", "60"), "right, left"),
        (("coverage", "--eye", "left", "--break", "14", "--fill", "60"), "0.5 to 12.5"),
        (("coverage", "--eye", "left", "--break", "3", "--fill", "60", "--posture", "hanging"), "face-down"),
        (("altitude", "--metres", "20000"), "11000"),
        (("altitude", "--metres", "100", "--volume-ml", "-1"), "0 to 20"),
        (("plan", "--agent", "air", "--operated", "2.3.2027"), "2027-03-02"),
        (("plan", "--agent", "air", "--operated", "2027-03-02", "--risk", "luck"), "residual-traction"),
        (("plan", "--agent", "air", "--operated", "0026-11-24"), "accepted is 1 January 1990"),
        (("plan", "--agent", "air", "--operated", "9999-12-31"), "31 December 9999"),
        (("plan", "--agent", "x", "--operated", "2027-03-02"), "sf6"),
        (("course", "/nowhere.json"), "cannot be read"),
        (("sing",), "No such command"),
    ],
)
def test_bad_values_end_with_two_and_one_line(words: tuple[str, ...], says: str) -> None:
    done = run(*words)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1
    assert says in done.stderr


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"operation": {"at": "2027-03-02T14:00:00Z", "agent": "helium"}}, "helium"),
        ({"operation": {"at": "yesterday"}}, "operation.at"),
        ({}, "operation"),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "facts": [{"kind": "seen"}]}, "fact 1 has no 'at'"),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "facts": [{"at": "2027-03-03T14:00:00Z", "kind": "wish"}]}, "wish"),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "facts": [{"at": "2027-03-03T14:00:00", "kind": "journey", "heights_metres": [1]}],
            },
            "offset",
        ),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "facts": [{"at": "soon", "kind": "seen"}]}, "not a time"),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "facts": [{"at": "2027-03-03T14:00:00Z", "kind": "measures", "eye": "right", "acuity": "6/0"}],
            },
            "zero",
        ),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "facts": [{"at": "2027-03-03T14:00:00Z", "kind": "symptoms", "pain": 12}],
            },
            "pain",
        ),
        ({"operation": {"at": "2027-03-02T14:00:00Z", "zone": "Mars/Base"}}, "Mars/Base"),
        ({"operation": {"at": "2027-03-02T14:00:00Z", "zone": "../etc/passwd"}}, "is not a time zone"),
        ({"operation": {"at": "0026-11-24T14:00:00Z"}}, "1900 to 2200"),
        ({"operation": {"at": "9999-12-31T23:59:59-14:00"}}, "1900 to 2200"),
        ({"operation": {"at": "1980-01-01T00:00:00Z"}}, "accepted is 1 January 1990"),
        ({"operation": {"at": "2027-03-02T14:00:00"}}, "offset"),
        ({"operation": {"at": "2027-03-02T14:00:00Z", "steroid_drops_until": "9999-12-31"}}, "31 December 9999"),
        ({"operation": {"at": "2027-03-02T14:00:00Z", "fill_percent": float("nan")}}, "finite"),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "visits": [{"name": "x", "earliest": "0001-01-01", "latest": "2027-03-03"}],
            },
            "visits.0: this day is 1 January 0001",
        ),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "visits": [{"name": "x", "earliest": "2027-03-03", "latest": "2031-03-03"}],
            },
            "2 March 2030",
        ),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "until": "9999-12-31T00:00:00Z"}, "until"),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "until": "2040-12-31T00:00:00Z"}, "ten years"),
        ({"operation": {"at": "2027-03-02T14:00:00Z"}, "until": "2027-03-02T15:00:00"}, "offset"),
        (
            {
                "operation": {"at": "2027-03-02T14:00:00Z"},
                "facts": [{"at": "0001-01-01T00:00:00+14:00", "kind": "anaesthetic"}],
            },
            "fact 1 (anaesthetic): the year 0001",
        ),
        (
            {"operation": {"at": "2027-03-02T14:00:00Z"}, "facts": [{"at": "2060-01-01T00:00:00Z", "kind": "anaesthetic"}]},
            "ten years",
        ),
        (
            {"operation": {"at": "2027-03-02T14:00:00Z"}, "facts": [{"at": "2027-03-03T00:00:00Z", "kind": "\ud800"}]},
            "half a character",
        ),
        ([], "one object"),
    ],
)
def test_a_course_that_cannot_be_says_where(tmp_path: Path, change: object, says: str) -> None:
    done = run("course", write(tmp_path, change))
    assert done.returncode == 2
    assert says in done.stderr
    assert done.stderr.count("\n") == 1
