"""The book of visits: appointment times, why a visit was changed, days that were closed, and whom to tell."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m027_book_of_visits(db: Database) -> None:
    """`starts` is the clinic's local time. Of a day's closures the latest counts; `closed` 0 opens it again."""
    db.executescript(
        """
        ALTER TABLE visits ADD COLUMN starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00'));
        ALTER TABLE visits ADD COLUMN why TEXT NOT NULL DEFAULT '';
        CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
        CREATE INDEX closures_of_day ON closures (day, number);
        CREATE TABLE visits_to_tell (
            visit_id TEXT PRIMARY KEY REFERENCES visits, made_at TEXT NOT NULL, told_at TEXT, told_by TEXT
        ) STRICT;
        """
    )
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER closures_keeps_{verb.lower()} BEFORE {verb} ON closures "
            f"BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END"
        )
