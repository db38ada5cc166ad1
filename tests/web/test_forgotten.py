"""A forgotten password: a link by real mail or from an administrator, that holds for thirty minutes and once."""

import re
from datetime import timedelta
from urllib.parse import urlsplit

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup import jobs
from followup.care import accounts, resetting, second_factor, signing_in
from followup.care.actors import Actor
from followup.care.errors import Refused
from followup.care.messages import outgoing
from followup.config import Messages, Settings
from followup.records import Store, audit
from followup.records.times import from_text
from followup.web import create_app
from tests.conftest import NOW, PASSWORD, Browser, Clock, signed_in
from tests.exchange.conftest import Mailbox, mailbox
from tests.pages import parsed

__all__ = ["mailbox"]
NEW = "several words that nobody guesses"
EMAIL = "nurse@test.invalid"


@pytest.fixture
def mailing(settings: Settings, mailbox: Mailbox) -> Settings:
    sent_by = Messages(smtp_host="127.0.0.1", smtp_port=mailbox.port, smtp_security="none", sender="clinic@test.invalid")
    return settings.model_copy(update={"messages": sent_by})


@pytest.fixture
def app(mailing: Settings, store: Store, clock: Clock, nurse: Actor) -> Flask:
    made = create_app(mailing, store, clock)
    made.config.update(TESTING=True)
    made.test_client_class = Browser
    return made


def asked(app: Flask, email: str = EMAIL) -> str:
    answer = app.test_client().post("/sign-in/forgotten", data={"email": email})
    assert answer.status_code == 200
    return answer.text


def mailed(store: Store, mailing: Settings, mailbox: Mailbox, clock: Clock) -> str:
    """The path of the link in the latest mail, after the clock's job has run."""
    jobs.run(store, mailing, "messages", clock.now)
    found = re.search(
        rf"{re.escape(mailing.server.public_address)}(/sign-in/new-password/\S+)", mailbox.letters[-1].get_content()
    )
    assert found is not None
    return found[1]


def chosen(app: Flask, path: str, password: str = NEW) -> int:
    return app.test_client().post(path, data={"new": password, "again": password}).status_code


def lets_in(store: Store, password: str) -> bool:
    try:
        signing_in.sign_in(store, NOW + timedelta(days=1), EMAIL, password, signing_in.Caller("elsewhere"))
    except Refused:
        return False
    return True


def test_by_the_mailed_link_a_new_password_is_chosen_once(
    app: Flask, store: Store, mailing: Settings, mailbox: Mailbox, clock: Clock
) -> None:
    open_elsewhere = signed_in(app, EMAIL)
    asked(app, f" {EMAIL.upper()} ")
    path = mailed(store, mailing, mailbox, clock)
    assert mailbox.letters[-1]["To"] == EMAIL
    assert "Nora" not in mailbox.letters[-1].get_content()
    assert EMAIL in app.test_client().get(path).text
    clock.pass_(minutes=29)
    assert chosen(app, path) == 303
    assert (lets_in(store, PASSWORD), lets_in(store, NEW)) == (False, True)
    assert open_elsewhere.get("/clinic/").status_code == 302
    assert chosen(app, path, "other words, chosen by another") == 403
    assert lets_in(store, NEW)
    assert path.rpartition("/")[2] not in str(store.rows("SELECT * FROM messages") + store.rows("SELECT * FROM audit"))


def test_a_link_is_too_old_after_thirty_minutes(
    app: Flask, store: Store, mailing: Settings, mailbox: Mailbox, clock: Clock
) -> None:
    asked(app)
    path = mailed(store, mailing, mailbox, clock)
    clock.pass_(minutes=30)
    assert (app.test_client().get(path).status_code, chosen(app, path), lets_in(store, PASSWORD)) == (403, 403, True)


def test_of_two_links_the_second_one_is_used_up_with_the_first(app: Flask, store: Store, nurse: Actor) -> None:
    first, second = (resetting.token(store, NOW, nurse.id) for _ in range(2))
    assert chosen(app, f"/sign-in/new-password/{first}") == 303
    assert chosen(app, f"/sign-in/new-password/{second}", "other words, chosen by another") == 403


@pytest.mark.parametrize("wrong", ["another account", "no signature", "one that signs something else", "ended"])
def test_what_we_did_not_sign_for_this_opens_nothing(
    app: Flask, store: Store, nurse: Actor, surgeon: Actor, wrong: str
) -> None:
    good = resetting.token(store, NOW, nurse.id)
    token = {
        "another account": f"{resetting.token(store, NOW, surgeon.id).rpartition('.')[0]}.{good.rpartition('.')[2]}",
        "no signature": good.rpartition(".")[0],
        "one that signs something else": signing_in.mark(store, NOW, EMAIL),
        "ended": good,
    }[wrong]
    if wrong == "ended":
        accounts.end(store, NOW, nurse.id)
    assert chosen(app, f"/sign-in/new-password/{token}") == 403
    assert wrong == "ended" or lets_in(store, PASSWORD)


def test_a_weak_password_is_said_beside_and_uses_up_nothing(app: Flask, store: Store, nurse: Actor) -> None:
    path = f"/sign-in/new-password/{resetting.token(store, NOW, nurse.id)}"
    assert chosen(app, path, "aaaaaaaaaa") == 400
    assert app.test_client().post(path, data={"new": NEW, "again": "other"}).status_code == 400
    assert lets_in(store, PASSWORD)
    assert chosen(app, path) == 303


