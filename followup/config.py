"""The clinic's settings: a TOML file (`--config` or FOLLOWUP_CONFIG), overridden by environment variables.

Nothing here is clinical: thresholds and plans live in the signed protocols.
"""

import re
from datetime import date, time
from functools import cache
from pathlib import Path
from typing import Annotated, Literal
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo, available_timezones

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from followup.errors import FollowupError
from followup.protocols import closures

LANGUAGES = {"en": "English", "de": "Deutsch", "es": "Español", "ar": "العربية"}
"""What the patient's pages are written in."""
ADDRESS = re.compile(r"""[^@\s<>,;:()\[\]\\"]+@[\w-]+(\.[\w-]+)+""")
"""An e-mail address of the plain kind."""
_TELEPHONE = re.compile(r"\+?[0-9 ()/.-]+")
_SERVED_AT = re.compile(r"https?://([\w-]+(\.[\w-]+)*\.?|\[[0-9A-Fa-f:.]+\])(:0*[1-9]\d{0,4})?/?")
"""Where a server is reached: http or https, a host, perhaps a port, and no path."""


class ConfigError(FollowupError, ValueError):
    """Settings that cannot be used; the message names the setting."""


@cache
def _zones() -> set[str]:
    """Read once: each asking goes through all files of the zones."""
    return available_timezones()


class Clinic(BaseModel):
    """Who the patients call, where the operations are done, and on which days the clinic sees them."""

    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)

    name: str = "Eye clinic"
    """What patients and staff read as the clinic’s name."""
    place: str = ""
    """Where visits are, as patients read it: street, floor, room. Empty: only the clinic’s name."""
    phone: str = ""
    """What patients call; on every patient page, offline too. Nothing starts without it."""
    emergency_phone: str = "112"
    """What patients call in an emergency, or when nobody answers."""
    on_call: str = "the on-call eye surgeon"
    """How pages name whoever is on call."""
    on_call_email: str = ""
    """Where callbacks go that nobody settled in time; empty: to nobody."""
    audit_email: str = ""
    """Where the head of the audit chain goes each day; empty: only to the backup folder."""
    security_contact: str = ""
    """Whom to tell of a weakness, as an e-mail or https address: `/.well-known/security.txt` names it; empty: there is none."""
    zone: str = "UTC"
    """Time zone in which days and times are shown; they are stored in UTC."""
    language: str = "en"
    """Language of patients’ pages until a reader chooses: en, de, es or ar."""
    height_metres: Annotated[float, Field(ge=-430, le=5000)] = 0
    """Height of the place of surgery: heights of journeys count from here."""
    country: str = ""
    """Country whose public holidays are no clinic days, as two letters; empty: none."""
    subdivision: str = ""
    """Part of the country whose holidays count too."""
    places: dict[str, int] = {"mon": 12, "tue": 12, "wed": 12, "thu": 12, "fri": 8}
    """How many patients each weekday can take."""
    closed: list[str] = []
    """Further days without a clinic, as year-month-day."""
    appointment_times: bool = False
    """Whether visits have a time of day, not only a day."""
    nurses_record_no_gas: bool = False
    """Whether nurses, too, may record *no gas seen*, which lifts the caution of gas."""
    calls_before_moving_up: Annotated[int, Field(ge=1, le=20)] = 3
    """After how many calls in a row that reached nobody a callback moves up. Common practice, no source."""
    records_kept_years: Annotated[int, Field(ge=0, le=100)] = 0
    """How long a record is kept after follow-up ended, for `followup retention`; 0: without an end."""

    @field_validator("name")
    @classmethod
    def _named(cls, value: str) -> str:
        if not value.strip():
            raise ValueError("it is empty; write what patients know the clinic by")
        return value

    @field_validator("zone")
    @classmethod
    def _known_zone(cls, value: str) -> str:
        if value not in _zones():
            raise ValueError(f"“{value}” is not a time zone; write for example Europe/Vienna")
        return value

    @field_validator("phone", "emergency_phone")
    @classmethod
    def _telephone(cls, value: str) -> str:
        if value and not _TELEPHONE.fullmatch(value):
            raise ValueError(f"“{value}” is not a telephone number; accepted are digits, spaces and + ( ) / . -")
        return value

    @field_validator("language")
    @classmethod
    def _known_language(cls, value: str) -> str:
        if value not in LANGUAGES:
            raise ValueError(f"“{value}” is not one of the languages; accepted are: {', '.join(LANGUAGES)}")
        return value

    @field_validator("places")
    @classmethod
    def _known_weekdays(cls, value: dict[str, int]) -> dict[str, int]:
        for name, seats in value.items():
            if name not in closures.WEEKDAYS:
                raise ValueError(f"“{name}” is not a weekday; accepted are: {', '.join(closures.WEEKDAYS)}")
            if not 0 <= seats <= 1000:
                raise ValueError(f"{name} = {seats} is not a number of places; accepted are 0 to 1000")
        if not any(value.values()):
            raise ValueError("no weekday has a place, so nobody could be booked; write for example { mon = 12, thu = 8 }")
        return value

    @field_validator("closed", mode="before")
    @classmethod
    def _dates(cls, value: object) -> object:
        """Dates as text (2026-12-24), or as TOML has them."""
        return [day.isoformat() if isinstance(day, date) else day for day in value] if isinstance(value, list) else value

    @field_validator("closed")
    @classmethod
    def _closed_days(cls, value: list[str]) -> list[str]:
        for day in value:
            try:
                known = date.fromisoformat(day).isoformat() == day
            except ValueError:
                known = False
            if not known:
                raise ValueError(f"“{day}” is not a date; write year-month-day, for example 2026-12-24")
        return value

    @field_validator("country")
    @classmethod
    def _known_country(cls, value: str) -> str:
        value = value.upper() if len(value) == 2 else value  # as its two letters are written
        closures.check_country(value)
        return value

    @field_validator("subdivision")
    @classmethod
    def _known_subdivision(cls, value: str, info: ValidationInfo) -> str:
        closures.check_subdivision(info.data.get("country", ""), value)
        return value

    @field_validator("on_call_email", "audit_email")
    @classmethod
    def _address(cls, value: str) -> str:
        if value and not ADDRESS.fullmatch(value):
            raise ValueError(f"“{value}” is not an e-mail address; write it like name@example.org")
        return value

    @field_validator("security_contact")
    @classmethod
    def _reachable(cls, value: str) -> str:
        if value and not (
            ADDRESS.fullmatch(value) or (value.startswith("https://") and value.isprintable() and " " not in value)
        ):
            raise ValueError(f"“{value}” is neither an e-mail nor an https address")
        return value

    @property
    def tz(self) -> ZoneInfo:
        return ZoneInfo(self.zone)


