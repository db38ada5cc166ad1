"""Marks on warnings are kept as rows, and the latest counts; those of an older database are taken along."""

from pathlib import Path

import pytest
from sqlite_utils import Database

from followup.records.migrations import steps

AT = "2027-03-05T10:00:00.000000Z"


def test_marks_of_an_older_database_are_taken_along_and_nobody_changes_one(tmp_path: Path) -> None:
    db = Database(tmp_path / "old.db")
    steps.apply(db, stop_before="m021_grounds_of_warnings")
    db.execute("PRAGMA foreign_keys = OFF")
    db["unfounded_warnings"].insert({"warning_id": "w", "event_id": "e", "at": AT})
    steps.apply(db)
    assert "unfounded_warnings" not in db.table_names()
    (row,) = db["warning_grounds"].rows
    assert (row["warning_id"], row["unfounded"], row["event_id"], row["note_id"]) == ("w", 1, "e", None)
    for sql in ("UPDATE warning_grounds SET unfounded = 0", "DELETE FROM warning_grounds"):
        with pytest.raises(Exception, match="append-only"):
            db.execute(sql)
