"""`followup calc`: exactly the keys that DEVELOPERS.md promises, and one plain line with exit code 2 for bad input."""

import io
import json
import re
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

import click
import pytest

from followup import cli
from followup.calc import calc
from followup.calc.answers import AGENT
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
    """The command line in this process, with what it prints and its exit code."""
    out, err = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(out), redirect_stderr(err):
        patch.setattr(sys, "argv", ["followup", "calc", *words])
        with pytest.raises(SystemExit) as ended:
            cli.main()
    return subprocess.CompletedProcess(words, int(str(ended.value.code)), out.getvalue(), err.getvalue())


def test_a_real_process_says_the_same() -> None:
    for words in (("pressure", "31", "--json"), ("pressure", "310")):
        done, here = subprocess.run([*COMMAND, "calc", *words], capture_output=True, text=True, check=False), run(*words)
        assert (done.returncode, done.stdout, done.stderr) == (here.returncode, here.stdout, here.stderr)


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
    assert "Read with: pinhole" in shown
    assert "How many letters is not said" in shown
    assert set(answer("acuity", "6/9 ph")) == ACUITY


def test_coverage() -> None:
    made = answer(
        "coverage", "--eye", "right", "--break", "11", "--reach", "equator", "--posture", "left-cheek", "--fill", "60"
    )
    assert set(made) == {"covered", "margin_degrees", "postures"}
    assert made["postures"][0]["name"] == "upright"  # type: ignore[index]


@pytest.mark.parametrize("command", [("bubble",), ("coverage", "--eye", "right", "--break", "11")])
def test_nothing_left_in_the_eye_fills_and_covers_nothing(command: tuple[str, ...]) -> None:
    refused = run(*command, "--agent", "none", "--fill", "60")
    assert (refused.returncode, refused.stdout) == (2, "")
    assert "nothing was left in the eye, and a fill of 60 % is given" in refused.stderr
    assert run(*command, "--agent", "none", "--fill", "0").returncode == 0


@pytest.mark.parametrize(
    ("words", "asks"),
    [
        (("--agent", "sf6", "--percent", "0.2", "--fill", "95"), "0.2 % is weak"),
        (("--agent", "air", "--percent", "20", "--fill", "95"), "has no concentration, and 20 % is given"),
        (("--agent", "c3f8", "--percent", "100", "--fill", "95"), "Was it left undiluted?"),
    ],
)
def test_what_does_not_go_together_is_asked_with_the_answer(words: tuple[str, ...], asks: str) -> None:
    assert asks in run("bubble", *words).stdout
    assert "?" not in run("bubble", "--agent", "sf6", "--percent", "20", "--fill", "95").stdout


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


def test_a_course_with_every_kind_of_fact(tmp_path: Path) -> None:
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
    # The caution once, and beside the lines, which other programs read; with --json they asked for nothing but lines.
    assert done.stderr == ""
    people = run("course", one, str(two))
    assert people.stdout == done.stdout
    assert [people.stderr.count(note) for note in (NO_DECISION, UNSIGNED)] == [1, 1]
    assert piped.stderr == people.stderr


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


def shown(*words: str) -> str:
    done = run(*words)
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout


NO_FLYING = "never clears anyone to fly, climb or have nitrous oxide: only a clinician who sees no gas does"
NO_DECISION = "takes none: local protocol and licensed judgement come first"
UNSIGNED = "no surgeon has signed them"
GAS = ("bubble", "--agent", "sf6", "--percent", "20", "--fill", "95", "--lens", "phakic", "--day", "7")


