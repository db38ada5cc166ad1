"""One wording for one danger: help, card and check draw it from the rulebook in force."""

import tomllib
from dataclasses import replace
from typing import Any

import pytest

from followup.care.watch.dangers import dangers
from followup.clinical import warnings
from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS
from followup.protocols import book
from tests.courses import operation


def rule(id: str, how_soon: Any, threshold: dict[str, Any], **more: Any) -> warnings.Rule:
    return warnings.Rule(id, "symptoms", "w", how_soon, "words", "CP", threshold, **more)


def said(*rules: warnings.Rule, **eye: Any) -> list[tuple[str, str]]:
    return [(d.how_soon, d.words) for d in dangers(warnings.Rulebook("test", rules), [operation(**eye)])]


def test_the_draft_says_now_only_what_its_rules_say_now() -> None:
    found = [(d.how_soon, d.words) for d in dangers(book.rulebook(), [operation()])]
    assert [words for soon, words in found if soon == "now"] == [
        "Any 2 of these: pain of 4 or more out of 10, sight that gets worse, more redness, matter or pus",
        "Pain of 7 or more out of 10",
        "Pain of 4 or more out of 10 and being sick",
        "More dots or threads that float by together with one of these: sight that gets worse, more redness, matter or pus",
    ]
    today = [words for soon, words in found if soon == "today"]
    assert {"A dark curtain", "Sight that gets worse", "Pain of 5 or more out of 10", "Being sick"} <= set(today)
    assert len(today) == len(set(today))


def test_a_changed_threshold_and_urgency_change_the_words() -> None:
    plain = {"signs": ["curtain"], "count": 1}
    assert said(rule("a", "now", plain)) == [("now", "A dark curtain")]
    assert said(rule("a", "this-week", plain)) == []
    assert said(rule("a", "today", {"signs": ["pain>=6"], "count": 1})) == [("today", "Pain of 6 or more out of 10")]
    together = {"signs": ["pain>=3", "fever"], "also": ["redness=worse"], "count": 1}
    assert said(rule("a", "now", together)) == [
        ("now", "More redness together with one of these: pain of 3 or more out of 10, a fever")
    ]


def test_a_rule_that_a_plain_one_already_covers_is_not_said_twice() -> None:
    curtain = rule("a", "now", {"signs": ["curtain"], "count": 1})
    with_sight = rule("b", "today", {"signs": ["vision=worse"], "also": ["curtain"], "count": 1})
    later = replace(curtain, id="c", how_soon="today")
    assert said(curtain, with_sight, later) == [("now", "A dark curtain")]
    # The other way round the combination is the more urgent and stays.
    assert [soon for soon, _ in said(replace(with_sight, how_soon="now"), later)] == ["now", "today"]


def test_rules_for_other_eyes_are_left_out() -> None:
    oil_only = rule("a", "now", {"signs": ["curtain"], "count": 1}, agents=("silicone-oil",))
    assert said(oil_only) == []
    assert said(oil_only, agent="silicone-oil", percent=0) == [("now", "A dark curtain")]


@pytest.mark.parametrize("sign", [*SYMPTOM_SIGNS, *(f"{name}=worse" for name in SYMPTOM_TRENDS)])
def test_every_sign_that_can_be_told_has_words(sign: str) -> None:
    words = said(rule("a", "now", {"signs": [sign], "count": 1}))[0][1]
    assert "=" not in words
    assert words.lower() not in (sign, sign.replace("=", " ").replace("_", " "))


def test_free_text_reaches_a_person_also_under_an_older_rulebook_of_the_clinics_own() -> None:
    draft = book.draft_text("rulebook")
    start = draft.index('[[rules]]\nid = "own-words"')
    older = draft[:start] + draft[draft.index("# --- Posture, visits") :]
    assert "own-words" not in [r["id"] for r in tomllib.loads(older)["rules"]]
    assert book.rulebook(older).rule("own-words").check == "words"
