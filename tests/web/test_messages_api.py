"""How a phone and a member of staff say how they want to be reached."""

import socket
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.config import Settings
from followup.exchange import outside
from followup.records import Store, messages
from followup.records.values import Device
from followup.web import create_app
from tests.conftest import Clock

POINT = "B" + "A" * 86  # as long as an uncompressed P-256 point in base64url (RFC 8291)
SECRET = "A" * 22
CHOICE: dict[str, Any] = {"email": "pat@test.invalid", "language": "de", "quiet_from": "20:00", "quiet_to": "09:00"}


def subscription(endpoint: str, p256dh: str = POINT, auth: str = SECRET) -> dict[str, Any]:
    return {"endpoint": endpoint, "expirationTime": None, "keys": {"p256dh": p256dh, "auth": auth}}


def test_only_an_enrolled_phone_may_ask(client: FlaskClient) -> None:
    assert client.get("/api/v1/messages").status_code == 401
    assert client.put("/api/v1/messages", json=CHOICE).status_code == 401
    assert client.post("/api/v1/push", json=subscription("https://push.test.invalid/1")).status_code == 401
    assert client.post("/api/v1/clinic/push", json=subscription("https://push.test.invalid/1")).status_code == 401


def test_a_choice_is_kept_and_read_back(as_patient: FlaskClient) -> None:
    before = as_patient.get("/api/v1/messages").json
    assert before is not None
    assert (before["email_possible"], before["choices"]["quiet_from"]) == (False, "21:00:00")
    assert len(before["push_key"]) == 87
    assert as_patient.put("/api/v1/messages", json={**CHOICE, "unwanted": ["visit"]}).status_code == 200
    after = as_patient.get("/api/v1/messages").json
    assert after is not None
    assert after["choices"] == {
        "email": "pat@test.invalid",
        "language": "de",
        "quiet_from": "20:00:00",
        "quiet_to": "09:00:00",
        "unwanted": ["visit"],
    }


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"email": "pat at home"}, "name@example.org"),
        ({"email": "a@b.invalid, c@d.invalid"}, "name@example.org"),
        ({"quiet_from": "25:00"}, ""),
        ({"unwanted": ["everything"]}, "no such kind"),
    ],
)
def test_a_choice_that_cannot_be_is_refused(as_patient: FlaskClient, change: dict[str, Any], said: str) -> None:
    answer = as_patient.put("/api/v1/messages", json={**CHOICE, **change})
    assert answer.status_code == 400
    assert answer.json is not None
    assert said in answer.json["error"]


def test_a_refusal_is_said_in_the_phone_s_language(as_patient: FlaskClient) -> None:
    answer = as_patient.put("/api/v1/messages?language=de", json={**CHOICE, "email": "niemand"})
    assert answer.json == {"error": "Das ist keine E-Mail-Adresse. Schreiben Sie sie wie name@example.org."}


@pytest.fixture
def behind_tls(settings: Settings, store: Store, clock: Clock, token: str) -> FlaskClient:
    """The patient's phone at a clinic that serves real patients."""
    server = settings.server.model_copy(update={"secure_cookies": True})
    app = create_app(settings.model_copy(update={"server": server}), store, clock)
    made = app.test_client()
    made.set_cookie("device", token, secure=True)
    return made


NAMES = {
    "push.example.org": ["93.184.215.14"],
    "leads-inside.example.org": ["10.0.0.5"],
    "both-ways.example.org": ["93.184.215.14", "192.168.1.1"],
}
LOOKED_UP = socket.getaddrinfo


def resolved(host: str, port: int, **kinds: Any) -> list[Any]:
    """Names as a resolver of ours knows them; numbers as the system reads them, in whatever way they are written."""
    if host in NAMES:
        return [(socket.AF_INET, socket.SOCK_STREAM, 6, "", (number, port)) for number in NAMES[host]]
    if host.endswith((".org", ".lan", ".local")):
        raise socket.gaierror(socket.EAI_NONAME, "unknown")
    return LOOKED_UP(host, port, **kinds)


@pytest.mark.parametrize(
    ("endpoint", "status"),
    [
        ("https://push.example.org/abc", 204),
        ("https://93.184.215.14/abc", 204),
        ("http://push.example.org/abc", 400),
        ("https://127.0.0.1/abc", 400),
        ("https://10.0.0.5:9200/", 400),
        ("https://[::1]/", 400),
        ("https://169.254.169.254/latest", 400),
        ("https://intranet/", 400),
        ("https://printer.local/", 400),
        ("https://127.1/", 400),
        ("https://0x7f.1/", 400),
        ("https://2130706433.example.lan/", 400),
        ("https://push.example.lan/", 400),
        ("https://push.example.org:9200/", 400),
        ("https://push.example.org:443/abc", 204),
        ("https://somebody@push.example.org/", 400),
        ("https://leads-inside.example.org/", 400),
        ("https://both-ways.example.org/", 400),
        ("https://not-known.example.org/", 400),
        ("https://[::ffff:10.0.0.5]/", 400),
        ("https://push.example.org:port/", 400),
        ("file:///etc/passwd", 400),
    ],
)
def test_a_phone_cannot_aim_the_server_at_the_hospital_s_own_network(
    behind_tls: FlaskClient, endpoint: str, status: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ways to write 127.0.0.1: inet_aton(3). Which numbers are global: the IANA registries, as `ipaddress` has them."""
    monkeypatch.setattr(outside.socket, "getaddrinfo", resolved)
    answer = behind_tls.post("/api/v1/push", json=subscription(endpoint), base_url="https://localhost")
    assert answer.status_code == status


def test_a_subscription_without_proper_keys_is_refused(as_patient: FlaskClient) -> None:
    assert as_patient.post("/api/v1/push", json=subscription("http://localhost/1", p256dh="short")).status_code == 400
    assert as_patient.post("/api/v1/push", json={}).status_code == 400


def test_a_browser_that_changes_hands_pushes_to_the_new_person_only(
    as_patient: FlaskClient, as_nurse: FlaskClient, store: Store, device: Device
) -> None:
    endpoint = "http://localhost/the-same-browser"
    as_patient.post("/api/v1/push", json=subscription(endpoint))
    as_nurse.post("/api/v1/clinic/push", json=subscription(endpoint))
    assert messages.subscriptions(store, f"patient:{device.patient_id}") == []
    staff = store.row("SELECT id FROM staff WHERE role = 'nurse'")
    assert staff is not None
    assert [s.endpoint for s in messages.subscriptions(store, f"staff:{staff['id']}")] == [endpoint]


def test_staff_begin_with_their_address_and_no_quiet_hours(as_nurse: FlaskClient) -> None:
    page = as_nurse.get("/my-messages").data.decode()
    assert 'value="nurse@test.invalid"' in page
    assert page.count("checked") == 2
    data = {"email": "", "quiet_from": "21:00", "quiet_to": "07:00", "kinds": ["escalation"]}
    assert as_nurse.post("/my-messages", data=data).status_code == 303
    page = as_nurse.get("/my-messages").data.decode()
    assert 'value="21:00"' in page
    assert page.count("checked") == 1
