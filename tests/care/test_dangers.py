"""One wording for one danger: help, card and check draw it from the rulebook in force."""

import tomllib
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from followup.care.watch.dangers import Danger, dangers
from followup.clinical import warnings
from followup.clinical.course import Course
from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS, Symptoms
from followup.clinical.rulebook import SecondLook
from followup.protocols import book
from tests.courses import operation


def rule(id: str, how_soon: Any, threshold: dict[str, Any], **more: Any) -> warnings.Rule:
    return warnings.Rule(id, "symptoms", "w", how_soon, "words", "CP", threshold, **more)


def said(*rules: warnings.Rule, **eye: Any) -> list[tuple[str, str]]:
    return in_lists(dangers(warnings.Rulebook("test", rules), [operation(**eye)]))


def in_lists(found: list[Danger]) -> list[tuple[str, str]]:
    return [("again" if d.again else d.how_soon, d.words) for d in found]


def test_the_draft_says_now_only_what_its_rules_say_now() -> None:
    found = in_lists(dangers(book.rulebook(), [operation()]))
    assert [words for soon, words in found if soon == "now"] == [
        "Any 2 of these: pain of 4 or more out of 10, sight that gets worse, more redness, matter or pus",
        "Pain of 7 or more out of 10",
        "Pain of 4 or more out of 10 and being sick",
        "More dots or threads that float by together with one of these: sight that gets worse, more redness, matter or pus",
    ]
    assert [words for soon, words in found if soon == "today"] == [
        "A dark curtain",
        "More flashes of light and more dots or threads that float by",
    ]
    assert [words for soon, words in found if soon == "again"] == [
        "Pain of 5 or more out of 10",
        "Being sick",
        "More dots or threads that float by",
        "More flashes of light",
        "Sight that gets worse (call now if it is still there)",
        "More redness (call now if it is still there)",
        "Matter or pus (call now if it is still there)",
        "A knock to the eye",
        "Trouble in the other eye",
    ]


@pytest.mark.parametrize("day", [1, 2, 5, 10, 20, 60, 100])
def test_what_is_to_be_looked_at_again_is_what_the_check_asks_back_where_it_comes_alone(day: int) -> None:
    """Both ways: nothing that calls at once is told to wait, and no lone sign that is asked back is told to call."""
    rules, op = book.rulebook(), operation()
    at = op.at + timedelta(days=day)
    told = dangers(rules, [op])
    for name, answer in [
        *((n, True) for n in SYMPTOM_SIGNS),
        *((n, "worse") for n in SYMPTOM_TRENDS),
        ("pain", 5),
        ("pain", 7),
    ]:
        course = Course.after(op, (), (Symptoms(at, **{"pain": 0, name: answer}),))
        calls = {s.how_soon for s in warnings.evaluate(course, rules, at)} & {"now", "today"}
        words = WORDS[name, answer]
        again = [d.again for d in told if d.words.partition(" (")[0] == words]
        assert len(again) <= 1, words
        assert again == [False] if calls else again in ([True], []) or words == "A dark curtain", (words, day)
        if again == [True]:  # at a later look, as the words say
            later = [at + timedelta(minutes=30 * n) for n in (1, 2, 3)]
            lasts = Course.after(op, (), tuple(Symptoms(t, **{"pain": 0, name: answer}) for t in (at, *later)))
            soon = {s.how_soon for s in warnings.evaluate(lasts, rules, later[-1])}
            assert "now" not in soon or any(d.words == f"{words} (call now if it is still there)" for d in told), (
                words,
                day,
            )


WORDS = {
    ("vision", "worse"): "Sight that gets worse",
    ("redness", "worse"): "More redness",
    ("flashes", "worse"): "More flashes of light",
    ("floaters", "worse"): "More dots or threads that float by",
    ("other_eye", "worse"): "Trouble in the other eye",
    ("discharge", True): "Matter or pus",
    ("curtain", True): "A dark curtain",
    ("vomiting", True): "Being sick",
    ("fever", True): "A fever",
    ("injury", True): "A knock to the eye",
    ("pain", 5): "Pain of 5 or more out of 10",
    ("pain", 7): "Pain of 7 or more out of 10",
}


def test_a_sign_that_any_rule_calls_for_at_once_is_not_told_to_wait_and_one_in_company_is_listed_beside_it() -> None:
    look = SecondLook("still?", 1)
    asked = rule("a", "today", {"signs": ["floaters=worse"], "count": 1}, second_look=look)
    both = rule("b", "today", {"signs": ["floaters=worse"], "also": ["flashes=worse"], "count": 1})
    assert said(asked, both) == [
        ("today", "More dots or threads that float by and more flashes of light"),
        ("again", "More dots or threads that float by"),
    ]
    assert said(asked, replace(asked, id="c", second_look=None)) == [("today", "More dots or threads that float by")]
    threshold = {**asked.threshold, "within_hours": 30}
    lasting = replace(asked, id="f", check="symptoms-again", how_soon="now", second_look=None, threshold=threshold)
    more = "More dots or threads that float by"
    assert said(asked, lasting) == [("again", f"{more} (call now if it is still there)")]
    assert said(asked, lasting, replace(asked, id="c", second_look=None)) == [("today", more)]
    assert said(replace(asked, how_soon="now")) == [("now", "More dots or threads that float by")]
    # What a more urgent rule finds in all its ways is not said twice.
    urgent = rule("d", "now", {"signs": ["vision=worse", "flashes=worse", "fever"], "count": 2})
    with_fever = rule("e", "today", {"signs": ["flashes=worse"], "also": ["fever"], "count": 1})
    assert [soon for soon, _ in said(urgent, with_fever)] == ["now"]
    assert [soon for soon, _ in said(urgent, both)] == ["now", "today"]


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
