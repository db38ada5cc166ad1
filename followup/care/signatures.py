"""What the clinic signs and reads back: its sessions, passes and secret addresses."""

import hmac
from base64 import urlsafe_b64encode
from datetime import datetime

from itsdangerous import URLSafeSerializer, URLSafeTimedSerializer

from followup.records import Store, keys


def secret(store: Store) -> str:
    """Signs the staff's session cookies."""
    return keys.secret(store)


def derived(store: Store, salt: str, text: str) -> str:
    """A secret of 256 bits that only this server makes, of the same text always the same (HMAC-SHA-256, RFC 2104)."""
    made = hmac.digest(secret(store).encode(), f"{salt} {text}".encode(), "sha256")
    return urlsafe_b64encode(made).decode().rstrip("=")


def timed(store: Store, now: datetime, salt: str) -> URLSafeTimedSerializer:
    """Signs what holds for a while; what the key of before signed is still taken until that is forgotten."""
    return URLSafeTimedSerializer(keys.secrets_known(store, now), salt=salt)


def lasting(store: Store, now: datetime, salt: str) -> URLSafeSerializer:
    """The same for what holds as long as the key does."""
    return URLSafeSerializer(keys.secrets_known(store, now), salt=salt)
