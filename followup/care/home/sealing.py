"""What a device could not send: sealed there with the clinic's public key, readable only here.

Each sealed packet is AES-256-GCM under a key of its own, which is wrapped with RSA-OAEP (SHA-256).
"""

import base64
import json
from typing import Annotated, Any

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import padding, rsa
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from pydantic import Base64Bytes, BaseModel, ConfigDict, Field

from followup.records import Store

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
    oaep = padding.OAEP(padding.MGF1(hashes.SHA256()), hashes.SHA256(), None)
    try:
        key = _private_key(store).decrypt(sealed.key, oaep)
        return json.loads(AESGCM(key).decrypt(sealed.iv, sealed.data, None))
    except (ValueError, InvalidTag, RecursionError) as error:
        raise ValueError("this packet was not sealed for this clinic") from error


def opened_entries(store: Store, sealed: Sealed) -> list[Any]:
    """The entries of a phone's packet. Raises ValueError if it holds anything else."""
    entries = opened(store, sealed)
    if not isinstance(entries, list):
        raise ValueError("a packet holds a list of entries")
    return entries


def _private_key(store: Store) -> rsa.RSAPrivateKey:
    pem = store.setting("sealing_key", _new_key)
    key = serialization.load_pem_private_key(pem.encode(), None)
    assert isinstance(key, rsa.RSAPrivateKey)
    return key


def _new_key() -> str:
    key = rsa.generate_private_key(public_exponent=65537, key_size=KEY_BITS)
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    ).decode()
