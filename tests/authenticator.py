"""A device with passkeys, as far as a server sees it: W3C, Web Authentication Level 3, sections 5.8.1, 6.1 and 6.5, from memory.

Chromium's own virtual device does the same in `tests/browser/test_passkeys.py`; the standard's vectors are in
`tests/care/test_passkeys.py`.
"""

import hashlib
import json
import secrets
from dataclasses import dataclass, field
from typing import Any

import cbor2
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from webauthn import base64url_to_bytes
from webauthn.helpers import bytes_to_base64url as b64

PRESENT, VERIFIED, ATTESTED = 1, 4, 64


@dataclass
class Authenticator:
    """Holds one passkey. What is set before an answer says in which way it is wrong; `more` goes into the client data."""

    origin: str = "https://eyes.example"
    flags: int = PRESENT | VERIFIED
    count: int = 0
    step: int = 1
    more: dict[str, Any] = field(default_factory=dict)
    key: ec.EllipticCurvePrivateKey = field(default_factory=lambda: ec.generate_private_key(ec.SECP256R1()))
    id: bytes = field(default_factory=lambda: secrets.token_bytes(16))
    handle: bytes | None = None
    rp_id: str | None = None

    def make(self, options: str) -> str:
        """What a browser answers that was asked for a new passkey."""
        asked = json.loads(options)
        self.handle = base64url_to_bytes(asked["user"]["id"])
        numbers = self.key.public_key().public_numbers()
        x, y = numbers.x.to_bytes(32, "big"), numbers.y.to_bytes(32, "big")
        public = cbor2.dumps({1: 2, 3: -7, -1: 1, -2: x, -3: y})
        held = bytes(16) + len(self.id).to_bytes(2, "big") + self.id + public
        data = self._data(self.rp_id or asked["rp"]["id"], self.flags | ATTESTED) + held
        attestation = cbor2.dumps({"fmt": "none", "attStmt": {}, "authData": data})
        client = self._client("webauthn.create", asked["challenge"])
        return self._answer({"clientDataJSON": b64(client), "attestationObject": b64(attestation)})

    def sign(self, options: str) -> str:
        """What a browser answers that was asked for this passkey."""
        asked = json.loads(options)
        self.count += self.step
        data = self._data(self.rp_id or asked["rpId"], self.flags)
        client = self._client("webauthn.get", asked["challenge"])
        signature = self.key.sign(data + hashlib.sha256(client).digest(), ec.ECDSA(hashes.SHA256()))
        told = {"clientDataJSON": b64(client), "authenticatorData": b64(data), "signature": b64(signature)}
        return self._answer(told | ({"userHandle": b64(self.handle)} if self.handle else {}))

    def _data(self, rp_id: str, flags: int) -> bytes:
        return hashlib.sha256(rp_id.encode()).digest() + bytes([flags]) + self.count.to_bytes(4, "big")

    def _client(self, kind: str, challenge: str) -> bytes:
        told = {"type": kind, "challenge": challenge, "origin": self.origin, "crossOrigin": False}
        return json.dumps({**told, **self.more}).encode()

    def _answer(self, response: dict[str, str]) -> str:
        return json.dumps({"id": b64(self.id), "rawId": b64(self.id), "type": "public-key", "response": response})
