"""Passkeys in the browser's place: made, used alone and after the password, renamed, removed."""

import json

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts
from followup.care.actors import Actor
from followup.config import Settings
from followup.records import Store
from followup.web import create_app
from tests.authenticator import Authenticator
from tests.conftest import NOW, PASSWORD, Browser, Clock
from tests.pages import parsed


@pytest.fixture
def settings(settings: Settings) -> Settings:
    server = settings.server.model_copy(update={"address": "https://eyes.example"})
    return settings.model_copy(update={"server": server})


@pytest.fixture
def as_nurse(app: Flask, nurse: Actor) -> FlaskClient:
    return by_password(app)


def by_password(app: Flask) -> FlaskClient:
    made = app.test_client()
    assert made.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD}).status_code == 302
    return made


def asked(page: str, kind: str = "get") -> tuple[str, str]:
    """Token and options of the form that asks for a passkey."""
    form = parsed(page).one("form", data_passkey=kind)
    return form.one("input", name="token").get("value"), form.one("template").words


def made(client: FlaskClient, name: str = "the tablet") -> Authenticator:
    device = Authenticator()
    page = client.post("/my-account/new-passkey", data={"name": name, "password": PASSWORD})
    token, options = asked(page.text, "create")
    sent = {"name": name, "token": token, "answer": device.make(options)}
    assert client.post("/my-account/new-passkey/made", data=sent).headers["Location"] == "/my-account"
    return device


def used(client: FlaskClient, device: Authenticator, page: str = "/sign-in") -> dict[str, str]:
    token, options = asked(client.get(page).text)
    return {"token": token, "answer": device.sign(options)}


def test_a_passkey_is_made_and_signs_in_alone_to_the_page_that_was_asked_for(app: Flask, as_nurse: FlaskClient) -> None:
    page = as_nurse.post("/my-account/new-passkey", data={"name": "x", "password": "wrong"})
    assert (page.status_code, "not your password now" in page.text) == (400, True)
    device = made(as_nurse)
    assert "the tablet" in as_nurse.get("/my-account").text
    assert "never used" in as_nurse.get("/my-account").text
    other = app.test_client()
    answer = other.post("/sign-in/passkey?next=/clinic/callbacks", data=used(other, device))
    assert (answer.status_code, answer.headers["Location"]) == (302, "/clinic/callbacks")
    assert other.get("/clinic/").status_code == 200
    assert "last used" in other.get("/my-account").text
    with other.session_transaction() as kept:
        assert kept["signed_in_as"] == "nurse@test.invalid"


def test_what_another_browser_was_asked_signs_nobody_in(app: Flask, as_nurse: FlaskClient) -> None:
    device, one, other = made(as_nurse), app.test_client(), app.test_client()
    sent = used(one, device)
    other.get("/sign-in")
    refused = other.post("/sign-in/passkey", data=sent)
    assert (refused.status_code, "That took too long, or was sent twice" in refused.text) == (403, True)
    assert other.get("/clinic/").status_code == 302
    assert one.post("/sign-in/passkey", data=sent).status_code == 302


def test_a_passkey_made_in_one_session_is_not_kept_in_another(app: Flask, as_nurse: FlaskClient, store: Store) -> None:
    page = as_nurse.post("/my-account/new-passkey", data={"name": "x", "password": PASSWORD})
    token, options = asked(page.text, "create")
    sent = {"name": "x", "token": token, "answer": Authenticator().make(options)}
    assert by_password(app).post("/my-account/new-passkey/made", data=sent).status_code == 403
    assert store.rows("SELECT * FROM passkeys") == []


def test_the_page_that_refused_signs_in_all_the_same(app: Flask, as_nurse: FlaskClient) -> None:
    device, other = made(as_nurse), app.test_client()
    refused = other.post("/sign-in/passkey?next=/clinic/callbacks", data=used(other, Authenticator()))
    assert "This passkey was not taken; sign in another way." in refused.text
    page = parsed(refused.text)
    assert page.one("form", id="sign-in").get("action") == "/sign-in?next=/clinic/callbacks"
    token, options = asked(refused.text)
    action = page.one("form", data_passkey="get").get("action")
    assert (
        other.post(action, data={"token": token, "answer": device.sign(options)}).headers["Location"] == "/clinic/callbacks"
    )