def test_nobody_learns_whether_an_address_has_an_account(
    app: Flask, store: Store, mailing: Settings, mailbox: Mailbox, clock: Clock
) -> None:
    assert asked(app, "nobody@test.invalid") == asked(app)
    jobs.run(store, mailing, "messages", clock.now)
    assert [letter["To"] for letter in mailbox.letters] == [EMAIL]


def test_nobody_s_mailbox_is_filled_and_no_address_asks_without_end(app: Flask, store: Store, surgeon: Actor) -> None:
    for _ in range(10):
        asked(app)
    assert len(store.rows("SELECT 1 FROM messages")) == 3
    for n in range(20):
        asked(app, f"guess-{n}@test.invalid")
    asked(app, "surgeon@test.invalid")
    assert len(store.rows("SELECT 1 FROM messages")) == 3


def test_whoever_asks_on_and_on_keeps_nobody_waiting_and_fills_nothing(app: Flask, store: Store, clock: Clock) -> None:
    """A request that is over the limit leaves no row: else the audit trail grew without end, and the hour was never over."""
    for _ in range(5):
        for _ in range(10):
            asked(app)
        clock.pass_(minutes=20)
    made = [from_text(row["made_at"]) - NOW for row in store.rows("SELECT made_at FROM messages ORDER BY made_at")]
    assert made == [timedelta(0)] * 3 + [timedelta(hours=1)] * 3
    kept = len(audit.latest(store))
    clock.pass_(hours=2)
    for n in range(25):
        asked(app, f"guess-{n}@test.invalid")
    assert len(audit.latest(store)) == kept + 20


def test_it_goes_to_the_address_that_signs_in_and_at_once(
    app: Flask, store: Store, nurse: Actor, mailing: Settings, mailbox: Mailbox, clock: Clock
) -> None:
    """Whatever was chosen for other messages: another address, and quiet hours."""
    other = outgoing.Choices(email="other@test.invalid", quiet_from="00:01", quiet_to="23:59")
    outgoing.choose(store, NOW, f"staff:{nurse.id}", other)
    asked(app)
    mailed(store, mailing, mailbox, clock)
    assert [letter["To"] for letter in mailbox.letters] == [EMAIL]


def test_the_second_factor_is_asked_for_after_a_reset_too(app: Flask, store: Store, nurse: Actor) -> None:
    store.execute("UPDATE staff SET totp_secret = 'JBSWY3DPEHPK3PXP' WHERE id = :id", {"id": nurse.id})
    assert second_factor.wanted(store, nurse.id)
    assert chosen(app, f"/sign-in/new-password/{resetting.token(store, NOW, nurse.id)}") == 303
    answer = app.test_client().post("/sign-in", data={"email": EMAIL, "password": NEW})
    assert answer.headers["Location"].startswith("/sign-in/code")


def test_an_administrator_passes_a_link_on(app: Flask, store: Store, nurse: Actor) -> None:
    accounts.add_staff(store, NOW, "Adi Admin", "administrator", "admin@test.invalid", PASSWORD)
    admin = signed_in(app, "admin@test.invalid")
    page = parsed(admin.post(f"/administrator/people/{nurse.id}/reset-link").text)
    assert chosen(app, urlsplit(page.one("code").words).path) == 303
    assert lets_in(store, NEW)
    assert [e["action"] for e in audit.of_subject(store, nurse.id)][-3:-1] == [
        "password reset link made",
        "password changed",
    ]
    assert signed_in_as_nurse(app).post(f"/administrator/people/{nurse.id}/reset-link").status_code == 403


def signed_in_as_nurse(app: Flask) -> FlaskClient:
    made = app.test_client()
    assert made.post("/sign-in", data={"email": EMAIL, "password": NEW}).status_code == 302
    return made


def test_an_account_is_ended_after_a_question(app: Flask, store: Store, nurse: Actor) -> None:
    accounts.add_staff(store, NOW, "Adi Admin", "administrator", "admin@test.invalid", PASSWORD)
    admin = signed_in(app, "admin@test.invalid")
    page = admin.get("/administrator/").text
    assert f'<a class="button quiet" href="/administrator/people/{nurse.id}/end">' in page
    assert f'action="/administrator/people/{nurse.id}/end"' not in page
    question = admin.get(f"/administrator/people/{nurse.id}/end").text
    assert "End the account of Nora Nurse?" in question
    assert lets_in(store, PASSWORD)
    assert admin.post(f"/administrator/people/{nurse.id}/end").status_code == 303
    assert not lets_in(store, PASSWORD)
    assert admin.get(f"/administrator/people/{nurse.id}/end").status_code == 404


def test_without_mail_the_page_says_whom_to_ask(settings: Settings, store: Store, clock: Clock, nurse: Actor) -> None:
    app = create_app(settings, store, clock)
    app.config.update(TESTING=True)
    app.test_client_class = Browser
    assert "sends no mail" in app.test_client().get("/sign-in/forgotten").text
    asked(app)
    assert store.rows("SELECT 1 FROM messages") == []
