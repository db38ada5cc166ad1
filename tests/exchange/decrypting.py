"""What a browser does with a push: RFC 8291 over RFC 8188, written from the standards and held to their own example.

The server encrypts with a library; here nothing of that library is used.
"""

from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

LAST_RECORD = 2


def decrypted(body: bytes, key: ec.EllipticCurvePrivateKey, secret: bytes) -> bytes:
    """The message in one record of the coding `aes128gcm`. Raises `ValueError` or `InvalidTag` for anything else."""
    salt, size, length = body[:16], int.from_bytes(body[16:20], "big"), body[20]  # RFC 8188 2.1
    sender, record = body[21 : 21 + length], body[21 + length :]
    if length != 65 or not 18 <= len(record) <= size:
        raise ValueError("this is not one record from a key of P-256")
    agreed = key.exchange(ec.ECDH(), ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), sender))
    ours = key.public_key().public_bytes(Encoding.X962, PublicFormat.UncompressedPoint)
    keying = _derived(agreed, secret, b"WebPush: info\x00" + ours + sender, 32)  # RFC 8291 3.4
    content_key = _derived(keying, salt, b"Content-Encoding: aes128gcm\x00", 16)  # RFC 8188 2.2
    nonce = _derived(keying, salt, b"Content-Encoding: nonce\x00", 12)  # 2.3
    padded = AESGCM(content_key).decrypt(nonce, record, None).rstrip(b"\x00")
    if not padded or padded[-1] != LAST_RECORD:
        raise ValueError("this is not the last record")
    return padded[:-1]


def _derived(key: bytes, salt: bytes, info: bytes, length: int) -> bytes:
    return HKDF(hashes.SHA256(), length, salt, info).derive(key)
