"""What a warning rests on is said in words: no code of a rule or of a record stands on a page."""

import re
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.protocols.book import rulebook
from followup.records import Store, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.web.display import pairs, rule_title
from tests.conftest import NOW, ZONE
from tests.pages import parsed

CODE = re.compile(r"[_=<>\[\]]|True|False|mmhg|\d\.0\b|\dT\d")


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"discharge": True, "pain": 6, "redness": "worse"}, "discharge, pain 6, redness worse"),
        ({"count": 2, "signs": ["pain>=4", "vision=worse"]}, "at least 2, signs pain 4 or more, vision worse"),
        ({"iop_mmhg": 34.0, "instrument": "rebound"}, "pressure 34 mmHg, instrument rebound tonometer"),
        ({"finding": "iris-vessels", "fever": False}, "finding new vessels on the iris or in the angle, no fever"),
        ({"mmhg": 30, "by_mmhg": 5, "hours": 36, "while_posturing": True}, "30 mmHg, by 5 mmHg, 36 hours, while posturing"),
        ({"off_by_sd": 4.2, "acuity": "6/36", "before": None}, "off by 4.2 SD, acuity 6/36"),
        ({"visit": "week 4", "latest": "2027-03-05"}, "visit week 4, latest Fri 5 Mar 2027"),
        ({"days": (2, 5, 9)}, "days 2, 5, 9"),
    ],
)
def test_what_was_found_is_said_in_words(app: Flask, values: dict[str, Any], said: str) -> None:
    with app.test_request_context():
        assert pairs(values) == said


def test_no_rule_shows_a_code(app: Flask) -> None:
    with app.test_request_context():
        shown = {rule.id: pairs(rule.threshold) for rule in rulebook().rules}
    assert {rule: words for rule, words in shown.items() if CODE.search(words)} == {}


def test_each_rule_has_a_title_of_its_own_in_words(app: Flask) -> None:
    titles = {rule.id: rule_title(rule.id) for rule in rulebook().rules}
    assert len(set(titles.values())) == len(titles)
    assert [t for t in titles.values() if "-" in t or not t[0].isupper() or len(t) > 50] == []
    assert rule_title("pressure-of-our-own") == "Pressure of our own"  # of a clinic's own rulebook
    assert rule_title("fellow-pressure-spike") == "Fellow eye: pressure spike"


@pytest.mark.parametrize("path", ["call", "/how-this-is-worked-out", "/surgeon/protocols/rulebook"])
def test_no_page_shows_the_id_of_a_rule(as_surgeon: FlaskClient, store: Store, nurse: Actor, eye_id: str, path: str) -> None:
    """In the words of the page: its anchor and what a pointer shows name it."""
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=46, findings=("leak",))])
    call = f"/clinic/callbacks/{worries.open_callbacks(store)[0].id}"
    words = parsed(as_surgeon.get(call if path == "call" else path).text).one("main").words
    ids = [rule.id for rule in rulebook().rules if "-" in rule.id]
    assert [id for id in ids if re.search(rf"(?<![\w-]){id}(?![\w-])", words)] == []
