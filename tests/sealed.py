"""Seals as a browser does, by another implementation of the same standards: RSA-OAEP with SHA-256, AES-256-GCM."""

import base64
import json
import os
from typing import Any

from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import padding, rsa
from cryptography.hazmat.primitives.ciphers.aead import AESGCM


def seal(public: str, content: Any) -> dict[str, str]:
    key, iv = os.urandom(32), os.urandom(12)
    loaded = serialization.load_der_public_key(base64.b64decode(public))
    assert isinstance(loaded, rsa.RSAPublicKey)
    wrapped = loaded.encrypt(key, padding.OAEP(padding.MGF1(hashes.SHA256()), hashes.SHA256(), None))
    data = AESGCM(key).encrypt(iv, json.dumps(content).encode(), None)
    return {name: base64.b64encode(value).decode() for name, value in (("key", wrapped), ("iv", iv), ("data", data))}
