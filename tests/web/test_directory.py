"""Signing in by the clinic's own directory, which runs in a process of its own and lies in every way that matters."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
import requests
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from followup import serving
from followup.care import accounts
from followup.care.actors import Actor
from followup.config import Settings, SignIn
from followup.exchange import directory
from followup.records import Store
from followup.web import create_app
from tests.conftest import PASSWORD, Browser, Clock
from tests.provider import CLIENT, SECRET

ADDRESS = "https://eyes.example"
NOT_CERTAIN = "did not show for certain who you are"


@pytest.fixture(scope="module")
def provider() -> Iterator[str]:
    root = Path(__file__).parents[2]
    words = [sys.executable, "-m", "tests.provider"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, cwd=root, env={**os.environ, "PYTHONPATH": str(root)}) as running:
        assert running.stdout is not None
        yield running.stdout.readline().decode().strip()
        running.terminate()


@pytest.fixture
def tell(provider: str, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Have the directory lie; at first it does not."""
    monkeypatch.setattr(directory, "_kept", {})

    def told(**lies: Any) -> None:
        requests.post(f"{provider}/control", json=lies, timeout=20)

    told()
    return told


@pytest.fixture
def clock() -> Clock:
    """What the directory signs, it signs by its own clock: that of now."""
    made = Clock()
    made.now = datetime.now(UTC)
    return made


@pytest.fixture
def settings(settings: Settings, provider: str, tmp_path: Path) -> Settings:
    return by_directory(settings, provider, tmp_path)


def by_directory(settings: Settings, provider: str, folder: Path, **more: Any) -> Settings:
    secret = folder / "secret"
    secret.write_text(SECRET + "\n", encoding="utf-8")
    ways = SignIn(issuer=provider, client_id=CLIENT, client_secret_file=secret, name="the test hospital", **more)
    server = settings.server.model_copy(update={"address": ADDRESS})
    return settings.model_copy(update={"server": server, "sign_in": ways})


@pytest.fixture
def visitor(app: Flask, tell: Any, nurse: Actor) -> FlaskClient:
    return app.test_client()


def led(client: FlaskClient, next: str = "") -> str:
    """Begin, be let in by the directory; returns the address to which it leads back."""
    begun = client.get("/sign-in/directory", query_string={"next": next} if next else None)
    assert begun.status_code == 302, begun.text
    back = requests.get(begun.headers["Location"], allow_redirects=False, timeout=20).headers["Location"]
    assert back.startswith(f"{ADDRESS}/sign-in/directory/back?")
    return back.removeprefix(ADDRESS)


def signed_in(client: FlaskClient, next: str = "") -> TestResponse:
    return client.get(led(client, next))


def refused(answer: TestResponse, words: str, status: int = 403) -> None:
    assert (answer.status_code, words.lower() in answer.text.lower()) == (status, True), answer.text
    assert answer.request is not None


def last_entry(store: Store) -> tuple[str, str]:
    row = store.rows("SELECT action, detail FROM audit ORDER BY number DESC LIMIT 1")[0]
    return row["action"], row["detail"]


def test_whom_the_directory_knows_by_a_verified_address_is_signed_in(
    visitor: FlaskClient, store: Store, nurse: Actor, provider: str
) -> None:
    assert "Sign in by the test hospital" in visitor.get("/sign-in").text
    answer = signed_in(visitor, "/clinic/callbacks")
    assert (answer.status_code, answer.headers["Location"]) == (302, "/clinic/callbacks")
    assert visitor.get("/clinic/").status_code == 200
    assert last_entry(store)[0] == "signed in"
    assert '"by": "directory"' in last_entry(store)[1] or '"by":"directory"' in last_entry(store)[1]
    asked = requests.get(f"{provider}/asked", timeout=20).json()["asked"]
    assert asked.count("/.well-known/openid-configuration") == 1  # kept for some minutes


def test_the_session_is_one_as_any_other(visitor: FlaskClient, clock: Clock) -> None:
    signed_in(visitor)
    clock.pass_(minutes=61)
    assert visitor.get("/clinic/").status_code == 302


def test_it_is_asked_to_ask_anew_since_devices_are_shared(visitor: FlaskClient) -> None:
    asked = parse_qs(urlsplit(visitor.get("/sign-in/directory").headers["Location"]).query)
    assert asked["prompt"] == ["login"]
    assert (asked["response_type"], asked["scope"], asked["code_challenge_method"]) == (["code"], ["openid email"], ["S256"])


