"""The key pair by which a clinic signs its pushes (VAPID, RFC 8292)."""

import base64
from urllib.parse import urlsplit

from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from followup.records import Store, keys


def private_key(store: Store) -> str:
    """The clinic's key as PEM, made on first use."""
    return keys.key(store, "push_key", new_key)


def new_key() -> str:
    """A private key, as PEM."""
    key = ec.generate_private_key(ec.SECP256R1())
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    ).decode()


def public_key(store: Store) -> str:
    """What a browser needs to subscribe: the uncompressed point, base64url."""
    public = serialization.load_pem_private_key(private_key(store).encode(), None).public_key()
    point = public.public_bytes(serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint)
    return base64.urlsafe_b64encode(point).rstrip(b"=").decode()


def contact(sender: str, public_address: str) -> str:
    """Whom a push service may turn to: a mailto or https address, as RFC 8292 (2.1) asks; never plain http."""
    return f"mailto:{sender}" if sender else urlsplit(public_address)._replace(scheme="https").geturl()
