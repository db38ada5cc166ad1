"""Mail leaves under TLS to a server whose certificate holds, or not at all (RFC 3207 for STARTTLS, RFC 8314 3.3 for TLS)."""

import ssl
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path
from typing import Any

import pytest
from aiosmtpd.controller import Controller
from aiosmtpd.smtp import AuthResult, LoginPassword
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from followup.config import Messages
from followup.exchange.channels import Email, NotDelivered
from followup.exchange.letters import Letter
from tests.conftest import free_port

LETTER = Letter("Audit chain", "Keep this.", "/administrator/audit")


@dataclass
class Taken:
    """What a mail server took: under TLS or not, and from whom it was told to be."""

    secure: list[bool] = field(default_factory=list)
    users: list[bytes] = field(default_factory=list)

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:  # noqa: N802
        self.secure.append(
            session.ssl is not None or isinstance(server.transport.get_extra_info("sslcontext"), ssl.SSLContext)
        )
        return "250 taken"

    def signs_in(self, server: Any, session: Any, envelope: Any, mechanism: str, data: Any) -> AuthResult:
        assert isinstance(data, LoginPassword)
        self.users.append(data.login)
        return AuthResult(success=data.password == b"a secret", handled=False)  # so that the refusal is said, too


@pytest.fixture
def certificate(tmp_path: Path) -> Path:
    """A certificate for 127.0.0.1 that signs itself, with its key in one file."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "mail.test.invalid")])
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(1)
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ip_address("127.0.0.1"))]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .sign(key, hashes.SHA256())
    )
    pem = key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    file = tmp_path / "mail.pem"
    file.write_bytes(made.public_bytes(serialization.Encoding.PEM) + pem)
    return file


Serve = Callable[[str], tuple[Taken, Messages]]


@pytest.fixture
def serve(certificate: Path) -> Iterator[Serve]:
    """Starts a mail server that speaks in a way: `starttls`, `tls`, or `plain` for one that offers neither."""
    running: list[Controller] = []

    def start(way: str) -> tuple[Taken, Messages]:
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(certificate)
        how: dict[str, Any] = {"tls": {"ssl_context": context}, "starttls": {"tls_context": context}, "plain": {}}[way]
        taken, port = Taken(), free_port()
        auth = {"authenticator": taken.signs_in, "auth_require_tls": way == "starttls"}
        server = Controller(taken, hostname="127.0.0.1", port=port, **how, **auth)
        server.start()
        running.append(server)
        security = "tls" if way == "tls" else "starttls"
        sender = "clinic@test.invalid"
        return taken, Messages(smtp_host="127.0.0.1", smtp_port=port, smtp_security=security, sender=sender)

    yield start
    for server in running:
        server.stop()


def send(settings: Messages) -> None:
    Email(settings, "nurse@test.invalid", "Test Eye Clinic", "https://eyes.test.invalid").send(LETTER, "en")


@pytest.mark.parametrize("way", ["starttls", "tls"])
def test_mail_goes_under_tls_where_the_certificate_holds(
    serve: Serve, certificate: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate))
    taken, settings = serve(way)
    send(settings)
    assert taken.secure == [True]


@pytest.mark.parametrize("way", ["starttls", "tls"])
def test_a_certificate_that_nobody_vouches_for_gets_no_mail(serve: Serve, way: str) -> None:
    taken, settings = serve(way)
    with pytest.raises(NotDelivered, match="certificate"):
        send(settings)
    assert taken.secure == []


def test_a_server_without_tls_gets_no_mail(serve: Serve) -> None:
    taken, settings = serve("plain")
    with pytest.raises(NotDelivered, match="STARTTLS"):
        send(settings)
    assert taken.secure == []


def test_where_the_settings_name_a_user_mail_is_sent_as_that_user(
    serve: Serve, certificate: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate))
    taken, settings = serve("starttls")
    send(settings.model_copy(update={"smtp_user": "clinic", "smtp_password": "a secret"}))
    assert taken.users == [b"clinic"]
    with pytest.raises(NotDelivered):
        send(settings.model_copy(update={"smtp_user": "clinic", "smtp_password": "another"}))
