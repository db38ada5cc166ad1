"""The clinic's own directory says who somebody is: OpenID Connect Core 1.0, the code flow with PKCE (RFC 7636).

It is whom the settings name, reached over TLS, within seconds, without following it elsewhere. What it says counts only where
its signature, issuer, audience, time and nonce are right; who of the clinic that is, and as what, is for `care` to say.
"""

import io
import threading
import time
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import urlsplit

import requests
from authlib.common.security import generate_token
from authlib.integrations.requests_client import OAuth2Session
from authlib.oidc.core import CodeIDToken
from joserfc import jwt
from joserfc.jwk import KeySet
from urllib3.exceptions import HTTPError

from followup.config import loopback
from followup.errors import FollowupError
from followup.records.times import from_text, to_text

ALGORITHMS = ("RS256", "RS384", "RS512", "PS256", "PS384", "PS512", "ES256", "ES384", "ES512", "EdDSA", "Ed25519")
HOLDS = timedelta(minutes=10)  # for whoever has to find a phone; common practice, no source
SECONDS = 5  # without a word from it
SECONDS_IN_ALL = 10
LARGEST_BYTES = 200_000
LONGEST_SUBJECT = 255  # ASCII characters (OpenID Connect Core 1.0, 2)
CLOCKS_DIFFER_SECONDS = 60
AT_A_TIME, IN_ALL = 2, 3  # of one directory and of all, in one worker of four threads: those that hang leave one for pages
KEPT_SECONDS = 300
_turns: dict[str, threading.BoundedSemaphore] = {}
_any_turn = threading.BoundedSemaphore(IN_ALL)
_kept: dict[str, tuple[float, dict[str, Any]]] = {}


class Away(FollowupError):
    """The directory does not answer, or not as one."""


class Untrue(FollowupError):
    """What came back does not show who somebody is. The message says why, for the audit and nobody else."""


@dataclass(frozen=True, slots=True)
class Directory:
    """Whom the settings name; `back` is the address of ours to which it leads back."""

    issuer: str
    client_id: str
    client_secret: str
    back: str


@dataclass(frozen=True, slots=True)
class Begun:
    """What this browser keeps, sealed, until the directory leads back: each value is random and for one sign-in."""

    state: str
    nonce: str
    verifier: str
    at: str
    next: str

    @property
    def kept(self) -> dict[str, str]:
        return asdict(self)

    def holds(self, now: datetime) -> bool:
        return timedelta(0) <= now - from_text(self.at) < HOLDS


@dataclass(frozen=True, slots=True)
class Person:
    """Who the directory says it is."""

    subject: str
    email: str
    verified: bool


def begin(directory: Directory, now: datetime, next: str) -> tuple[str, Begun]:
    """Where to lead a browser, and what it keeps. Raises `Away`."""
    with _reached(directory) as session:
        known = _described(session, directory)
        begun = Begun(generate_token(43), generate_token(43), generate_token(64), to_text(now), next)
        asked = {"nonce": begun.nonce, "prompt": "login"}  # devices are shared: whoever was there before is not meant
        address, _ = session.create_authorization_url(
            known["authorization_endpoint"], state=begun.state, code_verifier=begun.verifier, **asked
        )
    return str(address), begun


def finish(directory: Directory, now: datetime, begun: Begun, code: str) -> Person:
    """Who it is, by the code that came back with the state of `begun`. Raises `Away`, `Untrue`."""
    with _reached(directory) as session:
        known = _described(session, directory)
        try:
            told = session.fetch_token(
                known["token_endpoint"], grant_type="authorization_code", code=code, code_verifier=begun.verifier
            )
        except requests.RequestException:
            raise
        except Exception as error:  # it takes no code of another sign-in, of another client, or twice
            raise Untrue(f"code: {getattr(error, 'error', '')}") from error
        keys = _json(session, known["jwks_uri"])
    return _person(directory, now, begun, told, keys)