@pytest.mark.parametrize(
    ("words", "notes"),
    [
        (("acuity", "6/12"), set()),
        (("acuity", "hm"), {"stand-ins by convention"}),
        (("pressure", "31"), {NO_DECISION, UNSIGNED}),
        (("pressure", "55"), {NO_DECISION, UNSIGNED, "was it typed right?"}),
        (GAS, {NO_FLYING, NO_DECISION}),
        (("bubble", "--agent", "silicone-oil", "--fill", "95"), {NO_DECISION}),
        (("coverage", "--eye", "right", "--break", "11", "--fill", "60"), {NO_DECISION, "the surgeon says which posture"}),
        (("altitude", "--metres", "2438"), {NO_FLYING, NO_DECISION}),
        (("plan", "--agent", "air", "--operated", "2027-03-02"), {NO_DECISION, UNSIGNED}),
    ],
)
def test_each_answer_that_could_be_acted_on_carries_its_caution(words: tuple[str, ...], notes: set[str]) -> None:
    every = {
        NO_FLYING,
        NO_DECISION,
        UNSIGNED,
        "stand-ins by convention",
        "was it typed right?",
        "the surgeon says which posture",
    }
    table = shown(*words)
    assert {note for note in every if note in table} == notes


def test_a_course_is_shown_as_a_table_with_whose_rules_they_are(tmp_path: Path) -> None:
    from followup.protocols.book import draft_text

    file = write(tmp_path, COURSE)
    table = shown("course", file)
    assert "2027-03-03 09:10 UTC  today" in table
    assert "pressure-spike: Pressure 34 mmHg" in table
    assert NO_DECISION in table
    assert UNSIGNED in table
    changed = tmp_path / "rules.toml"
    changed.write_text(draft_text("rulebook"), encoding="utf-8")
    assert f"the rules of {changed} are tried here" in shown("course", file, "--rulebook", str(changed))
    quiet = write(tmp_path, {"operation": {"at": "2027-03-02T14:00:00Z"}})
    assert shown("course", quiet).startswith("nothing raised")


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        # Definition: log10(2); (85 - 50 logMAR) letters.
        (("acuity", "6/12"), ["logMAR                   0.30", "decimal                  0.5", "70 letters"]),
        # BIPM, SI brochure, 8th edition 2006, table 8: 1 mmHg is 133.322 Pa.
        (("pressure", "31", "--baseline", "15"), ["31 mmHg", "4.13 kPa", "16 mmHg"]),
        # ICAO Doc 7488/3, table 1: 752.7 hPa; expansion of wet gas derived.
        (("altitude", "--metres", "2438", "--volume-ml", "2"), ["753 hPa", "1.38 times", "2.76 mL"]),
    ],
)
def test_tables_have_units_and_as_many_digits_as_are_good_for_something(words: tuple[str, ...], rows: list[str]) -> None:
    table = shown(*words)
    assert [row for row in rows if row not in table] == []


def test_no_table_prints_more_than_two_decimals_or_a_key() -> None:
    for words in (
        ("acuity", "6/9"),
        ("pressure", "4.1 kPa"),
        GAS,
        (*GAS, "--seen", "2:70"),
        ("altitude", "--metres", "990"),
    ):
        table = shown(*words)
        assert not re.findall(r"\d\.\d{3}", table), table
        assert not re.findall(r"\w_\w|None", table), table


def test_names_are_taken_in_any_case() -> None:
    assert answer("bubble", "--agent", "SF6", "--percent", "20", "--fill", "95", "--lens", "Phakic", "--day", "7") == answer(
        *GAS
    )
    assert answer("plan", "--agent", "Air", "--operated", "2027-03-02", "--risk", "Diabetic") == answer(
        "plan", "--agent", "air", "--operated", "2027-03-02", "--diabetic"
    )
    assert answer("acuity", "0.3", "--notation", "logMAR")["logmar"] == 0.3
    assert answer("coverage", "--eye", "Right", "--break", "3", "--fill", "60", "--posture", "Upright", "--reach", "Macula")


def test_a_course_file_takes_names_in_any_case(tmp_path: Path) -> None:
    small = {"eye": "right", "at": "2027-03-02T14:00:00Z", "agent": "sf6", "percent": 20, "lens": "phakic"}
    large = {**small, "eye": "Right", "agent": "SF6", "lens": "Phakic", "indication": "Other"}
    assert answer("course", write(tmp_path, {"operation": large})) == answer("course", write(tmp_path, {"operation": small}))


