"""What a device could not send: sealed there with the clinic's public key, readable only here.

Each sealed packet is AES-256-GCM under a key of its own, which is wrapped with RSA-OAEP (SHA-256).
"""

import base64
import json
from datetime import UTC, datetime
from functools import lru_cache
from typing import Annotated, Any

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import padding, rsa
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from pydantic import Base64Bytes, BaseModel, ConfigDict, Field

from followup.records import Store, keys

KEY_BITS = 3072
MOST_BYTES = 1_000_000


class Sealed(BaseModel):
    """One packet: wrapped key, nonce and ciphertext, each base64."""

    model_config = ConfigDict(extra="forbid")

    key: Base64Bytes
    iv: Base64Bytes
    data: Annotated[Base64Bytes, Field(max_length=MOST_BYTES)]


def public_key(store: Store) -> str:
    """The clinic's sealing key as base64 SubjectPublicKeyInfo, made on first use."""
    spki = (
        _private_key(store)
        .public_key()
        .public_bytes(serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo)
    )
    return base64.b64encode(spki).decode()


def opened(store: Store, sealed: Sealed) -> Any:
    """What a packet holds. Raises ValueError if it was not sealed for this clinic."""
    try:
        return json.loads(AESGCM(_unwrapped(store, sealed.key)).decrypt(sealed.iv, sealed.data, None))
    except (ValueError, InvalidTag, RecursionError) as error:
        raise ValueError("this packet was not sealed for this clinic") from error


def _unwrapped(store: Store, wrapped: bytes) -> bytes:
    """A packet's key, by the clinic's key of now or by that of before. Raises ValueError."""
    oaep = padding.OAEP(padding.MGF1(hashes.SHA256()), hashes.SHA256(), None)
    try:
        return _private_key(store).decrypt(wrapped, oaep)
    except ValueError:
        for pem in keys.former(store, "sealing_key", datetime.now(UTC)):
            return _read(pem).decrypt(wrapped, oaep)
        raise


def opened_entries(store: Store, sealed: Sealed) -> list[Any]:
    """The entries of a phone's packet. Raises ValueError if it holds anything else."""
    entries = opened(store, sealed)
    if not isinstance(entries, list):
        raise ValueError("a packet holds a list of entries")
    return entries


def _private_key(store: Store) -> rsa.RSAPrivateKey:
    return _read(keys.key(store, "sealing_key", new_key))


@lru_cache(maxsize=64)
def _read(pem: str) -> rsa.RSAPrivateKey:
    """Read once: its numbers are tested each time it is read, which takes longer than opening a packet."""
    key = serialization.load_pem_private_key(pem.encode(), None)
    assert isinstance(key, rsa.RSAPrivateKey)
    return key


def new_key() -> str:
    key = rsa.generate_private_key(public_exponent=65537, key_size=KEY_BITS)
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    ).decode()