def _person(directory: Directory, now: datetime, begun: Begun, told: dict[str, Any], keys: dict[str, Any]) -> Person:
    try:
        token = jwt.decode(str(told["id_token"]), KeySet.import_key_set(keys), algorithms=list(ALGORITHMS))  # type: ignore[arg-type]
        options = {"iss": {"value": directory.issuer}, "aud": {"value": directory.client_id}}
        params = {"nonce": begun.nonce, "client_id": directory.client_id, "access_token": told.get("access_token")}
        claims = CodeIDToken(token.claims, token.header, options, params)
        claims.validate(int(now.timestamp()), CLOCKS_DIFFER_SECONDS)
    except Exception as error:  # whatever can be wrong with what somebody signed
        claim = getattr(error, "claim", None) or getattr(error, "claim_name", None)
        raise Untrue(str(claim or type(error).__name__)) from error
    subject, email = str(claims["sub"]), str(claims.get("email") or "")
    if not subject.isascii() or not subject.isprintable() or len(subject) > LONGEST_SUBJECT:
        raise Untrue("sub")
    return Person(subject, email if email.isprintable() else "", claims.get("email_verified") is True)


def turn(issuer: str) -> threading.BoundedSemaphore:
    """The places of one directory, by whatever clinics name it."""
    return _turns.setdefault(issuer, threading.BoundedSemaphore(AT_A_TIME))


class _reached:  # noqa: N801
    """A session with the directory, in its turn; faults of the line are `Away`."""

    def __init__(self, directory: Directory) -> None:
        self._turn = turn(directory.issuer)
        self.session = _Session(
            directory.client_id,
            directory.client_secret,
            scope="openid email",
            redirect_uri=directory.back,
            code_challenge_method="S256",
        )

    def __enter__(self) -> "_Session":
        if not self._turn.acquire(timeout=1):
            raise Away("busy")
        if not _any_turn.acquire(timeout=1):
            self._turn.release()
            raise Away("busy")
        return self.session

    def __exit__(self, kind: Any, error: BaseException | None, trace: Any) -> None:
        self.session.close()
        _any_turn.release()
        self._turn.release()
        if isinstance(error, requests.RequestException | OSError | KeyError | ValueError):
            raise Away(type(error).__name__) from error


class _Session(OAuth2Session):  # type: ignore[misc]
    """Follows nobody elsewhere, waits seconds, and reads no more than an answer can be."""

    def send(self, request: requests.PreparedRequest, **kwargs: Any) -> requests.Response:
        kwargs |= {"allow_redirects": False, "stream": True, "timeout": SECONDS}
        answer: requests.Response = super().send(request, **kwargs)
        try:
            read, until = b"", time.monotonic() + SECONDS_IN_ALL
            while piece := answer.raw.read1(65_536, decode_content=True):
                read += piece
                if len(read) > LARGEST_BYTES or time.monotonic() > until:
                    raise requests.Timeout("too long an answer")
        except HTTPError as error:
            raise requests.ConnectionError("the line broke") from error
        finally:
            answer.close()
        answer.raw = io.BytesIO(read)
        return answer


def _described(session: _Session, directory: Directory) -> dict[str, Any]:
    """What the directory says of itself (OpenID Connect Discovery 1.0); it has to name itself as the settings do (4.3)."""
    at, known = _kept.get(directory.issuer, (0.0, {}))
    if known and time.monotonic() - at < KEPT_SECONDS:
        return known
    known = _json(session, f"{directory.issuer.rstrip('/')}/.well-known/openid-configuration")
    if known.get("issuer") != directory.issuer:
        raise Away("issuer")
    for name in ("authorization_endpoint", "token_endpoint", "jwks_uri"):
        if not _safe(str(known.get(name, "")), directory.issuer):
            raise Away(name)
    _kept[directory.issuer] = time.monotonic(), known
    return known


def _safe(address: str, issuer: str) -> bool:
    """Whether an address is reached over TLS, or stays on this machine as the issuer does."""
    return urlsplit(address).scheme == "https" or (loopback(issuer) and loopback(address))


def _json(session: _Session, address: str) -> dict[str, Any]:
    answer = session.get(address, withhold_token=True)
    if answer.status_code != 200:
        raise Away(str(answer.status_code))
    told = answer.json()
    if not isinstance(told, dict):
        raise Away("no object")
    return told
