"""What somebody wrote stands on the page that refuses it: the notes of a call are not lost with it. Common practice, no source."""

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import holding
from followup.care.desk import Desk
from followup.records import Store, events, worries
from followup.records.values import Callback
from tests.conftest import NOW, ZONE, Browser, Clock
from tests.pages import parsed
from tests.records.rows import callback

SAID = "She sees a shadow since noon\nand <cannot> come by herself."


@pytest.fixture
def call(store: Store, nurse: Actor, eye_id: str) -> Callback:
    """A call that the nurse has in hand."""
    made = callback(store, eye_id)
    holding.claim(Desk(store, NOW, nurse, ZONE), made.id)
    return made


def kept_words(page: str) -> list[str]:
    """What the page shows to be copied."""
    return ["".join(str(part) for part in box.children).strip("\n") for box in parsed(page).all("textarea", readonly="")]


@pytest.mark.parametrize(("meanwhile", "said"), [("taken over", "claim the callback first"), ("settled", "is settled")])
def test_notes_of_a_call_that_somebody_else_has_by_now_stand_on_the_refusal(
    as_nurse: FlaskClient, store: Store, surgeon: Actor, nurse: Actor, call: Callback, meanwhile: str, said: str
) -> None:
    if meanwhile == "settled":
        worries.settle(store, NOW, call.id, surgeon.id, "advice")
    else:
        holding.take_call_over(Desk(store, NOW, surgeon, ZONE), call.id, nurse.id)
    answer = as_nurse.post(f"/clinic/callbacks/{call.id}/attempt", data={"reached": "patient", "words": SAID})
    assert (answer.status_code, said in answer.text) == (409, True)
    assert kept_words(answer.text) == [SAID]
    assert "<cannot>" not in answer.text
    assert events.history_of(store, call.eye_id) == []


def test_a_form_that_was_open_too_long_gives_back_what_was_written(as_nurse: Browser, call: Callback) -> None:
    as_nurse.tokens = False
    answer = as_nurse.post(f"/clinic/callbacks/{call.id}/attempt", data={"reached": "patient", "words": SAID})
    assert (answer.status_code, kept_words(answer.text)) == (400, [SAID])


def test_the_same_words_stand_once_and_codes_not_at_all(as_nurse: FlaskClient, call: Callback) -> None:
    data = {"reached": "patient", "words": [SAID, SAID, " "], "done": "none", "move-why": "the ward asked"}
    answer = as_nurse.post(f"/clinic/callbacks/{call.id}/attempt", data=data)
    assert answer.status_code == 404
    assert kept_words(answer.text) == [SAID, "the ward asked"]
    assert "none" not in kept_words(answer.text)


@pytest.mark.parametrize("headers", [{"Origin": "https://elsewhere.invalid"}, {"Sec-Fetch-Site": "cross-site"}])
def test_what_another_site_sent_is_not_shown(as_nurse: FlaskClient, call: Callback, headers: dict[str, str]) -> None:
    answer = as_nurse.post(f"/clinic/callbacks/{call.id}/attempt", data={"words": "call +99 instead"}, headers=headers)
    assert answer.status_code == 403
    assert "+99" not in answer.text


def test_nothing_is_shown_to_whoever_is_not_signed_in(client: Browser, call: Callback) -> None:
    answer = client.post("/enrol", data={"code": "ABCD2345", "words": "call +99 instead"})
    assert "+99" not in answer.text
    client.tokens = False  # and a cookie of a session that is over
    answer = client.post("/sign-in", data={"words": "call +99 instead"})
    assert (answer.status_code, "+99" in answer.text) == (400, False)


def later(client: FlaskClient, clock: Clock) -> FlaskClient:
    """The same browser two hours later, without anybody signing in."""
    client.email = ""
    clock.pass_(hours=2)
    return client


def test_what_was_entered_before_the_session_was_over_is_given_back(
    as_nurse: FlaskClient, clock: Clock, eye_id: str
) -> None:
    typed = {"right-acuity": "6/12", "right-iop": "31", "right-notes": SAID, "left-acuity": " "}
    answer = later(as_nurse, clock).post(f"/clinic/eyes/{eye_id}/visit", data=typed)
    assert (answer.status_code, "You were signed out meanwhile" in answer.text) == (401, True)
    assert kept_words(answer.text) == [f"right acuity: 6/12\nright iop: 31\nright notes: {SAID}"]


def test_a_button_pressed_after_the_session_was_over_leads_to_sign_in(
    as_nurse: FlaskClient, clock: Clock, call: Callback
) -> None:
    pressed = {
        f"/clinic/callbacks/{call.id}/claim": {},
        f"/clinic/eyes/{call.eye_id}/arrived": {"visit_id": "v", "show": "today"},
    }
    for path, data in pressed.items():
        answer = later(as_nurse, clock).post(path, data=data)
        assert (answer.status_code, answer.headers["Location"]) == (302, "/sign-in")


def test_of_a_button_with_words_the_words_are_given_back(as_nurse: FlaskClient, clock: Clock, call: Callback) -> None:
    data = {"reached": "patient", "words": SAID, "about": call.id}
    answer = later(as_nurse, clock).post(f"/clinic/callbacks/{call.id}/attempt", data=data)
    assert (answer.status_code, kept_words(answer.text)) == (401, [f"words: {SAID}"])


@pytest.mark.parametrize("path", ["/my-account", "/my-account/second-factor", "/administrator/"])
def test_no_password_is_given_back(as_nurse: FlaskClient, clock: Clock, path: str) -> None:
    answer = later(as_nurse, clock).post(path, data={"old": "a long test password", "password": "a long test password"})
    assert (answer.status_code, "long test" in answer.text) == (302, False)


def test_what_another_site_sends_to_whoever_is_signed_out_is_not_shown(client: FlaskClient, eye_id: str) -> None:
    headers = {"Origin": "https://elsewhere.invalid"}
    answer = client.post(f"/clinic/eyes/{eye_id}/visit", data={"notes": "call +99"}, headers=headers)
    assert (answer.status_code, "+99" in answer.text) == (403, False)


def test_a_page_that_was_only_asked_for_shows_nothing(as_nurse: FlaskClient) -> None:
    answer = as_nurse.get("/clinic/eyes/none?words=call+instead")
    assert (answer.status_code, kept_words(answer.text)) == (404, [])
