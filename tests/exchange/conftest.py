"""Both ends of a message: a real SMTP server and a push service on loopback."""

import base64
import json
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from email.message import EmailMessage
from email.parser import BytesParser
from email.policy import default
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import pytest
from aiosmtpd.controller import Controller
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature

from followup.care.messages.outgoing import Subscription
from tests.conftest import free_port
from tests.exchange.decrypting import decrypted


def base64url(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).decode().rstrip("=")


def from_base64url(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


@dataclass
class Mailbox:
    """An SMTP server that keeps what it takes; set `full` and it refuses."""

    port: int
    full: bool = False
    letters: list[EmailMessage] = field(default_factory=list)

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:  # noqa: N802
        if self.full:
            return "452 no room"
        self.letters.append(BytesParser(policy=default).parsebytes(envelope.content))
        return "250 taken"


@pytest.fixture
def mailbox() -> Iterator[Mailbox]:
    made = Mailbox(free_port())
    controller = Controller(made, hostname="127.0.0.1", port=made.port)
    controller.start()
    yield made
    controller.stop()


class PushService:
    """A push service and the browser behind it: decrypts each push (RFC 8291), checks who signed it (RFC 8292)."""

    def __init__(self) -> None:
        self.status = 201
        self.took: list[dict[str, Any]] = []
        self.raw: list[bytes] = []
        self.signers: list[str] = []
        self.claims: list[dict[str, Any]] = []
        self._key = ec.generate_private_key(ec.SECP256R1())
        self._secret = bytes(range(16))
        service = self

        class Handler(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                body = self.rfile.read(int(self.headers["Content-Length"]))
                if service.status == 201:
                    service.take(body, self.headers["Authorization"], self.headers["Content-Encoding"])
                self.send_response(service.status)
                self.send_header("Content-Length", "0")
                self.end_headers()

            def log_message(self, *_: Any) -> None:
                pass

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    @property
    def origin(self) -> str:
        return f"http://127.0.0.1:{self.server.server_port}"

    def subscription(self, name: str = "one") -> Subscription:
        """As a browser's `PushSubscription.toJSON` gives it."""
        point = self._key.public_key().public_bytes(
            serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint
        )
        keys = {"p256dh": base64url(point), "auth": base64url(self._secret)}
        return Subscription.model_validate({"endpoint": f"{self.origin}/{name}", "expirationTime": None, "keys": keys})

    def take(self, body: bytes, authorization: str, encoding: str) -> None:
        self.raw.append(body)
        assert encoding == "aes128gcm"
        self.took.append(json.loads(decrypted(body, self._key, self._secret)))
        fields = dict(part.strip().split("=", 1) for part in authorization.removeprefix("vapid ").split(","))
        signed, _, signature = fields["t"].rpartition(".")
        raw = from_base64url(signature)
        point = from_base64url(fields["k"])
        signer = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), point)
        both = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
        signer.verify(both, signed.encode(), ec.ECDSA(hashes.SHA256()))
        self.signers.append(fields["k"])
        self.claims.append(json.loads(from_base64url(signed.split(".")[1])))


@pytest.fixture
def push_service() -> Iterator[PushService]:
    made = PushService()
    yield made
    made.server.shutdown()
    made.server.server_close()
