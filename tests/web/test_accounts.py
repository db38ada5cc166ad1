"""Accounts in the browser: a copied cookie, one's own password, and the administrator's pages."""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts
from followup.care.actors import Actor
from followup.config import Messages
from followup.records import Store, backup
from tests.conftest import NOW, PASSWORD, Clock

NEW = "quite another sentence"


def signed_in(app: Flask, email: str) -> FlaskClient:
    """Somebody who signs in once, and not anew when the session is over."""
    made = app.test_client()
    assert made.post("/sign-in", data={"email": email, "password": PASSWORD}).status_code == 302
    return made


@pytest.fixture
def as_nurse(app: Flask, nurse: Actor) -> FlaskClient:
    return signed_in(app, "nurse@test.invalid")


@pytest.fixture
def as_administrator(app: Flask, store: Store) -> FlaskClient:
    accounts.add_staff(store, NOW, "Ada Admin", "administrator", "admin@test.invalid", PASSWORD)
    return signed_in(app, "admin@test.invalid")


def copied(app: Flask, client: FlaskClient) -> FlaskClient:
    """Another browser with the cookie of this one."""
    thief, cookie = app.test_client(), client.get_cookie("staff")
    assert cookie is not None
    thief.set_cookie("staff", cookie.value)
    return thief


@pytest.mark.parametrize("way", ["/sign-out", "/api/v1/clinic/leave"])
def test_a_cookie_copied_before_sign_out_does_not_work_after_it(app: Flask, as_nurse: FlaskClient, way: str) -> None:
    thief = copied(app, as_nurse)
    assert thief.get("/clinic/").status_code == 200
    as_nurse.post(way)
    assert thief.get("/clinic/").status_code == 302
    assert thief.get("/api/v1/clinic/daysheet").status_code == 401


def test_signing_in_anew_ends_the_session_before(app: Flask, as_nurse: FlaskClient) -> None:
    thief = copied(app, as_nurse)
    as_nurse.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD})
    assert thief.get("/clinic/").status_code == 302
    assert as_nurse.get("/clinic/").status_code == 200


def test_pages_lock_after_an_hour_without_use(as_nurse: FlaskClient, clock: Clock) -> None:
    clock.pass_(minutes=59)
    assert as_nurse.get("/clinic/").status_code == 200
    clock.pass_(minutes=61)
    assert as_nurse.get("/clinic/").headers["Location"].startswith("/sign-in")


def test_the_mark_of_a_browser_goes_to_the_sign_in_page_only(app: Flask, nurse: Actor) -> None:
    answer = app.test_client().post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD})
    (mark,) = [c for c in answer.headers.getlist("Set-Cookie") if c.startswith("known=")]
    assert "Path=/sign-in" in mark
    assert "HttpOnly" in mark


def test_one_changes_one_s_own_password(app: Flask, as_nurse: FlaskClient) -> None:
    other = signed_in(app, "nurse@test.invalid")
    page = as_nurse.post("/my-account", data={"old": "wrong", "new": NEW, "again": NEW})
    assert (page.status_code, "not your password now" in page.text) == (400, True)
    page = as_nurse.post("/my-account", data={"old": PASSWORD, "new": NEW, "again": NEW + "x"})
    assert (page.status_code, "not the same" in page.text) == (400, True)
    page = as_nurse.post("/my-account", data={"old": PASSWORD, "new": "aaaaaaaaaa", "again": "aaaaaaaaaa"})
    assert (page.status_code, "repeats itself" in page.text) == (400, True)
    assert as_nurse.post("/my-account", data={"old": PASSWORD, "new": NEW, "again": NEW}).status_code == 303
    assert as_nurse.get("/my-account?kept=yes").status_code == 200
    assert other.get("/clinic/").status_code == 302


def test_one_signs_out_everywhere_else(app: Flask, as_nurse: FlaskClient) -> None:
    other = signed_in(app, "nurse@test.invalid")
    assert "Sign out everywhere else" in as_nurse.get("/my-account").text
    as_nurse.post("/my-account/sign-others-out")
    assert other.get("/clinic/").status_code == 302
    assert as_nurse.get("/clinic/").status_code == 200


