"""Protocols: drafts that can be used, texts that say what is wrong, and a JSON Schema from the same models."""

import tomllib
from datetime import date

import jsonschema
import pytest

from followup.clinical.course import Course
from followup.clinical.coverage import Break
from followup.clinical.facts import Symptoms
from followup.clinical.warnings import evaluate
from followup.protocols import book, closures
from tests.courses import at, operation

BANDS = (
    'version = "1"\nbands = { hypotony_at_most = 5, normal_from = 10, normal_to = 21, spike_from = 30, severe_from = 40 }\n'
)
RULE = '[[rules]]\nid="x"\ncheck="{check}"\nworry="a"\nhow_soon="now"\nwords="w"\nsource="{source}"\nthreshold={threshold}'


def rule(check: str, source: str, threshold: str) -> str:
    return BANDS + RULE.format(check=check, source=source, threshold=threshold)


@pytest.mark.parametrize("part", book.PARTS)
def test_the_draft_fits_its_json_schema(part: str) -> None:
    # Outside check: the jsonschema library.
    schema = book.json_schema(part)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(tomllib.loads(book.draft_text(part)), schema)
    book.check(part, book.draft_text(part))


@pytest.mark.parametrize(
    ("part", "text", "says"),
    [
        ("rulebook", "rules = [", "not TOML"),
        ("rulebook", BANDS.replace("spike_from = 30", "spike_from = 50") + "rules = []", "must rise"),
        ("rulebook", BANDS + 'rules = [{ id = "x" }]', "rulebook: rules → 1 → check"),
        (
            "rulebook",
            rule("magic", "CP", "{}"),
            "check",
        ),
        (
            "rulebook",
            rule("finding", "Nobody", '{finding="leak"}'),
            "Nobody",
        ),
        (
            "rulebook",
            rule("symptoms", "CP", '{signs=["mood=bad"], count=1}'),
            "symptom",
        ),
        ("rulebook", rule("symptoms", "CP", '{signs=["fever"], count="x"}'), "count must be a number"),
        (
            "rulebook",
            rule("symptoms-again", "CP", '{signs=["fever"], count=1, within_hours=30, looks="three"}'),
            "looks must",
        ),
        ("rulebook", rule("symptoms-again", "CP", '{signs=["fever"], count=1, within_hours=30, looks=1}'), "looks in a row"),
        (
            "rulebook",
            rule("symptoms-again", "CP", '{signs=["fever"], count=1, within_hours=30, looks=40}'),
            "looks in a row",
        ),
        (
            "reviews",
            'version = "1"\n[[visits]]\nname="a"\ntarget_day=1\nearliest_day=2\nlatest_day=3\nreason=""\nsource="CP"',
            "follow one another",
        ),
        ("postures", 'version = "1"\n[[plans]]\nposition="sideways"\nhours_a_day=1\ndays=1\nsource="CP"', "sideways"),
        ("postures", 'version = "1"\n[[plans]]\nposition="best"\nhours_a_day=30\ndays=1\nsource="CP"', "hours_a_day"),
        (
            "postures",
            'version = "1"\n[[plans]]\nposition="best"\nhours_a_day=3\ndays=1\nsource="CP"\nindications=["cold"]',
            "cold",
        ),
    ],
)
def test_a_text_that_cannot_be_used_says_where(part: str, text: str, says: str) -> None:
    with pytest.raises(book.ProtocolError, match=says):
        book.check(part, text)


def test_a_rulebook_from_before_looks_were_counted_looks_once_more_and_twice_in_a_row() -> None:
    older = book.draft_text("rulebook").replace(" looks = 2,", "").replace(" looks = 3,", "")
    book.check("rulebook", older)
    read = book.rulebook(older)
    assert {rule.second_look.looks for rule in read.rules if rule.second_look} == {1}
    assert "looks" not in read.rule("redness-still-worse-early").threshold
    still = Course.after(operation(), (), tuple(Symptoms(at(8 + hours / 24), floaters="worse") for hours in (0, 1)))
    assert ("floaters", at(8 + 1 / 24)) in [(s.rule, s.raised_at) for s in evaluate(still, read, at(9))]
    red = Course.after(operation(), (), tuple(Symptoms(at(1 + hours / 24), redness="worse") for hours in (0, 1)))
    assert ("redness-still-worse-early", at(1 + 1 / 24)) in [(s.rule, s.raised_at) for s in evaluate(red, read, at(2))]


def test_comments_and_layout_do_not_change_the_fingerprint_but_numbers_do() -> None:
    text = book.draft_text("rulebook")
    assert book.fingerprint("# a comment\n" + text) == book.fingerprint(text)
    assert book.fingerprint(text.replace("mmhg = 40", "mmhg = 41")) != book.fingerprint(text)


def test_every_symptom_rule_for_patients_has_words_and_every_rule_a_reason() -> None:
    for rule in book.rulebook().rules:
        assert rule.words
        if rule.check in ("symptoms", "climb", "anaesthetic"):
            assert rule.patient_words


# PIMS: 8 h a day for 5 days for macular holes; PostRD and the handbook: cover the break; heavy oil never face down (common practice).
@pytest.mark.parametrize(
    ("agent", "indication", "breaks", "position", "days"),
    [
        ("sf6", "macular-hole", [], "face-down", 5),
        ("sf6", "retinal-detachment", [Break(9, "equator")], "left-cheek", 7),
        ("sf6", "retinal-detachment", [Break(12, "equator")], "upright", 7),
        ("heavy-silicone-oil", "retinal-detachment", [Break(6, "equator")], "upright", 3),
        ("silicone-oil", "diabetic-traction", [], "face-down", 2),
        ("c3f8", "diabetic-traction", [], "face-down", 5),
        ("none", "epiretinal-membrane", [], None, 0),
    ],
)
def test_posture_plans_are_proposed_by_indication_agent_and_breaks(
    agent: str, indication: str, breaks: list[Break], position: str | None, days: int
) -> None:
    plan = book.propose_plan(book.postures(), agent, indication, breaks, 90)
    assert (plan.position, plan.days) == (position, days) if plan else position is None


def test_public_holidays_and_own_closures_are_closed() -> None:
    # Outside check: Austria's public holidays (6 January is Epiphany) from the holidays library.
    closed = closures.closed_days("AT", "", date(2027, 1, 1), date(2027, 1, 31), ["2027-01-20", "2028-01-01"])
    assert closed == {date(2027, 1, 1), date(2027, 1, 6), date(2027, 1, 20)}
    assert closures.closed_days("", "", date(2027, 1, 1), date(2027, 1, 31)) == set()
    assert closures.places_by_weekday({"mon": 4, "sun": 1}) == {0: 4, 6: 1}
