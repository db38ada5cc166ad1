"""The server is not led inside: neither by a name that resolves anew, nor by an answer that leads elsewhere."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, HTTPServer

import pytest
import requests

from followup.exchange import outside
from followup.exchange.channels import NotDelivered, Push
from followup.exchange.letters import Letter
from followup.exchange.push_keys import new_key
from followup.records.values import Subscription
from tests.exchange.conftest import PushService

LETTER = Letter("Title", "Words.", "/me/")


@contextmanager
def leading_elsewhere(location: str) -> Iterator[tuple[str, list[str]]]:
    """A service that answers with another address; gives its own, and the paths it was asked for."""
    asked: list[str] = []

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            asked.append(self.path)
            self.send_response(307)
            self.send_header("Location", location)
            self.send_header("Content-Length", "0")
            self.end_headers()

        def log_message(self, *_: object) -> None:
            pass

    server = HTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}", asked
    server.shutdown()
    server.server_close()


def test_a_redirect_is_not_followed(push_service: PushService) -> None:
    asked = push_service.subscription()
    with leading_elsewhere("/inside") as (address, paths):
        keys = asked.keys
        subscription = Subscription(f"{address}/push", "patient:1", None, keys.p256dh, keys.auth)
        with pytest.raises(NotDelivered, match="answered 307"):
            Push(subscription, new_key(), "mailto:clinic@test.invalid", anywhere=True).send(LETTER, "en")
    assert paths == ["/push"]


def test_a_name_that_resolves_anew_reaches_nobody_inside(monkeypatch: pytest.MonkeyPatch) -> None:
    """The look before sees a public number; the connection then is made to another, and nothing is said on it."""
    with socket.socket() as inside:
        inside.bind(("127.0.0.1", 0))
        inside.listen()
        inside.settimeout(10)
        port = inside.getsockname()[1]
        with pytest.raises(requests.ConnectionError, match="lies inside"):
            outside.session().post(f"https://localhost:{port}/", timeout=5)
        reached, _ = inside.accept()
        with reached:
            assert reached.recv(100) == b""


def test_a_push_service_that_has_come_to_lie_inside_gets_nothing(push_service: PushService) -> None:
    """Addresses that were kept before they were looked at, or whose name has moved since."""
    asked = push_service.subscription()
    subscription = Subscription("https://10.0.0.5/push", "patient:1", None, asked.keys.p256dh, asked.keys.auth)
    with pytest.raises(NotDelivered, match="lies inside"):
        Push(subscription, new_key(), "mailto:clinic@test.invalid").send(LETTER, "en")


def test_through_a_proxy_names_are_its_own_and_numbers_are_still_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("https_proxy", "http://proxy.example.lan:3128")
    assert outside.leads_inside("https://push.example.org/one") is None
    for endpoint in ("https://127.1/", "https://0x7f.1/", "https://10.0.0.5/", "https://printer.lan/"):
        assert outside.leads_inside(endpoint) is not None
    assert outside.session().trust_env


def test_nothing_goes_out_without_tls() -> None:
    with pytest.raises(requests.exceptions.InvalidSchema):
        outside.session().post("http://push.example.org/", timeout=5)


@pytest.mark.parametrize(
    ("numbers", "inside"),
    [
        (["203.0.114.9"], False),
        (["203.0.114.9", "2a00::7"], False),
        (["203.0.114.9", "10.0.0.7"], True),
        (["192.168.1.1", "203.0.114.9"], True),
        (["::ffff:127.0.0.1"], True),
        (["fd00::1"], True),
        ([], True),
    ],
)
def test_a_name_is_outside_only_when_all_its_numbers_are(
    monkeypatch: pytest.MonkeyPatch, numbers: list[str], inside: bool
) -> None:
    """Private, loopback and unique local numbers: RFC 1918, RFC 6890 2.2, RFC 4193."""
    found = [(2, 1, 6, "", (number, 443)) for number in numbers]
    monkeypatch.setattr(outside.socket, "getaddrinfo", lambda *_, **__: found)
    monkeypatch.setattr(outside, "getproxies", dict)
    assert bool(outside.leads_inside("https://push.example.org/1")) is inside
