"""What was put right, and which warnings rested on it."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m021_grounds_of_warnings(db: Database) -> None:
    """Whether a warning still has its grounds may change more than once: each time a row, and the latest counts.

    The cause is an event, or a note of the operation.
    """
    db.executescript(
        """
        CREATE TABLE warning_grounds (
            number INTEGER PRIMARY KEY, warning_id TEXT NOT NULL REFERENCES warnings,
            unfounded INTEGER NOT NULL CHECK (unfounded IN (0, 1)), event_id TEXT REFERENCES events,
            note_id TEXT REFERENCES operation_records, at TEXT NOT NULL, CHECK ((event_id IS NULL) != (note_id IS NULL))
        ) STRICT;
        INSERT INTO warning_grounds (warning_id, unfounded, event_id, at)
            SELECT warning_id, 1, event_id, at FROM unfounded_warnings ORDER BY at;
        DROP TABLE unfounded_warnings;
        CREATE INDEX grounds_of_warning ON warning_grounds (warning_id, number);
        """
    )
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER warning_grounds_keeps_{verb.lower()} BEFORE {verb} ON warning_grounds "
            f"BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END"
        )