def test_a_comma_is_taken_as_a_point() -> None:
    for given, meant in (("95,5", "95.5"), ("95", "95.0")):
        of = ("bubble", "--agent", "sf6", "--lens", "phakic", "--day", "7")
        assert answer(*of, "--percent", "20,5", "--fill", given, "--seen", "2,5:70,5") == answer(
            *of, "--percent", "20.5", "--fill", meant, "--seen", "2.5:70.5"
        )
    assert answer("coverage", "--eye", "right", "--break", "2,5", "--fill", "60,5")
    assert answer("altitude", "--metres", "990,5") == answer("altitude", "--metres", "990.5")


def test_help_says_what_is_taken_where_nothing_is_said_and_what_may_be_given_again() -> None:
    defaults = {"bubble": {"unknown", "0"}, "coverage": {"equator", "upright", "sf6"}, "altitude": {"0", "1"}, "plan": set()}
    for command, values in defaults.items():
        told = " ".join(shown(command, "--help").split())
        assert set(re.findall(r"\[default: ([^\]]+)\]", told)) == values, command
    again = {("bubble", "--seen"), ("coverage", "--break"), ("plan", "--risk")}
    for name, command in calc.commands.items():
        for option in command.params:
            if isinstance(option, click.Option) and option.multiple:
                assert (name, option.opts[0]) in again
                assert option.help is not None
                assert option.help.endswith("may be given again.")


def test_negative_numbers_are_values_not_options() -> None:
    assert answer("acuity", "-0.1")["logmar"] == -0.1
    assert answer("altitude", "--metres", "-100")["pressure_hpa"] > 1013


@pytest.mark.parametrize("command", [(), ("acuity",), ("pressure",), ("bubble",), ("plan",), ("course",)])
def test_a_short_help_is_the_help(command: tuple[str, ...]) -> None:
    assert shown(*command, "-h") == shown(*command, "--help")


def test_the_course_in_the_help_can_be_run(tmp_path: Path) -> None:
    helped = shown("course", "--help")
    course = json.loads(helped[helped.index("{") :])
    raised = {w["rule"] for w in answer("course", write(tmp_path, course))["warnings"]}
    assert {"pressure-spike", "severe-pain", "infection-suspected"} <= raised


def test_the_shell_completes_what_is_accepted() -> None:
    context, option = click.Context(calc), click.Option(["--agent"])
    assert [item.value for item in AGENT.shell_complete(context, option, "S")] == ["sf6", "silicone-oil"]


PROMISED = re.compile(r"^\| `calc (\w+)` \| (.+) \|$", re.M)


def test_the_keys_are_those_that_the_guide_promises(tmp_path: Path) -> None:
    guide = (Path(__file__).parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
    given = {
        "acuity": answer("acuity", "6/12"),
        "pressure": answer("pressure", "31"),
        "bubble": answer(*GAS, "--seen", "2:70"),
        "coverage": answer("coverage", "--eye", "right", "--break", "11", "--fill", "60"),
        "altitude": answer("altitude", "--metres", "2438"),
        "plan": answer("plan", "--agent", "air", "--operated", "2027-03-02"),
        "course": answer("course", write(tmp_path, COURSE)),
    }
    assert {name: set(re.findall(r"`(\w+)`", keys)) for name, keys in PROMISED.findall(guide)} == {
        name: set(made) for name, made in given.items()
    }


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("acuity", "0.3"), "decimal"),
        (("acuity", "60"), "for example --notation logmar"),
        (("acuity", "PL-"), "say which: LP or NLP\n"),
        (("pressure", "-3"), "“-3” is not a pressure"),
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
        (("bubble", "--agent", "air", "--fill", "x"), "“x” is not a number; write for example 95 or 95.5"),
        (("bubble", "--agent", "air", "--fill", "9,5,5"), "is not a number"),
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
        (("plan", "--agent", "air", "--operated", "2100-01-01"), "more than a year ahead: 1 January 2100"),
        (("plan", "--agent", "x", "--operated", "2027-03-02"), "sf6"),
        (("course", "/nowhere.json"), "/nowhere.json cannot be read: No such file or directory\n"),
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