class Server(BaseModel):
    """Where the server listens. `secure_cookies` is off only for a demo without TLS.

    `backups` is a folder for a copy each day; without it none is made. `proxies` is how many trusted proxies
    stand in front: that many forwarded addresses are believed.
    """

    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)

    database: Path = Path("followup.db")
    """The one file that holds everything. Not on a network drive."""
    host: str = "127.0.0.1"
    """Address to listen on."""
    port: Annotated[int, Field(ge=0, le=65535)] = 8000
    """Port to listen on."""
    workers: Annotated[int, Field(ge=1, le=64)] = 2
    """Web processes."""
    jobs: bool = True
    """Whether the clock’s jobs run: without them nobody is reminded and nothing moves up."""
    backups: Path | None = None
    """Folder for a checked copy each day; empty: none is made."""
    backups_kept_days: Annotated[int, Field(ge=1)] = 30
    """After how many days a copy is deleted, once there are as many newer ones."""
    address: str = ""
    """Address that phones reach, as the QR code on the discharge card has it; empty: host and port."""
    secure_cookies: bool = True
    """Off only for a trial without TLS."""
    proxies: Annotated[int, Field(ge=0, le=5)] = 0
    """How many proxies of your own stand in front: so many forwarded addresses are believed."""
    demo: bool = False
    """For the invented clinic only."""

    @field_validator("backups", mode="before")
    @classmethod
    def _folder(cls, value: object) -> object:
        return None if value == "" else value  # else it would be the folder that the program was started in

    @field_validator("address")
    @classmethod
    def _reachable(cls, value: str) -> str:
        if value and not _SERVED_AT.fullmatch(value):
            raise ValueError(f"“{value}” is no address that phones reach; write https://eyes.example")
        return value

    @property
    def public_address(self) -> str:
        """The address that patients' phones reach, as it is printed in the QR code."""
        return (self.address or f"http://{self.host}:{self.port}").rstrip("/")


