"""Messages, signatures, and what watches the watch."""

from dataclasses import dataclass, field
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Message:
    """A message with what became of it; `about` is a record's id or a date."""

    key: str
    person: str
    kind: str
    about: str
    made_at: datetime
    useless_after: datetime
    state: str
    tries: int
    next_try_at: datetime
    taken_at: datetime | None
    ended_at: datetime | None
    detail: str


@dataclass(frozen=True, slots=True)
class Subscription:
    """Where a browser takes pushes."""

    endpoint: str
    person: str
    device_id: str | None
    p256dh: str
    auth: str


@dataclass(frozen=True, slots=True)
class Choice:
    """How a person wants to be reached, as kept."""

    email: str
    language: str
    quiet_from: str
    quiet_to: str
    unwanted: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signed exactly this text of a protocol, and when."""

    part: str
    fingerprint: str
    signed_by: str
    name: str
    signed_at: datetime


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that goes wrong."""

    what: str
    about: str
    words: str
    first_at: datetime
    last_at: datetime
    times: int


@dataclass(frozen=True, slots=True)
class Run:
    """When a job last started and ended, and how."""

    job: str
    started_at: datetime
    ended_at: datetime | None
    result: str | None
