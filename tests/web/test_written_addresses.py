"""What pages write by the hundred is worked out by shorter ways: with the same result as Flask's and Babel's own."""

from datetime import date, timedelta
from typing import Any

import pytest
from babel import Locale
from babel.dates import format_date, format_datetime
from flask import Flask
from werkzeug.routing import BuildError

from followup.web.addresses import Addresses
from followup.web.context import LANGUAGES
from followup.web.dates import written
from tests.conftest import OPERATED

PATTERNS = ("EEE d MMM y", "d MMM y", "EEE d MMM", "d MMM", "MMM y", "EEE d MMM, HH:mm", "HH:mm")
VALUES = ("0190-abc", "a b/c?d=1&e#f%", "é ‘", "..", 7, 0)
QUERIES: tuple[dict[str, Any], ...] = (
    {},
    {"page": 2},
    {"find": "Müller & Söhne +49/1;2:3", "show": "here"},
    {"page": None, "x": "y"},
    {"x": ["a", "b"]},
    {"x": True},
    {"_anchor": "visit-1"},
)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_date_is_written_as_babel_writes_it(language: str) -> None:
    locale = Locale.parse(language)
    for n in range(0, 800, 3):
        at = OPERATED + timedelta(days=n, minutes=37 * n)
        for pattern in PATTERNS:
            assert written(at, pattern, locale) == format_datetime(at, pattern, locale=locale), pattern
            if "H" not in pattern:
                assert written(at.date(), pattern, locale) == format_date(at.date(), pattern, locale=locale)
    assert written(date(987, 1, 2), "d MMM y", locale) == format_date(date(987, 1, 2), "d MMM y", locale=locale)


@pytest.mark.parametrize("root", ["", "/clinics/a"])
def test_an_address_is_the_one_that_flask_makes(app: Flask, root: str) -> None:
    ours, compared = Addresses(app), 0
    with app.test_request_context("/clinic/", environ_overrides={"SCRIPT_NAME": root}):
        for rule in app.url_map.iter_rules():
            for value in VALUES:
                for query in QUERIES:
                    given = dict.fromkeys(rule.arguments, value) | query
                    compared += 1
                    assert said(ours, rule.endpoint, given) == said(app.url_for, rule.endpoint, given), (
                        rule.endpoint,
                        given,
                    )
                    assert said(ours, rule.endpoint, query) == said(app.url_for, rule.endpoint, query), (
                        rule.endpoint,
                        query,
                    )
    assert compared > 1000


def test_a_page_that_is_not_there_has_no_address(app: Flask) -> None:
    with app.test_request_context("/"), pytest.raises(BuildError):
        Addresses(app)("clinic.nothing")


def said(make: Any, endpoint: str, values: dict[str, Any]) -> str:
    try:
        return str(make(endpoint, **values))
    except (BuildError, ValueError, TypeError) as error:
        return type(error).__name__