class Messages(BaseModel):
    """How messages leave: without `smtp_host` no e-mail is sent. Times are the clinic's local times."""

    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)

    smtp_host: str = ""
    """Mail server; empty: no e-mail, only web push."""
    smtp_port: Annotated[int, Field(ge=1, le=65535)] = 587
    """Its port."""
    smtp_security: Literal["starttls", "tls", "none"] = "starttls"
    """starttls, tls or none."""
    smtp_user: str = ""
    """Its user; empty: without signing in."""
    smtp_password: str = ""
    """Its password; better in the environment than in the file."""
    sender: str = ""
    """Address that messages come from."""
    posture_at: list[time] = [time(10), time(14), time(18)]
    """When to remind whoever is behind with posturing, in the clinic’s time."""
    visit_at: time = time(10)
    """When to remind of a visit."""
    quiet_from: time = time(21)
    """From when no message goes out, unless the person chose other hours."""
    quiet_to: time = time(8)
    """Until when."""

    @model_validator(mode="after")
    def _sender_known(self) -> "Messages":
        if self.smtp_host and not ADDRESS.fullmatch(self.sender):
            raise ValueError("with smtp_host, sender must be the e-mail address that messages come from")
        return self


def loopback(address: str) -> bool:
    """Whether an http address is one of this machine."""
    parts = urlsplit(address)
    return parts.scheme == "http" and parts.hostname in ("localhost", "127.0.0.1", "::1")


class SignIn(BaseModel):
    """Sign-in by the clinic's own directory (OpenID Connect); none without `issuer`."""

    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)

    issuer: str = ""
    """Address by which the clinic’s own directory names itself (OpenID Connect); empty: nobody signs in by one."""
    client_id: str = ""
    """How the directory knows this program."""
    client_secret_file: Path | None = None
    """File with the secret that the directory gave this program."""
    claim: Literal["email", "sub"] = "email"
    """What names an account here: the verified e-mail address, or the subject that `followup staff directory` noted."""
    name: str = "the hospital’s sign-in"
    """What staff read on the link."""
    passwords: bool = True
    """Whether passwords and passkeys let staff in as well; false: nobody gets in while the directory is down."""

    @field_validator("issuer")
    @classmethod
    def _secure(cls, value: str) -> str:
        parts = urlsplit(value)
        if (
            value
            and (parts.query or parts.fragment or not parts.hostname or parts.scheme != "https")
            and not loopback(value)
        ):
            raise ValueError(f"“{value}” is no issuer; accepted is an https address without ? and #")
        return value

    @model_validator(mode="after")
    def _whole(self) -> "SignIn":
        if self.issuer and not (self.client_id and self.client_secret_file):
            raise ValueError("with issuer, client_id and client_secret_file are needed too")
        if not self.issuer and not self.passwords:
            raise ValueError("passwords = false needs an issuer: nobody could sign in")
        return self

    @property
    def client_secret(self) -> str:
        """The secret, read anew each time. Raises `ConfigError`."""
        try:
            secret = self.client_secret_file.read_text(encoding="utf-8").strip() if self.client_secret_file else ""
        except (OSError, ValueError):
            secret = ""
        if not secret:
            raise ConfigError(f"setting sign_in.client_secret_file: {self.client_secret_file} cannot be read, or is empty")
        return secret


class Settings(BaseModel):
    model_config = ConfigDict(extra="forbid")

    clinic: Clinic = Clinic()
    server: Server = Server()
    messages: Messages = Messages()
    sign_in: SignIn = SignIn()
