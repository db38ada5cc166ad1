"""What every answer says of itself: who may keep it, who may frame it, and what it may load; refusals as well as pages.

Headers: RFC 9111 (caching), Content Security Policy Level 3 (W3C), Referrer Policy (W3C), and the Fetch standard (WHATWG)
for nosniff.
"""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, audit, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Device
from followup.web.routes import ROUTES
from tests.conftest import NOW, ZONE, Browser
from tests.pages import parsed

# What a browser may keep: nothing of a patient, and of the rest only after asking again, but for a table that is printed
# in every book.
KEPT = {"/me/": "no-cache", "/me/later": "no-cache", "/sw.js": "no-cache", "/clinic/sw.js": "no-cache"}
KEPT |= {"/manifest.webmanifest": "no-cache", "/api/v1/acuity-table": "public, max-age=86400"}
OPEN_TO_ALL = [
    "/", "/sign-in", "/enrol", "/me/", "/me/later", "/sw.js", "/clinic/sw.js", "/api/v1/openapi.json",
    "/api/v1/acuity-table", "/api/v1/known", "/manifest.webmanifest", "/clinic/without-signal",
]  # fmt: skip
REFUSED = {"/nowhere": 404, "/clinic/": 302, "/api/v1/pack": 401, "/api/v1/nowhere": 404, "/surgeon/": 302}


@pytest.mark.parametrize("path", OPEN_TO_ALL)
def test_nothing_is_kept_that_is_not_the_same_for_everybody(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, KEPT.get(path, "no-store"))


@pytest.mark.parametrize(("path", "status"), REFUSED.items())
def test_a_refusal_is_not_kept_and_frames_nothing_either(client: FlaskClient, path: str, status: int) -> None:
    answer = client.get(path)
    assert (answer.status_code, answer.headers["Cache-Control"]) == (status, "no-store")
    assert "frame-ancestors 'none'" in answer.headers["Content-Security-Policy"]
    assert answer.headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize(
    "path", ["/clinic/", "/clinic/callbacks", "/clinic/handover", "/my-account", "/api/v1/clinic/daysheet"]
)
def test_what_staff_read_is_kept_by_no_browser(as_nurse: FlaskClient, path: str) -> None:
    answer = as_nurse.get(path)
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-store")


@pytest.mark.parametrize("path", ["/api/v1/pack", "/api/v1/messages", "/api/v1/helpers"])
def test_what_a_phone_reads_is_kept_by_the_phone_itself_and_not_on_the_way(as_patient: FlaskClient, path: str) -> None:
    answer = as_patient.get(path)
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-store")


@pytest.mark.parametrize(
    "directive", ["object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'", "form-action 'self'"]
)
def test_a_page_loads_frames_and_sends_inside_only(client: FlaskClient, directive: str) -> None:
    said = client.get("/sign-in").headers["Content-Security-Policy"]
    assert directive in said.split("; ")
    assert "unsafe" not in said


def test_no_page_asks_for_camera_microphone_or_place(client: FlaskClient) -> None:
    assert client.get("/").headers["Permissions-Policy"] == "camera=(), microphone=(), geolocation=()"


@pytest.mark.parametrize("path", ["/", "/sign-in", "/enrol", "/me/", "/clinic/without-signal"])
def test_no_page_has_a_script_or_style_of_its_own_in_it(client: FlaskClient, path: str) -> None:
    """With `default-src 'self'` a browser runs none that stands in the page (Content Security Policy Level 3)."""
    answer = client.get(path)
    assert answer.status_code == 200
    page = parsed(answer.text)
    assert [s.get("src") for s in page.all("script") if not s.get("src") and s.get("type") != "application/json"] == []
    assert page.all("style") == []
    assert [e.tag for e in page if any(name.startswith("on") or name == "style" for name in e.attributes)] == []


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
def test_what_a_page_does_not_take_is_said_with_its_status(client: FlaskClient, method: str) -> None:
    """What it does take stands in `Allow`: RFC 9110, section 15.5.6."""
    for path in ("/health", "/api/v1/known"):
        answer = client.open(path, method=method, json={} if "api" in path else None)
        assert (answer.status_code, answer.headers["Allow"]) == (405, "GET, HEAD, OPTIONS")