def test_an_administrator_looks_after_accounts_and_sees_no_patients(
    as_administrator: FlaskClient, as_nurse: FlaskClient, eye_id: str
) -> None:
    page = as_administrator.get("/administrator/").text
    assert "nurse@test.invalid" in page
    for path in ("/clinic/", f"/clinic/eyes/{eye_id}", "/surgeon/", "/not-working", "/api/v1/clinic/daysheet"):
        assert as_administrator.get(path).status_code == 403, path
    new = {"name": "Second Nurse", "role": "nurse", "email": "second@test.invalid", "password": NEW}
    assert as_administrator.post("/administrator/", data={**new, "password": "short"}).status_code == 400
    assert as_administrator.post("/administrator/", data=new).status_code == 303
    assert "Second Nurse" in as_administrator.get("/administrator/").text


def test_an_administrator_ends_sessions_and_accounts_but_not_the_own(
    as_administrator: FlaskClient, as_nurse: FlaskClient, store: Store, nurse: Actor
) -> None:
    as_administrator.post(f"/administrator/people/{nurse.id}/sign-out")
    assert as_nurse.get("/clinic/").status_code == 302
    assert as_administrator.post(f"/administrator/people/{nurse.id}/end").status_code == 303
    assert accounts.actor(store, nurse.id) is None
    own = accounts.by_email(store, "admin@test.invalid").id
    assert as_administrator.post(f"/administrator/people/{own}/end").status_code == 400


def test_whoever_comes_back_may_have_the_same_address_again(
    as_administrator: FlaskClient, as_nurse: FlaskClient, app: Flask, store: Store, nurse: Actor
) -> None:
    as_administrator.post(f"/administrator/people/{nurse.id}/end")
    again = {"name": "Nora Again", "role": "nurse", "email": " Nurse@test.invalid ", "password": PASSWORD}
    assert as_administrator.post("/administrator/", data=again).status_code == 303
    assert signed_in(app, "nurse@test.invalid").get("/clinic/").status_code == 200
    assert accounts.by_email(store, "nurse@test.invalid").name == "Nora Again"
    assert accounts.name_of(store, f"nurse:{nurse.id}") == "Nora Nurse"
    assert as_administrator.post("/administrator/", data=again).status_code == 400
    assert backup.faults(store) == []


def test_who_looked_at_what_is_on_record(as_administrator: FlaskClient, as_nurse: FlaskClient, eye_id: str) -> None:
    as_nurse.get(f"/clinic/eyes/{eye_id}/visit")
    as_nurse.get("/api/v1/clinic/daysheet")
    page = as_administrator.get("/administrator/audit").text
    for before in ("9" * 400, "-" + "9" * 400, "0", "nonsense"):
        assert as_administrator.get(f"/administrator/audit?before={before}").status_code == 200
    for said in ("clinic.new_visit", eye_id, "clinic_api.sheet", "Nora Nurse", "signed in"):
        assert said in page


def test_the_trail_as_a_table_is_itself_on_record(as_administrator: FlaskClient, store: Store) -> None:
    table = as_administrator.get("/administrator/audit.csv")
    assert table.text.splitlines()[0] == "number,at,who,action,subject,detail,facts,previous,hash"
    assert "exported" in [row["action"] for row in store.rows("SELECT action FROM audit")]


def test_no_page_sends_an_administrator_where_they_may_not_go(as_administrator: FlaskClient, as_nurse: FlaskClient) -> None:
    refused = as_administrator.get("/clinic/")
    assert (refused.status_code, "Your account does not reach this page." in refused.text) == (403, True)
    assert "/surgeon/protocols" not in refused.text
    assert "/surgeon/protocols" in as_nurse.get("/clinic/").text


@pytest.mark.parametrize("mail", [True, False])
def test_a_mail_is_spoken_of_only_where_one_can_leave(app: Flask, as_administrator: FlaskClient, mail: bool) -> None:
    running = app.extensions["followup"]
    sent_by = Messages(smtp_host="mail.invalid", sender="clinic@test.invalid") if mail else Messages()
    running.settings = running.settings.model_copy(update={"messages": sent_by})
    assert ("asks for a mail" in as_administrator.get("/administrator/").text) is mail


def test_whoever_forgot_a_password_is_told_who_helps(app: Flask) -> None:
    assert "Forgotten the password?" in app.test_client().get("/sign-in").text
