"""The command that kills a serving clinic under load would tell what is missing; what it does is run by hand."""

import sqlite3
from contextlib import closing
from pathlib import Path

from tests import kills


def test_what_is_missing_or_there_twice_is_told(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "clinic.db")) as made:
        made.execute("CREATE TABLE events (id TEXT, kind TEXT, body TEXT)")
        rows = [("a", "symptoms", "{}"), ("m1", "measures", '{"notes": "twice"}'), ("m2", "measures", '{"notes": "twice"}')]
        made.executemany("INSERT INTO events VALUES (?, ?, ?)", rows)
        made.commit()
    assert kills.not_there_once(tmp_path / "clinic.db", ["a"], []) == []
    assert kills.not_there_once(tmp_path / "clinic.db", ["a", "b"], ["twice", "never"]) == [
        "b was acknowledged, and is there 0 times",
        "twice was acknowledged, and is there 2 times",
        "never was acknowledged, and is there 0 times",
    ]
