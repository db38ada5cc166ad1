"""Which clinics are served and where their settings are: written by the serving process, read by its workers and its clock."""

import json
import os
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from followup.config import ConfigError, Settings
from followup.settings_file import of_clinic

OPENING = "opening"
"""What keeps a clinic from being served until its database is ready."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A clinic. `stopped` says what keeps it from being served, and is empty while it is served.

    `mark` changes with the settings file: who reads that and finds another mark has to wait for the next entry. `phone`,
    `emergency_phone` and `language` are for pages that stand in its place, as far as they are known. No secret stands here.
    """

    name: str
    file: str
    host: str
    mark: str
    stopped: str = ""
    phone: str = ""
    emergency_phone: str = "112"
    language: str = "en"

    def settings(self) -> Settings | None:
        """The settings that the serving process looked at; None where the file has changed since."""
        try:
            found = of_clinic(Path(self.file))
            return found if mark(Path(self.file)) == self.mark else None
        except (ConfigError, OSError):
            return None


def mark(path: Path) -> str:
    """Another one whenever a file was changed or replaced; raises OSError where there is none."""
    found = path.stat()
    return f"{found.st_mtime_ns} {found.st_ino} {found.st_size}"


class Register:
    """Read again whenever it has changed; asking for one costs a look at the file."""

    def __init__(self, path: Path) -> None:
        self._path, self._mark = path, ""
        self._entries: tuple[Entry, ...] = ()
        self._by_host: dict[str, Entry] = {}

    def write(self, entries: Iterable[Entry]) -> None:
        fresh = self._path.with_suffix(".fresh")
        fresh.write_text(json.dumps([asdict(entry) for entry in entries]), encoding="utf-8")
        os.replace(fresh, self._path)

    @property
    def entries(self) -> tuple[Entry, ...]:
        self._look()
        return self._entries

    def at(self, host: str) -> Entry | None:
        """The clinic at a host name, or None."""
        self._look()
        return self._by_host.get(host)

    def _look(self) -> None:
        try:
            if (now := mark(self._path)) == self._mark:
                return
            entries = tuple(Entry(**entry) for entry in json.loads(self._path.read_text(encoding="utf-8")))
        except OSError:
            return  # it was not written yet
        # Of two at one host the one that is served: the other may be a slip in its file.
        by_host = {entry.host: entry for entry in sorted(entries, key=lambda entry: not entry.stopped) if entry.host}
        self._entries, self._by_host, self._mark = entries, by_host, now
