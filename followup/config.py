"""The clinic's settings: a TOML file (`--config` or FOLLOWUP_CONFIG), overridden by environment variables.

Nothing here is clinical: thresholds and plans live in the signed protocols.
"""

import os
import tomllib
from datetime import time
from pathlib import Path
from typing import Annotated, Literal
from zoneinfo import ZoneInfo, available_timezones

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator, model_validator


class ConfigError(ValueError):
    """Settings that cannot be used; the message names the setting."""


class Clinic(BaseModel):
    """Who the patients call, where the operations are done, and on which days the clinic sees them."""

    model_config = ConfigDict(extra="forbid")

    name: str = "Eye clinic"
    phone: str = "(set the clinic's number)"
    emergency_phone: str = "112"
    on_call: str = "the on-call eye surgeon"
    on_call_email: str = ""
    zone: str = "UTC"
    language: str = "en"
    height_metres: Annotated[float, Field(ge=-430, le=5000)] = 0
    country: str = ""
    subdivision: str = ""
    places: dict[str, int] = {"mon": 12, "tue": 12, "wed": 12, "thu": 12, "fri": 8}
    closed: list[str] = []
    calls_before_moving_up: Annotated[int, Field(ge=1, le=20)] = 3  # common practice, no source

    @field_validator("zone")
    @classmethod
    def _known_zone(cls, value: str) -> str:
        if value not in available_timezones():
            raise ValueError(f"“{value}” is not a time zone; write for example Europe/Vienna")
        return value

    @property
    def tz(self) -> ZoneInfo:
        return ZoneInfo(self.zone)


class Server(BaseModel):
    """Where the server listens. `secure_cookies` is off only for a demo without TLS.

    `backups` is a folder for a copy each day; without it none is made. `proxies` is how many trusted proxies
    stand in front: that many forwarded addresses are believed.
    """

    model_config = ConfigDict(extra="forbid")

    database: Path = Path("followup.db")
    host: str = "127.0.0.1"
    port: Annotated[int, Field(ge=0, le=65535)] = 8000
    workers: Annotated[int, Field(ge=1, le=64)] = 2
    jobs: bool = True
    backups: Path | None = None
    backups_kept_days: Annotated[int, Field(ge=1)] = 30
    address: str = ""
    secure_cookies: bool = True
    proxies: Annotated[int, Field(ge=0, le=5)] = 0
    demo: bool = False

    @property
    def public_address(self) -> str:
        """The address that patients' phones reach, as it is printed in the QR code."""
        return (self.address or f"http://{self.host}:{self.port}").rstrip("/")


class Messages(BaseModel):
    """How messages leave: without `smtp_host` no e-mail is sent. Times are the clinic's local times."""

    model_config = ConfigDict(extra="forbid")

    smtp_host: str = ""
    smtp_port: Annotated[int, Field(ge=1, le=65535)] = 587
    smtp_security: Literal["starttls", "tls", "none"] = "starttls"
    smtp_user: str = ""
    smtp_password: str = ""
    sender: str = ""
    posture_at: list[time] = [time(10), time(14), time(18)]
    visit_at: time = time(10)
    quiet_from: time = time(21)
    quiet_to: time = time(8)

    @model_validator(mode="after")
    def _sender_known(self) -> "Messages":
        if self.smtp_host and "@" not in self.sender:
            raise ValueError("with smtp_host, sender must be the e-mail address that messages come from")
        return self


class Settings(BaseModel):
    model_config = ConfigDict(extra="forbid")

    clinic: Clinic = Clinic()
    server: Server = Server()
    messages: Messages = Messages()


ENVIRONMENT = {
    "FOLLOWUP_DATABASE": ("server", "database"),
    "FOLLOWUP_HOST": ("server", "host"),
    "FOLLOWUP_PORT": ("server", "port"),
    "FOLLOWUP_WORKERS": ("server", "workers"),
    "FOLLOWUP_JOBS": ("server", "jobs"),
    "FOLLOWUP_ADDRESS": ("server", "address"),
    "FOLLOWUP_BACKUPS": ("server", "backups"),
    "FOLLOWUP_PROXIES": ("server", "proxies"),
    "FOLLOWUP_SECURE_COOKIES": ("server", "secure_cookies"),
    "FOLLOWUP_DEMO": ("server", "demo"),
    "FOLLOWUP_SMTP_PASSWORD": ("messages", "smtp_password"),
}


HANDED_OVER = "FOLLOWUP_SETTINGS_JSON"
"""How the serving process hands its finished settings to its workers."""


def load(path: str | Path | None = None) -> Settings:
    """Settings from the file at `path` (or FOLLOWUP_CONFIG), then the environment. Raises `ConfigError`."""
    if handed_over := os.environ.get(HANDED_OVER):
        return Settings.model_validate_json(handed_over)
    path = path or os.environ.get("FOLLOWUP_CONFIG")
    raw: dict[str, dict[str, object]] = {}
    if path:
        try:
            raw = tomllib.loads(Path(path).read_text(encoding="utf-8"))
        except OSError as error:
            raise ConfigError(f"the settings file {path} cannot be read: {error.strerror}") from error
        except tomllib.TOMLDecodeError as error:
            raise ConfigError(f"the settings file {path} is not TOML: {error}") from error
    for name, (section, key) in ENVIRONMENT.items():
        if (value := os.environ.get(name)) is not None:
            raw.setdefault(section, {})[key] = value
    try:
        return Settings.model_validate(raw)
    except ValidationError as error:
        first = error.errors()[0]
        raise ConfigError(f"setting {'.'.join(map(str, first['loc']))}: {first['msg']}") from error
