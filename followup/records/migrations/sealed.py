"""Audit entries that hold the hashes of what they record, and the pages that staff opened."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m030_sealed_facts(db: Database) -> None:
    """`facts`: for each row an entry records, its table, its key and the hash of what it holds, as JSON."""
    db.executescript(
        """
        ALTER TABLE audit ADD COLUMN facts TEXT NOT NULL DEFAULT '';
        CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
        CREATE INDEX pages_opened_by_time ON pages_opened (at);
        CREATE INDEX pages_opened_about ON pages_opened (about, at);
        """
    )
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER pages_opened_keeps_{verb.lower()} BEFORE {verb} ON pages_opened "
            f"BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END"
        )