def test_after_the_password_a_passkey_or_a_recovery_code(app: Flask, as_nurse: FlaskClient, clock: Clock) -> None:
    assert "for a passkey" not in as_nurse.get("/my-account").text
    device = made(as_nurse)
    assert "another device with one" in as_nurse.get("/my-account/ask-for-a-passkey").text
    codes = [e.words for e in parsed(as_nurse.post("/my-account/ask-for-a-passkey").text).all("strong", class_="code")]
    assert len(codes) == 10
    other = app.test_client()
    answer = other.post("/sign-in?next=/clinic/callbacks", data={"email": "nurse@test.invalid", "password": PASSWORD})
    address = answer.headers["Location"]
    assert other.get("/clinic/").status_code == 302
    page = other.get(address).text
    assert "code of your app" not in page
    sent = used(other, Authenticator(), address)
    assert other.post("/sign-in/code/passkey", data=sent).status_code == 403
    done = other.post("/sign-in/code/passkey?next=/clinic/callbacks", data=used(other, device, address))
    assert (done.status_code, done.headers["Location"]) == (302, "/clinic/callbacks")
    third = app.test_client()
    third.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD})
    assert third.post("/sign-in/code", data={"code": codes[0]}).status_code == 302
    assert third.get("/clinic/").status_code == 200
    assert as_nurse.post("/my-account/no-second-factor", data={"password": PASSWORD}).status_code == 303
    assert by_password(app).get("/clinic/").status_code == 200


def test_half_a_sign_in_by_password_is_needed_for_the_second_step(app: Flask, as_nurse: FlaskClient) -> None:
    device, other = made(as_nurse), app.test_client()
    sent = used(other, device)
    assert other.post("/sign-in/code/passkey", data=sent).status_code == 403
    assert other.get("/clinic/").status_code == 302


def test_one_s_passkeys_are_renamed_and_removed(app: Flask, as_nurse: FlaskClient) -> None:
    device = made(as_nurse)
    link = parsed(as_nurse.get("/my-account").text).all("a", class_="quiet")[0].get("href")
    assert as_nurse.get(link).status_code == 200
    assert as_nurse.post(link, data={"name": ""}).status_code == 400
    assert as_nurse.post(link, data={"name": "blue key"}).status_code == 303
    assert "blue key" in as_nurse.get("/my-account").text
    assert as_nurse.post(f"{link}/remove").status_code == 303
    assert "blue key" not in as_nurse.get("/my-account").text
    assert as_nurse.get(link).status_code == 404
    other = app.test_client()
    assert other.post("/sign-in/passkey", data=used(other, device)).status_code == 403


def test_nobody_touches_another_s_passkey(app: Flask, as_nurse: FlaskClient, store: Store, surgeon: Actor) -> None:
    made(as_nurse)
    link = parsed(as_nurse.get("/my-account").text).all("a", class_="quiet")[0].get("href")
    other = app.test_client()
    other.post("/sign-in", data={"email": "surgeon@test.invalid", "password": PASSWORD})
    assert other.get(link).status_code == other.post(link, data={"name": "x"}).status_code == 404
    assert other.post(f"{link}/remove").status_code == 404
    assert store.rows("SELECT name, removed_at FROM passkeys") == [{"name": "the tablet", "removed_at": None}]


def test_an_ended_account_signs_in_by_no_passkey(app: Flask, as_nurse: FlaskClient, store: Store, nurse: Actor) -> None:
    device, other = made(as_nurse), app.test_client()
    accounts.end(store, NOW, nurse.id)
    assert other.post("/sign-in/passkey", data=used(other, device)).status_code == 403


def test_where_browsers_allow_no_passkeys_none_is_asked_for(settings: Settings, store: Store, nurse: Actor) -> None:
    server = settings.server.model_copy(update={"address": "http://192.0.2.1:8000"})
    app = create_app(settings.model_copy(update={"server": server}), store, Clock())
    app.config.update(TESTING=True)
    app.test_client_class = Browser
    client = by_password(app)
    assert "Browsers allow passkeys only where" in client.get("/my-account").text
    assert client.get("/my-account/new-passkey").status_code == 404
    assert "data-passkey" not in app.test_client().get("/sign-in").text
    assert client.post("/sign-in/passkey", data={"token": "x", "answer": "x"}).status_code == 303


def test_the_address_is_that_of_the_settings_and_never_the_browser_s(app: Flask, nurse: Actor) -> None:
    page = app.test_client().get("/sign-in", headers={"Host": "evil.example"}).text
    assert json.loads(asked(page)[1])["rpId"] == "eyes.example"