def test_head_tells_what_get_would(client: FlaskClient) -> None:
    got, headed = client.get("/sign-in"), client.head("/sign-in")
    assert (headed.status_code, headed.data) == (got.status_code, b"")
    assert headed.headers["Cache-Control"] == got.headers["Cache-Control"]


def test_a_head_is_kept_out_where_a_get_is(client: FlaskClient, as_nurse: FlaskClient) -> None:
    assert client.head("/clinic/").status_code == 302
    assert as_nurse.head("/surgeon/").status_code == 403
    assert client.head("/api/v1/pack").status_code == 401


@pytest.mark.parametrize(
    ("path", "body", "status"),
    [
        ("/api/v1/events", {"events": "x"}, 400),
        ("/api/v1/events", {"events": [{}] * 201}, 413),
        ("/api/v1/messages", {"quiet_from": "25:00"}, 400),
        ("/api/v1/helpers", {"name": " "}, 403),
        ("/api/v1/helpers", {}, 400),
        ("/api/v1/helpers/none/remove", None, 404),
        ("/api/v1/sealed", {"sealed": [{}]}, 400),
        ("/api/v1/push", {"endpoint": "x"}, 400),
    ],
)
def test_an_interface_refuses_in_json_with_a_word(as_patient: FlaskClient, path: str, body: object, status: int) -> None:
    answer = as_patient.open(path, method="PUT" if path.endswith("messages") else "POST", json=body)
    assert (answer.status_code, answer.mimetype) == (status, "application/json")
    assert list(answer.get_json()) == ["error"]
    assert answer.get_json()["error"]


def test_whoever_is_not_let_in_is_told_at_the_interface_and_led_to_sign_in_on_a_page(client: FlaskClient) -> None:
    answer = client.get("/api/v1/clinic/daysheet")
    assert (answer.status_code, answer.get_json()) == (401, {"error": "nobody is signed in"})
    page = client.get("/clinic/callbacks?page=2")
    assert page.headers["Location"] == "/sign-in?next=/clinic/callbacks?page%3D2"
    sent = client.post("/clinic/discharge", data={})
    assert sent.headers["Location"] == "/sign-in"


@pytest.mark.parametrize(
    "path", ["/surgeon/", "/surgeon/results", "/surgeon/export.zip", "/administrator/", "/administrator/audit"]
)
def test_a_nurse_is_told_that_the_account_does_not_reach(as_nurse: FlaskClient, path: str) -> None:
    answer = as_nurse.get(path)
    assert answer.status_code == 403
    assert "Your account does not reach this page." in answer.text


@pytest.mark.parametrize(
    "path", ["/clinic/eyes/none", "/clinic/patients/none", "/clinic/callbacks/none", "/clinic/visits/none"]
)
def test_what_is_not_there_names_nobody(as_nurse: FlaskClient, eye_id: str, path: str) -> None:
    answer = as_nurse.get(path)
    assert answer.status_code == 404
    assert "Pat Patient" not in answer.text


def test_what_is_refused_leaves_no_trace_of_having_been_read(as_nurse: FlaskClient, store: Store) -> None:
    """On record is what somebody was shown."""
    for path in ("/clinic/eyes/none", "/surgeon/results"):
        as_nurse.get(path)
    assert store.rows("SELECT page FROM pages_opened") == []
    as_nurse.get("/clinic/")
    assert store.rows("SELECT page, about FROM pages_opened") == [{"page": "clinic.today", "about": ""}]


