"""Decides which clinics of a folder are served: whose settings can be used, whose database is ours, and who has which host."""

import logging
from concurrent.futures import Future, wait
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from followup import logs
from followup.config import Clinic, ConfigError, Settings
from followup.errors import FollowupError
from followup.records import lock, watch
from followup.records.store import Closed
from followup.region import taking
from followup.region.register import OPENING, Entry, Register, mark
from followup.settings_file import host_name, of_clinic, read

log = logging.getLogger(__name__)
AGAIN_SECONDS = 2  # a clinic that could not be served is tried again
MOMENT_SECONDS = 1  # a database is there by then, unless it is brought up to date or in use
SHOWN = ("phone", "emergency_phone", "language")


@dataclass
class _Known:
    """A clinic of the folder: what the register says, the database that it claims, the lock of that, and when to try again."""

    entry: Entry
    database: Path | None = None
    backups: Path | None = None
    lock: Future[int] | None = None
    new: bool = True  # as it stands in its file
    told: tuple[str, str] = ("", "")  # of which file, and why it is not served
    again: float = 0.0

    def release(self) -> None:
        if self.lock is not None:
            taking.let_go(self.lock)
        self.lock = self.database = self.backups = None


class Porter:
    """Holds the lock of each database that is served; whoever opens it joins that."""

    def __init__(self, folder: Path, register: Register, patience_seconds: float = lock.PATIENCE_SECONDS) -> None:
        self._folder, self._register, self._patience = folder, register, patience_seconds
        self._known: dict[str, _Known] = {}
        self._written: list[Entry] | None = None
        self._upgrades = taking.Turns()

    def look(self, now: float) -> None:
        """Look at the folder once: files that came, changed or went since, databases that were taken; `now` counts seconds.

        Whose database takes longer than a moment is looked at again the next time, and the others are served meanwhile.
        """
        files = (path for path in sorted(self._folder.iterdir()) if path.suffix == ".toml")
        found = {path.stem: path for path in files if not path.name.startswith(".")}  # editors keep such beside
        for name in [name for name in self._known if name not in found]:
            self._known.pop(name).release()
            with logs.about(name):
                log.info("clinic %s is served no more: its settings file is gone", name)
        for name, path in found.items():
            with logs.about(name):
                self._look_at(name, path, now)
        begun = self._begin()
        for name, known in self._known.items():
            with logs.about(name):
                self._go_on(name, known, now, begun)
        entries = [one.entry for one in self._known.values()]
        if entries != self._written:
            self._register.write(entries)
            self._written = entries

    def close(self, patience_seconds: float = 0) -> None:
        """Let go of all; databases that are just being taken are waited for so long."""
        wait([one.lock for one in self._known.values() if one.lock], patience_seconds)
        for one in self._known.values():
            one.release()

    def _look_at(self, name: str, path: Path, now: float) -> None:
        before = self._known.get(name)
        try:
            seen = mark(path)
        except OSError:
            return  # it is gone by now: the next look finds that
        if before and before.entry.mark == seen and (before.entry.stopped in ("", OPENING) or now < before.again):
            return
        entry = Entry(name, str(path), before.entry.host if before else "", seen)
        known = self._known[name] = before or _Known(entry)
        known.new = before is None or before.entry.mark != seen
        try:
            settings = of_clinic(path)
            self._alone(name, settings)
        except Exception as error:
            self._stop(known, _shown(path, entry), error, now)
            return
        shown = {key: getattr(settings.clinic, key) for key in SHOWN}
        known.entry = replace(entry, host=host_name(settings.server.address), stopped=OPENING, **shown)
        if known.database != (database := settings.server.database.resolve()):
            known.release()
            known.database = database
        known.backups = _backups(settings)

    def _begin(self) -> set[Future[int]]:
        """Take what is claimed, the smallest first, and wait a moment; gives what was begun."""
        claimed = [(name, known, known.database) for name, known in self._known.items() if known.database and not known.lock]
        begun = set()
        for name, known, database in sorted(claimed, key=lambda claim: taking.size_bytes(claim[2])):
            # Workers take a moment to let go of what it was before.
            known.lock = taking.begun(name, database, self._patience if known.new else 0, self._upgrades)
            begun.add(known.lock)
        wait(begun, MOMENT_SECONDS)
        return begun

    def _go_on(self, name: str, known: _Known, now: float, begun: set[Future[int]]) -> None:
        """Serve the clinic whose database was taken; say so of one whose was not, or takes its time."""
        if known.lock is None or known.entry.stopped != OPENING:
            return
        if not known.lock.done():
            if known.lock in begun:
                log.info("clinic %s is being opened: its database is brought up to date, or in use", name)
        elif error := known.lock.exception():
            self._stop(known, known.entry, error, now)
        else:
            known.entry = replace(known.entry, stopped="")
            self._tell(known)

    def _stop(self, known: _Known, entry: Entry, error: BaseException, now: float) -> None:
        known.release()
        stopped, why = _why(error)
        known.entry, known.again = replace(entry, stopped=stopped), now + AGAIN_SECONDS
        self._tell(known, why)

    def _tell(self, known: _Known, why: str = "") -> None:
        """Once, however often it is tried."""
        if known.told == (known.entry.mark, why):
            return
        known.told = (known.entry.mark, why)
        if why:
            log.error("clinic %s is not served: %s", known.entry.name, why)
        else:
            log.info("clinic %s is served at %s", known.entry.name, known.entry.host)

    def _alone(self, name: str, settings: Settings) -> None:
        """Raises `ConfigError` where another clinic that is served has this host, database or folder of backups."""
        host, database, backups = host_name(settings.server.address), settings.server.database.resolve(), _backups(settings)
        for other, known in self._known.items():
            if other == name or known.database is None:
                continue
            if known.entry.host == host:
                raise ConfigError(f"setting server.address: {host} is the clinic {other}’s already")
            if known.database == database:
                raise ConfigError(f"setting server.database: {database} is the clinic {other}’s already")
            if backups and known.backups == backups:
                raise ConfigError(f"setting server.backups: {backups} is the clinic {other}’s already: copies would be lost")


def _why(error: BaseException) -> tuple[str, str]:
    """What is said of the fault at `/health`, and in the log."""
    kind = "closed" if isinstance(error, Closed) else "settings" if isinstance(error, ConfigError) else "database"
    return kind, str(error) if isinstance(error, FollowupError) else watch.words_of(error)


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
