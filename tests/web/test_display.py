"""What a warning rests on is said in words: no code of a rule or of a record stands on a page."""

import re
from typing import Any

import pytest
from flask import Flask

from followup.protocols.book import rulebook
from followup.web.display import pairs

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