def test_nobody_is_led_out_of_here(visitor: FlaskClient) -> None:
    assert signed_in(visitor, "https://evil.example/").headers["Location"] == "/clinic/"


LIES: dict[str, tuple[dict[str, Any], str]] = {
    "another nonce": ({"claims": {"nonce": "of another sign-in"}}, "nonce"),
    "no nonce": ({"claims": {"nonce": None}}, "nonce"),
    "another issuer": ({"claims": {"iss": "https://evil.example"}}, "iss"),
    "no issuer": ({"claims": {"iss": None}}, "iss"),
    "another audience": ({"claims": {"aud": "another program"}}, "aud"),
    "no audience": ({"claims": {"aud": None}}, "aud"),
    "audiences, for another": ({"claims": {"aud": ["another program", CLIENT], "azp": "another program"}}, "azp"),
    "audiences, for nobody": ({"claims": {"aud": ["another program", CLIENT]}}, "azp"),
    "expired": ({"claims": {"exp": int(time.time()) - 120}}, "exp"),
    "without an end": ({"claims": {"exp": None}}, "exp"),
    "made tomorrow": ({"claims": {"iat": int(time.time()) + 86_400}}, "iat"),
    "nobody": ({"claims": {"sub": None}}, "sub"),
    "a subject longer than one can be": ({"claims": {"sub": "x" * 256}}, "sub"),
    "a subject that is no text": ({"claims": {"sub": "\ud800"}}, "sub"),
    "a number for a subject": ({"claims": {"sub": 7}}, "sub"),
    "an error that is no text": ({"error": "\ud800"}, "code: ?"),
    "not signed": ({"alg": "none"}, "Algorithm"),
    "signed with the public key": ({"alg": "HS256"}, "Algorithm"),
    "another's key": ({"stranger": True}, "BadSignatureError"),
    "another access token": ({"claims": {"at_hash": "AAAAAAAAAAAAAAAAAAAAAA"}}, "at_hash"),
    "an answer of another issuer": ({"back": {"iss": "https://evil.example"}}, "iss"),
}


@pytest.mark.parametrize("lie", LIES)
def test_a_lie_signs_nobody_in(visitor: FlaskClient, store: Store, tell: Any, lie: str) -> None:
    """OpenID Connect Core 1.0, 3.1.3.7 (ID Token Validation); RFC 9207, 2.4."""
    told, why = LIES[lie]
    tell(**told)
    refused(signed_in(visitor), NOT_CERTAIN)
    assert visitor.get("/clinic/").status_code == 302
    action, detail = last_entry(store)
    assert (action, why in detail) == ("directory sign-in refused", True), detail


@pytest.mark.parametrize("told", [{"claims": {"iss": None}}, {"alg": "none"}, {"deny": True}])
def test_no_failure_tells_what_the_directory_said(visitor: FlaskClient, tell: Any, told: dict[str, Any]) -> None:
    tell(**told)
    page = signed_in(visitor).text
    assert not [word for word in ("iss", "alg", "<b>no</b>", "access_denied", SECRET, "Error") if f" {word}" in page]


def test_an_answer_is_taken_once(visitor: FlaskClient) -> None:
    back = led(visitor)
    with visitor.session_transaction() as kept:
        held = kept["directory"]
    assert visitor.get(back).status_code == 302
    visitor.post("/sign-out")
    refused(visitor.get(back), "begun in another browser")
    with visitor.session_transaction() as kept:
        kept["directory"] = held  # a copy of the cookie from before
    refused(visitor.get(back), "sent twice")


def test_an_answer_is_for_the_browser_that_began(app: Flask, visitor: FlaskClient) -> None:
    back, other = led(visitor), app.test_client()
    refused(other.get(back), "begun in another browser")
    led(other)
    refused(other.get(back), "begun in another browser")
    assert other.get("/clinic/").status_code == 302


def test_a_code_of_another_sign_in_is_worth_nothing(app: Flask, visitor: FlaskClient, store: Store) -> None:
    """An attacker's code with the victim's state, or a stolen code with one's own: RFC 7636 (PKCE)."""
    stolen, other = led(visitor), app.test_client()
    mine = led(other)
    code, state = (dict(part.split("=") for part in way.partition("?")[2].split("&")) for way in (stolen, mine))
    refused(other.get(f"/sign-in/directory/back?code={code['code']}&state={state['state']}"), NOT_CERTAIN)
    assert "invalid_grant" in last_entry(store)[1]


