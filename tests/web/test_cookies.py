"""What browsers keep of us: no script reads it, no other site sends it, no plain line carries it (RFC 6265bis 5.6, 5.7)."""

from http.cookies import Morsel, SimpleCookie
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.config import Settings
from followup.records import Store
from followup.web import create_app
from tests.conftest import PASSWORD, Browser, Clock
from tests.pages import parsed

# Under TLS a form comes with the address of its page (`WTF_CSRF_SSL_STRICT`); our pages send it (Referrer-Policy).
TLS: dict[str, Any] = {"base_url": "https://localhost", "headers": {"Referer": "https://localhost/"}}
STAFF = {"email": "nurse@test.invalid", "password": PASSWORD}


@pytest.fixture
def secure(settings: Settings, store: Store, clock: Clock, nurse: Actor) -> FlaskClient:
    """A browser at a clinic behind TLS."""
    server = settings.server.model_copy(update={"secure_cookies": True})
    app = create_app(settings.model_copy(update={"server": server}), store, clock)
    app.test_client_class = Browser
    return app.test_client()


def cookies(answer: object) -> dict[str, Morsel[str]]:
    found: dict[str, Morsel[str]] = {}
    for line in answer.headers.getlist("Set-Cookie"):  # type: ignore[attr-defined]
        found |= dict(SimpleCookie(line).items())
    return found


def test_signing_in_sets_two_cookies_that_no_script_and_no_other_site_gets(secure: FlaskClient) -> None:
    kept = cookies(secure.post("/sign-in", data=STAFF, **TLS))
    assert set(kept) == {"staff", "known"}
    for cookie in kept.values():
        assert (cookie["httponly"], cookie["secure"], cookie["samesite"]) == (True, True, "Lax")
    assert (kept["staff"]["path"], kept["known"]["path"]) == ("/", "/sign-in")


def test_a_phone_keeps_one_cookie_that_no_other_page_leads_to(secure: FlaskClient, discharged: tuple[str, str]) -> None:
    form = {"code": discharged[1], "birth_year": "1952", "used_by": "patient"}
    (cookie,) = cookies(secure.post("/enrol", data=form, **TLS)).values()
    assert cookie.key == "device"
    assert (cookie["httponly"], cookie["secure"], cookie["samesite"]) == (True, True, "Strict")
    assert int(cookie["max-age"]) == 400 * 86400  # the most that browsers keep one for (RFC 6265bis 5.5)


def test_under_tls_a_form_without_the_address_of_its_page_is_refused(secure: FlaskClient) -> None:
    assert secure.post("/sign-in", data=STAFF, base_url="https://localhost").status_code in (302, 400)
    assert secure.get("/clinic/", base_url="https://localhost").status_code == 302


def test_a_browser_that_only_looks_around_keeps_nothing(secure: FlaskClient) -> None:
    for path in ("/", "/me/", "/static/base.css", "/health", "/api/v1/acuity-table"):
        assert not cookies(secure.get(path, base_url="https://localhost")), path


@pytest.mark.parametrize(
    ("address", "secure_cookies", "told"),
    [
        ("http://192.0.2.7:8000", True, True),
        ("http://eyes.example", True, True),
        ("https://eyes.example", True, False),
        ("http://localhost:8000", True, False),
        ("http://127.0.0.1:8000", True, False),
        ("http://192.0.2.7:8000", False, False),
    ],
)
def test_where_a_browser_keeps_no_sign_in_the_form_says_so(
    settings: Settings, store: Store, clock: Clock, address: str, secure_cookies: bool, told: bool
) -> None:
    """A cookie marked Secure is kept over https and from this machine alone (RFC 6265 5.4; W3C Secure Contexts 3.1)."""
    server = settings.server.model_copy(update={"secure_cookies": secure_cookies})
    app = create_app(settings.model_copy(update={"server": server}), store, clock)
    page = app.test_client().get("/sign-in", base_url=address)
    said = [one.words for one in parsed(page.text).all("p", role="alert")]
    assert ["without https" in one for one in said] == [True] * told