def test_a_head_and_a_page_for_everybody_are_on_no_record(as_nurse: FlaskClient, store: Store) -> None:
    as_nurse.head("/clinic/")
    as_nurse.get("/enrol")
    assert store.rows("SELECT page FROM pages_opened") == []


def test_the_table_of_routes_lets_nobody_write_where_anybody_reads_but_at_the_doors() -> None:
    """Whoever opens a write to anybody names it here too."""
    open_writes = {name for name, route in ROUTES.items() if route.write == "anybody"}
    assert open_writes == {
        "account.sign_in", "account.second_step", "account.passkey", "account.second_step_by_passkey", "account.sign_out",
        "account.forgotten", "account.new_password", "patient.enrolment", "clinic_api.leave", "clinic_api.entries",
    }  # fmt: skip


# --- Nothing is lost on a refused form ---


@pytest.fixture
def call(store: Store, nurse: Actor, eye_id: str) -> str:
    """The pressure callback of an eye at 34 mmHg."""
    bodies = [MeasuresBody(eye="right", iop_mmhg=34, instrument="applanation")]
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, bodies)
    return next(c.id for c in worries.open_callbacks(store) if c.worry == "pressure")


FORMS: list[tuple[str, dict[str, str]]] = [
    ("/clinic/eyes/{eye}/visits/new", {"name": "second look", "reason": "as her sister asked"}),
    ("/clinic/eyes/{eye}/walk-in", {"reason": "x" * 201}),
    ("/clinic/eyes/{eye}/end", {"words": "went home to the hills"}),
    ("/clinic/patients/{patient}/consent", {"words": "Dana Daughter", "given": "no"}),
    ("/clinic/patients/{patient}/particulars", {"name": "", "phone": "+00 1 23"}),
    ("/clinic/patients/{patient}/reached-by", {"carer_phone": "+00 1 23"}),
    ("/clinic/visits/{visit}", {"cancel-why": "x" * 201}),
    ("/clinic/visits/{visit}", {"away-words": "her son had the car"}),
    ("/clinic/visits/{visit}", {"move-target": "next Tuesday"}),
    ("/clinic/eyes/{eye}/diary", {"words": "it itched", "pain": "11"}),
    ("/clinic/eyes/{eye}/plan", {"notes": "lies on her side", "percent": "much"}),
    ("/clinic/eyes/{eye}/visit", {"right-iop": "9l", "right-notes": "measured twice"}),
    ("/clinic/discharge", {"name": "Una Person", "notes": "as dictated", "drops": "what she had"}),
    ("/my-messages", {"email": "nowhere"}),
]
# The button that was pressed: a page has three forms on it.
PRESSED = {"cancel-why": "cancel", "away-words": "away", "move-target": "move"}


@pytest.mark.parametrize(("path", "typed"), FORMS, ids=[f"{path} {next(iter(typed))}" for path, typed in FORMS])
def test_what_was_typed_stands_in_the_form_that_was_refused(
    as_nurse: FlaskClient, store: Store, device: Device, eye_id: str, path: str, typed: dict[str, str]
) -> None:
    ids = {"eye": eye_id, "patient": device.patient_id, "visit": visits.of_eye(store, eye_id)[0].identity}
    before, do = audit.head(store), {"do": PRESSED.get(next(iter(typed)), "")}
    answer = as_nurse.post(path.format(**ids), data={**typed, **do})
    held = parsed(answer.text).sends
    assert ({name: held.get(name) for name in typed}, answer.status_code) == (typed, 400)
    assert audit.head(store) == before


def test_a_form_without_its_token_is_told_in_words_and_changes_nothing(app: Flask, as_nurse: Browser, call: str) -> None:
    as_nurse.tokens = False
    answer = as_nurse.post(f"/clinic/callbacks/{call}/claim", data={})
    assert answer.status_code == 400
    assert "This form was open too long" in answer.text
    assert app.extensions["followup"].store.rows("SELECT state FROM callbacks WHERE claimed_by IS NOT NULL") == []
