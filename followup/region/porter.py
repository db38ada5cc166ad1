"""Decides which clinics of a folder are served: whose settings can be used, whose database is ours, and who has which host."""

import logging
import os
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from followup import logs
from followup.config import Clinic, ConfigError, Settings
from followup.errors import FollowupError
from followup.records import lock, watch
from followup.records.opening import check_usable
from followup.records.store import Closed
from followup.region.register import Entry, Register, mark
from followup.settings_file import host_name, of_clinic, read

log = logging.getLogger(__name__)
AGAIN_SECONDS = 2  # a clinic that could not be served is tried again
SHOWN = ("phone", "emergency_phone", "language")


@dataclass
class _Known:
    """A clinic of the folder: what the register says, its lock while it is served, why it is not, and when to try again."""

    entry: Entry
    database: Path | None = None
    backups: Path | None = None
    lock: int | None = None
    why: str = ""
    again: float = 0.0

    def release(self) -> None:
        if self.lock is not None:
            os.close(self.lock)
        self.lock = self.database = self.backups = None


class Porter:
    """Holds the lock of each database that is served; whoever opens it joins that."""

    def __init__(self, folder: Path, register: Register, patience_seconds: float = lock.PATIENCE_SECONDS) -> None:
        self._folder, self._register, self._patience = folder, register, patience_seconds
        self._known: dict[str, _Known] = {}
        self._written: list[Entry] | None = None

    def look(self, now: float) -> None:
        """Look at the folder once: files that came, changed or went since; `now` counts seconds."""
        files = (path for path in sorted(self._folder.iterdir()) if path.suffix == ".toml")
        found = {path.stem: path for path in files if not path.name.startswith(".")}  # editors keep such beside
        for name in [name for name in self._known if name not in found]:
            self._known.pop(name).release()
            with logs.about(name):
                log.info("clinic %s is served no more: its settings file is gone", name)
        for name, path in found.items():
            with logs.about(name):
                self._look_at(name, path, now)
        entries = [one.entry for one in self._known.values()]
        if entries != self._written:
            self._register.write(entries)
            self._written = entries

    def close(self) -> None:
        for one in self._known.values():
            one.release()

    def _look_at(self, name: str, path: Path, now: float) -> None:
        before = self._known.get(name)
        try:
            seen = mark(path)
        except OSError:
            return  # it is gone by now: the next look finds that
        if before and before.entry.mark == seen and (not before.entry.stopped or now < before.again):
            return
        entry = Entry(name, str(path), before.entry.host if before else "", seen)
        known = before or _Known(entry)
        stopped = why = ""
        try:
            settings = of_clinic(path)
            entry = replace(entry, host=host_name(settings.server.address))
            self._alone(name, settings)
            first = before is None or before.entry.mark != seen  # workers take a moment to let go of what it was before
            self._hold(known, settings.server.database.resolve(), self._patience if first else 0)
            known.backups = _backups(settings)
        except Closed as error:
            stopped, why = "closed", str(error)
        except ConfigError as error:
            stopped, why = "settings", str(error)
        except FollowupError as error:
            stopped, why = "database", str(error)
        except Exception as error:  # of whatever kind: it is this clinic's alone
            stopped, why = "database", watch.words_of(error)
        if stopped:
            known.release()
            entry = replace(_shown(path, entry), stopped=stopped)
        if (why, entry.mark) != (known.why, known.entry.mark if name in self._known else ""):
            if stopped:
                log.error("clinic %s is not served: %s", name, why)
            else:
                log.info("clinic %s is served at %s", name, entry.host)
        known.entry, known.why, known.again = entry, why, now + AGAIN_SECONDS
        self._known[name] = known

    def _alone(self, name: str, settings: Settings) -> None:
        """Raises `ConfigError` where another clinic that is served has this host, database or folder of backups."""
        host, database, backups = host_name(settings.server.address), settings.server.database.resolve(), _backups(settings)
        for other, known in self._known.items():
            if other == name or known.entry.stopped:
                continue
            if known.entry.host == host:
                raise ConfigError(f"setting server.address: {host} is the clinic {other}’s already")
            if known.database == database:
                raise ConfigError(f"setting server.database: {database} is the clinic {other}’s already")
            if backups and known.backups == backups:
                raise ConfigError(f"setting server.backups: {backups} is the clinic {other}’s already: copies would be lost")

    def _hold(self, known: _Known, database: Path, patience_seconds: float) -> None:
        """Hold the database, brought up to date. Raises `StoreError`, `Closed` where the clinic moves."""
        if known.database == database:
            return
        known.release()
        if not database.exists():
            check_usable(database)  # says so
        held = lock.take(database, "a server of several clinics is running on it", patience_seconds)
        try:
            check_usable(database)
            lock.share(held, database)
        except BaseException:
            os.close(held)
            raise
        known.lock, known.database = held, database


def _backups(settings: Settings) -> Path | None:
    return settings.server.backups.resolve() if settings.server.backups else None


def _shown(path: Path, entry: Entry) -> Entry:
    """With what can still be read of settings that cannot be used: patients need the number to call."""
    said: dict[str, Any]
    try:
        said = read(path)
    except ConfigError:
        return entry
    server, clinic = said.get("server"), said.get("clinic")
    address = server.get("address") if isinstance(server, dict) else None
    host = host_name(address) if isinstance(address, str) else ""
    entry = replace(entry, host=host or entry.host)
    usable = (
        {key: clinic[key] for key in SHOWN if key in clinic and _usable(key, clinic[key])}
        if isinstance(clinic, dict)
        else {}
    )
    return replace(entry, **usable)


def _usable(key: str, value: object) -> bool:
    try:
        Clinic.model_validate({key: value})
    except ValueError:
        return False
    return True