def test_what_began_ten_minutes_ago_is_over(visitor: FlaskClient, clock: Clock) -> None:
    back = led(visitor)
    clock.pass_(minutes=10)
    refused(visitor.get(back), "too long")


def test_what_the_browser_keeps_is_readable_by_nobody(visitor: FlaskClient) -> None:
    state = led(visitor).partition("state=")[2]
    with visitor.session_transaction() as kept:
        assert state not in str(dict(kept))


@pytest.mark.parametrize("verified", [False, None, "true", 1])
def test_an_address_that_nobody_verified_names_nobody(visitor: FlaskClient, tell: Any, verified: Any) -> None:
    tell(claims={"email_verified": verified})
    refused(signed_in(visitor), "has not verified your e-mail address")


def test_an_address_that_is_no_text_names_nobody(visitor: FlaskClient, tell: Any) -> None:
    tell(claims={"email": "\ud800@test.invalid"})
    refused(signed_in(visitor), "has not verified your e-mail address")


def test_nobody_is_added_from_outside(visitor: FlaskClient, tell: Any, store: Store) -> None:
    tell(claims={"email": "stranger@test.invalid", "roles": ["surgeon"]})
    before = store.rows("SELECT * FROM staff")
    refused(signed_in(visitor), "you have no account here")
    assert store.rows("SELECT * FROM staff") == before


def test_an_ended_account_is_kept_out(visitor: FlaskClient, store: Store, nurse: Actor, clock: Clock) -> None:
    signed_in(visitor)
    accounts.end(store, clock.now, nurse.id)
    refused(signed_in(visitor), "you have no account here")


def test_what_somebody_may_do_is_said_by_the_clinic_s_own_table(visitor: FlaskClient, tell: Any) -> None:
    tell(claims={"role": "surgeon", "roles": ["surgeon", "administrator"], "groups": ["surgeons"]})
    signed_in(visitor)
    assert visitor.get("/surgeon/").status_code == visitor.get("/administrator/").status_code == 403


def test_an_address_given_to_somebody_else_later_is_not_the_account(visitor: FlaskClient, tell: Any, store: Store) -> None:
    """OpenID Connect Core 1.0, 5.7: only issuer and subject name a person for good."""
    signed_in(visitor)
    visitor.post("/sign-out")
    tell(claims={"sub": "person-8"})
    refused(signed_in(visitor), "you have no account here")
    assert "another person" in last_entry(store)[1]


def test_a_person_whose_address_becomes_a_colleague_s_is_not_the_colleague(
    visitor: FlaskClient, tell: Any, surgeon: Actor
) -> None:
    signed_in(visitor)
    visitor.post("/sign-out")
    tell(claims={"email": "surgeon@test.invalid"})
    refused(signed_in(visitor), "you have no account here")


def other_app(settings: Settings, store: Store, clock: Clock) -> FlaskClient:
    made = create_app(settings, store, clock)
    made.config.update(TESTING=True)
    made.test_client_class = Browser
    return made.test_client()


def test_by_subject_only_whom_somebody_noted(
    settings: Settings, provider: str, tmp_path: Path, store: Store, clock: Clock, tell: Any, nurse: Actor, surgeon: Actor
) -> None:
    client = other_app(by_directory(settings, provider, tmp_path, claim="sub"), store, clock)
    refused(signed_in(client), "you have no account here")
    accounts.name_in_directory(store, clock.now, surgeon.id, "person-7")
    tell(claims={"email": None, "email_verified": None})
    assert signed_in(client).headers["Location"] == "/surgeon/"
    with pytest.raises(accounts.Conflict, match="Sol Surgeon"):
        accounts.name_in_directory(store, clock.now, nurse.id, "person-7")
    accounts.name_in_directory(store, clock.now, surgeon.id, "")
    client.post("/sign-out")
    refused(signed_in(client), "you have no account here")


def test_by_subject_an_ended_account_is_kept_out(
    settings: Settings, provider: str, tmp_path: Path, store: Store, clock: Clock, tell: Any, nurse: Actor
) -> None:
    client = other_app(by_directory(settings, provider, tmp_path, claim="sub"), store, clock)
    accounts.name_in_directory(store, clock.now, nurse.id, "person-7")
    accounts.end(store, clock.now, nurse.id)
    refused(signed_in(client), "you have no account here")


