"""A clinic’s settings, read: from its file, from the environment, and handed over to the processes of the server."""

import os
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from pydantic import BaseModel, ValidationError

from followup.config import ConfigError, Settings

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
    "FOLLOWUP_PHONE": ("clinic", "phone"),
    "FOLLOWUP_SMTP_PASSWORD": ("messages", "smtp_password"),
}

"""Which environment variable wins over which setting of the file."""
OF_MACHINE = ("host", "port", "workers", "jobs", "proxies")
"""Settings under [server] that hold for all clinics of a region: they stand where `--config` says, and in no clinic's file."""


def table() -> str:
    """Every setting with its default, its environment variable and what it is for, as the guide for operating shows it."""
    variables = {place: name for name, place in ENVIRONMENT.items()}
    rows = ["| setting | unless set | environment | what it is |", "|---|---|---|---|"]
    for section, part in Settings.model_fields.items():
        assert isinstance(part.annotation, type)
        assert issubclass(part.annotation, BaseModel)
        for key, field in part.annotation.model_fields.items():
            variable = f"`{variables[section, key]}`" if (section, key) in variables else ""
            default = _shown(field.default)
            rows.append(f"| `{section}.{key}` | {default and f'`{default}`'} | {variable} | {field.description} |")
    return "\n".join(rows)


def _shown(default: object) -> str:
    """A default as the settings file would have it; empty where there is none."""
    if isinstance(default, dict):
        return "{ " + ", ".join(f"{key} = {_shown(value)}" for key, value in default.items()) + " }" if default else ""
    if isinstance(default, list):
        return f"[{', '.join(map(_shown, default))}]" if default else ""
    if isinstance(default, bool):
        return str(default).lower()
    if isinstance(default, str | Path):
        return f'"{default}"' if str(default) else ""
    return "" if default is None else str(default)


HANDED_OVER = "FOLLOWUP_SETTINGS_JSON"
"""How the serving process hands its finished settings to its workers."""


def load(path: str | Path | None = None) -> Settings:
    """Settings from the file at `path` (or FOLLOWUP_CONFIG), then the environment. Raises `ConfigError`."""
    if handed_over := os.environ.get(HANDED_OVER):
        return Settings.model_validate_json(handed_over)
    path = path or os.environ.get("FOLLOWUP_CONFIG")
    raw = read(path) if path else {}
    for name, (section, key) in ENVIRONMENT.items():
        if (value := os.environ.get(name)) is not None:
            _put(raw, section, key, value)
    return _checked(raw)


def of_machine(path: str | Path | None, given: Mapping[str, object]) -> Settings:
    """What holds for all clinics of a region, from the file, the environment and options. Raises `ConfigError`.

    Whatever belongs to one clinic is refused here: it would hold for each of them.
    """
    path = path or os.environ.get("FOLLOWUP_CONFIG")
    raw = read(path) if path else {}
    for section, said in raw.items():
        for key in said if isinstance(said, dict) else ():
            if section != "server" or key not in OF_MACHINE:
                raise ConfigError(f"setting {section}.{key} belongs to one clinic: write it into that clinic’s own file")
    for name, (section, key) in ENVIRONMENT.items():
        if not (value := os.environ.get(name)):
            continue
        if section != "server" or key not in OF_MACHINE:
            raise ConfigError(
                f"{name} would hold for every clinic: write {section}.{key} into each clinic’s own file instead"
            )
        _put(raw, section, key, value)
    for key in given:
        if key not in OF_MACHINE:
            raise ConfigError(f"--{key} would hold for every clinic: write server.{key} into each clinic’s own file instead")
    return with_server(_checked(raw), given)


def of_clinic(path: Path) -> Settings:
    """The settings of one clinic of a region, from its file alone. Raises `ConfigError`."""
    raw = read(path)
    server = raw.get("server")
    for key in OF_MACHINE:
        if isinstance(server, dict) and key in server:
            raise ConfigError(
                f"setting server.{key} belongs to the whole server: write it into the file that --config names"
            )
    settings = ready(_checked(raw), path)
    if not host_name(settings.server.address):
        raise ConfigError("setting server.address: the clinic is found by it; write for example https://eyes.example")
    if not isinstance(server, dict) or "database" not in server:
        raise ConfigError("setting server.database is missing: each clinic has its own")
    return settings


def host_name(address: str) -> str:
    """The host of an address, as it is compared; empty where there is none."""
    try:
        return (urlsplit(address).hostname or "").rstrip(".")
    except ValueError:
        return ""


def read(path: str | Path) -> dict[str, dict[str, Any]]:
    """What a settings file says, unchecked. Raises `ConfigError` where it is none."""
    try:
        return tomllib.loads(Path(path).read_text(encoding="utf-8"))
    except OSError as error:
        raise ConfigError(f"the settings file {path} cannot be read: {error.strerror}") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise ConfigError(f"the settings file {path} is not TOML: {error}") from error


def _put(raw: dict[str, Any], section: str, key: str, value: str) -> None:
    """One setting; where the file has something else in the place of its section, that is told when it is checked."""
    known = raw.setdefault(section, {})
    if isinstance(known, dict):
        known[key] = value


def with_server(settings: Settings, given: Mapping[str, object]) -> Settings:
    """The settings with some of the server's replaced. Raises `ConfigError`."""
    return _checked({**settings.model_dump(), "server": {**settings.server.model_dump(), **given}})


def ready(settings: Settings, file: str | Path | None = None) -> Settings:
    """The settings, which came from that file, if a clinic can work with them: patients must have a number to call.

    Raises `ConfigError`.
    """
    for name, least in (("phone", 5), ("emergency_phone", 2)):
        number = getattr(settings.clinic, name)
        digits = re.sub(r"[^0-9]", "", number)
        if len(digits) < least or (least > 2 and len(set(digits)) == 1):
            said = f"“{number}” is not a number that patients can call" if number else "it is missing"
            told = f"setting clinic.{name}: {said}; write it as patients dial it, for example +43 1 234 56 78"
            named = file or os.environ.get("FOLLOWUP_CONFIG")
            raise ConfigError(told if named else f"{told}; no settings file was named, by --config or FOLLOWUP_CONFIG")
    if not settings.server.port:
        raise ConfigError("setting server.port: 0 is no port that a proxy could find; write for example 8000")
    for name in ("on_call_email", "audit_email"):
        if getattr(settings.clinic, name) and not settings.messages.smtp_host:
            raise ConfigError(
                f"setting clinic.{name}: no mail leaves without messages.smtp_host; set that, or leave this empty"
            )
    if settings.sign_in.issuer:
        _ = settings.sign_in.client_secret  # raises where it cannot be read
    return settings


def _checked(raw: Mapping[str, Any]) -> Settings:
    try:
        return Settings.model_validate(raw)
    except ValidationError as error:
        first = error.errors()[0]
        told = first["msg"].removeprefix("Value error, ")
        if first["type"] == "dict_type" and len(first["loc"]) > 1:
            told = "it needs a number for each weekday; write for example { mon = 12, thu = 8 }"
        if first["type"] == "model_type":
            told = f"it is a section: write [{first['loc'][0]}] on a line of its own, and its settings below"
        if first["type"] == "extra_forbidden":
            told = f"there is no such setting; accepted are: {', '.join(_names(first['loc'][:-1]))}"
        raise ConfigError(f"setting {'.'.join(map(str, first['loc']))}: {told}") from error


def _names(section: tuple[int | str, ...]) -> list[str]:
    """The settings of a section, or the sections."""
    found: type[BaseModel] = Settings
    for step in section:
        found = type(getattr(Settings(), str(step)))
    return list(found.model_fields)
