"""A directory in a process of its own on this machine: OpenID Connect Core 1.0 (3.1, 10.1), Discovery 1.0, RFC 7636, from memory.

`python -m tests.provider` prints its address. It lets in whoever it is told to, and lies as it is told to: POST /control with
`claims` (in the place of its own), `alg`, `stranger` (a key that it does not show), `down`, `deny`, `error`, `long`,
`described` (of itself), `back` (with the code).
"""

import base64
import hashlib
import hmac
import json
import secrets
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, urlencode, urlsplit

from joserfc import jwt
from joserfc.jwk import RSAKey

CLIENT, SECRET = "followup", "a secret of the directory"
NOBODY = {"sub": "person-7", "email": "nurse@test.invalid", "email_verified": True}


def _base64(content: bytes) -> str:
    return base64.urlsafe_b64encode(content).decode().rstrip("=")


class Escaped(json.JSONEncoder):
    """Says also what is no text."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**{**how, "ensure_ascii": True})


class Provider(BaseHTTPRequestHandler):
    key, stranger = RSAKey.generate_key(2048, {"kid": "1"}), RSAKey.generate_key(2048, {"kid": "1"})
    codes: dict[str, dict[str, str]] = {}  # noqa: RUF012
    told: dict[str, Any] = {}  # noqa: RUF012
    asked: list[str] = []  # noqa: RUF012

    @property
    def here(self) -> str:
        return f"http://127.0.0.1:{self.server.server_address[1]}"

    def do_GET(self) -> None:
        path, asked = urlsplit(self.path).path, {k: v[0] for k, v in parse_qs(urlsplit(self.path).query).items()}
        self.asked.append(path)
        if self.told.get("down"):
            self.answer(503, {})
        elif path == "/.well-known/openid-configuration":
            where = {name: f"{self.here}/{name}" for name in ("authorize", "token", "jwks")}
            known = {"issuer": self.here, "authorization_endpoint": where["authorize"], "token_endpoint": where["token"]}
            known |= {"jwks_uri": where["jwks"], "response_types_supported": ["code"], **self.told.get("described", {})}
            self.answer(200, known | ({"more": "x" * 300_000} if self.told.get("long") else {}))
        elif path == "/jwks":
            self.answer(200, {"keys": [self.key.as_dict(private=False)]})
        elif path == "/authorize" and self.told.get("deny"):
            self.lead(
                asked["redirect_uri"], {"error": "access_denied", "error_description": "<b>no</b>", "state": asked["state"]}
            )
        elif path == "/authorize":
            code = secrets.token_urlsafe(16)
            self.codes[code] = asked
            self.lead(asked["redirect_uri"], {"code": code, "state": asked["state"]})
        elif path == "/asked":
            self.answer(200, {"asked": self.asked})
        else:
            self.answer(404, {})

    def do_POST(self) -> None:
        sent = self.rfile.read(int(self.headers.get("Content-Length", 0))).decode()
        if self.path == "/control":
            type(self).told = json.loads(sent)
            self.asked.clear()
            return self.answer(200, {})
        form = {k: v[0] for k, v in parse_qs(sent).items()}
        begun = self.codes.pop(form.get("code", ""), None)
        basic = [base64.b64encode(f"{CLIENT}:{known}".encode()).decode() for known in (SECRET, SECRET.replace(" ", "%20"))]
        challenge = _base64(hashlib.sha256(form.get("code_verifier", "").encode()).digest())
        if (self.headers.get("Authorization") or "").removeprefix("Basic ") not in basic:
            return self.answer(401, {"error": "invalid_client"})
        if error := self.told.get("error"):
            return self.answer(400, {"error": error})
        if begun is None or begun["redirect_uri"] != form.get("redirect_uri"):
            return self.answer(400, {"error": "invalid_grant"})
        if begun.get("code_challenge_method") != "S256" or begun["code_challenge"] != challenge:
            return self.answer(400, {"error": "invalid_grant"})
        self.answer(200, {"access_token": "x", "token_type": "Bearer", "id_token": self.id_token(begun)})

    def id_token(self, begun: dict[str, str]) -> str:
        now, alg = int(time.time()), self.told.get("alg", "RS256")
        claims = {"iss": self.here, "aud": CLIENT, "iat": now, "exp": now + 300, "nonce": begun["nonce"], **NOBODY}
        claims = {k: v for k, v in {**claims, **self.told.get("claims", {})}.items() if v is not None}
        if alg in ("none", "HS256"):  # not signed, or with what everybody may read
            parts = ".".join(_base64(json.dumps(part).encode()) for part in ({"alg": alg, "kid": "1"}, claims))
            public = self.key.as_pem(private=False)
            return f"{parts}.{_base64(hmac.digest(public, parts.encode(), 'sha256')) if alg == 'HS256' else ''}"
        key = self.stranger if self.told.get("stranger") else self.key
        return jwt.encode({"alg": alg, "kid": "1"}, claims, key, encoder_cls=Escaped)

    def lead(self, to: str, with_: dict[str, str]) -> None:
        self.send_response(302)
        self.send_header("Location", f"{to}?{urlencode({**with_, **self.told.get('back', {})})}")
        self.end_headers()

    def answer(self, status: int, content: dict[str, Any]) -> None:
        body = json.dumps(content).encode()
        self.send_response(status)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *args: Any) -> None:
        """Nothing."""


if __name__ == "__main__":
    served = ThreadingHTTPServer(("127.0.0.1", 0), Provider)
    print(f"http://127.0.0.1:{served.server_address[1]}", flush=True)
    served.serve_forever()
