"""Staff and patients, their sessions and phones."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Staff:
    id: str
    name: str
    role: str
    email: str
    password_hash: str
    created_at: datetime
    left_at: datetime | None
    passkey_asked: bool | None = None  # for a passkey (or a recovery code) after the password
    directory_subject: str | None = None  # how the clinic's own directory knows them


@dataclass(frozen=True, slots=True)
class Passkey:
    """A passkey of a member of staff: its public half (COSE) and the count of its latest use, both as the device told them."""

    id: str
    staff_id: str
    credential_id: str
    public_key: str
    sign_count: int
    name: str
    created_at: datetime
    used_at: datetime | None
    removed_at: datetime | None


@dataclass(frozen=True, slots=True)
class Session:
    """A member of staff signed in on one browser; `seen_at` is when it was last used, to the minute."""

    id: str
    staff_id: str
    begun_at: datetime
    seen_at: datetime
    address: str


@dataclass(frozen=True, slots=True)
class AuditEntry:
    """One entry of the audit chain."""

    number: int
    at: datetime
    who: str
    action: str
    subject: str


@dataclass(frozen=True, slots=True)
class PageOpened:
    """A page that a member of staff opened, and the record it is about."""

    at: datetime
    who: str
    page: str
    about: str


@dataclass(frozen=True, slots=True)
class Consent:
    """What was said about consent to something: given, or taken back."""

    at: datetime
    what: str
    given: bool
    said_by: str
    words: str
    recorded_by: str


@dataclass(frozen=True, slots=True)
class Patient:
    """A person; `joined_into` is the record of the same person that this one was joined into.

    `reached_by` is own-phone, carer-phone or no-app; empty while nobody has said. Whether there is the app stands so since
    `reached_since` (None: from the beginning).
    """

    id: str
    number: str
    name: str
    born_on: date
    phone: str
    language: str
    created_at: datetime
    joined_into: str | None
    reached_by: str
    reached_since: datetime | None
    carer_phone: str

    @property
    def has_app(self) -> bool:
        """Whether entries from a phone are waited for: also while nobody has said that there is none."""
        return self.reached_by != "no-app"


@dataclass(frozen=True, slots=True)
class Enrolment:
    """A one-time code for a phone; one that a patient made is for the carer whom it names."""

    id: str
    patient_id: str
    created_at: datetime
    expires_at: datetime
    used_at: datetime | None
    wrong_tries: int
    carer_name: str = ""


@dataclass(frozen=True, slots=True)
class Device:
    """A patient's phone, with the language noted for its patient, and what the patient calls the carer whom it was let in for."""

    id: str
    patient_id: str
    used_by: str
    enrolled_at: datetime
    heard_at: datetime
    revoked_at: datetime | None
    revoked_by: str | None
    language: str
    carer_name: str = ""