AWAY: dict[str, dict[str, Any]] = {
    "down": {"down": True},
    "another issuer": {"described": {"issuer": "https://evil.example"}},
    "codes taken elsewhere, without TLS": {"described": {"token_endpoint": "http://evil.example/token"}},
    "keys elsewhere, without TLS": {"described": {"jwks_uri": "http://evil.example/jwks"}},
    "people led elsewhere, without TLS": {"described": {"authorization_endpoint": "http://evil.example/"}},
    "no keys": {"described": {"jwks_uri": None}},
    "an answer without an end": {"long": True},
}


@pytest.mark.parametrize("how", AWAY)
def test_while_it_is_down_the_password_works(app: Flask, visitor: FlaskClient, tell: Any, how: str) -> None:
    tell(**AWAY[how])
    refused(visitor.get("/sign-in/directory"), "does not answer now; sign in with your password", 503)
    assert visitor.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD}).status_code == 302


def test_it_may_go_down_between_there_and_back(visitor: FlaskClient, tell: Any) -> None:
    back = led(visitor)
    tell(down=True)
    refused(visitor.get(back), "does not answer now", 503)


def test_it_may_not_be_there_at_all(
    settings: Settings, tmp_path: Path, store: Store, clock: Clock, nurse: Actor, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(directory, "_kept", {})
    client = other_app(by_directory(settings, "http://127.0.0.1:9", tmp_path), store, clock)
    refused(client.get("/sign-in/directory"), "does not answer now", 503)


def test_those_that_hang_hold_nobody_up(visitor: FlaskClient, provider: str) -> None:
    """Two at a time in a worker; the third is told at once."""
    turn = directory.turn(provider)
    for _ in range(directory.AT_A_TIME):
        turn.acquire()
    try:
        refused(visitor.get("/sign-in/directory"), "does not answer now", 503)
    finally:
        turn.release(directory.AT_A_TIME)
    assert led(visitor)


def test_one_clinic_s_directory_that_hangs_takes_no_place_of_another_s(visitor: FlaskClient) -> None:
    """Several clinics are served by one worker, each with a directory of its own."""
    turn = directory.turn("https://login.south.example")
    for _ in range(directory.AT_A_TIME):
        turn.acquire()
        directory._any_turn.acquire()
    assert led(visitor)
    directory._any_turn.acquire()  # a third one hangs: the last thread of the worker is for pages
    refused(visitor.get("/sign-in/directory"), "does not answer now", 503)
    directory._any_turn.release(directory.IN_ALL)
    assert led(visitor)
    turn.release(directory.AT_A_TIME)


def test_directories_that_hang_leave_a_thread_for_pages() -> None:
    assert directory.AT_A_TIME < directory.IN_ALL < serving.THREADS_PER_WORKER


def test_where_the_clinic_says_so_nothing_else_lets_anybody_in(
    settings: Settings, provider: str, tmp_path: Path, store: Store, clock: Clock, tell: Any, nurse: Actor
) -> None:
    client = other_app(by_directory(settings, provider, tmp_path, passwords=False), store, clock)
    page = client.get("/sign-in").text
    assert "Sign in by the test hospital" in page
    assert 'type="password"' not in page
    assert "data-passkey" not in page
    refused(client.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD}), "the test hospital only")
    refused(client.post("/sign-in/passkey", data={"token": "x", "answer": "x"}), "the test hospital only")
    tell(down=True)
    refused(client.get("/sign-in/directory"), "try again in a while", 503)
    tell()
    assert signed_in(client).status_code == 302


def test_a_wrong_secret_signs_nobody_in(visitor: FlaskClient, settings: Settings, store: Store) -> None:
    assert settings.sign_in.client_secret_file is not None
    back = led(visitor)
    settings.sign_in.client_secret_file.write_text("another", encoding="utf-8")
    refused(visitor.get(back), NOT_CERTAIN)
    assert "invalid_client" in last_entry(store)[1]


def test_without_a_directory_nobody_is_led_anywhere(settings: Settings, store: Store, clock: Clock, nurse: Actor) -> None:
    client = other_app(settings.model_copy(update={"sign_in": SignIn()}), store, clock)
    assert "data-alone" not in client.get("/sign-in").text.partition("<form")[0]
    assert client.get("/sign-in/directory").status_code == 404
    assert client.get("/sign-in/directory/back?code=x&state=y").status_code == 404
