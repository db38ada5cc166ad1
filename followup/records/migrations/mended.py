"""Repairs, tasks, visits with identities, the watch over the clock, and bounds of times."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m006_repair(db: Database) -> None:
    """What was once written into m002 and m004 after they had run somewhere: missing where they ran before."""
    if "withdrawn" not in {row[1] for row in db.execute("PRAGMA table_info(visits)")}:
        db.execute("ALTER TABLE visits ADD COLUMN withdrawn INTEGER NOT NULL DEFAULT 0")
    if "device_at" not in {row[1] for row in db.execute("PRAGMA table_info(events)")}:
        db.execute("ALTER TABLE events ADD COLUMN device_at TEXT")
    db.execute(
        """
        CREATE TABLE IF NOT EXISTS looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT
        """
    )
    db.execute("CREATE INDEX IF NOT EXISTS looks_of_operation ON looks (operation_id, at)")
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER IF NOT EXISTS looks_keeps_{verb.lower()} BEFORE {verb} ON looks "
            f"BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END"
        )


@steps()
def m007_tasks(db: Database) -> None:
    """What was decided stays to be done. `moved_up` counts every move, `level` is where a callback stands now."""
    db.executescript(
        """
        CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
        CREATE INDEX tasks_of_callback ON tasks (callback_id, done_at);
        ALTER TABLE callbacks ADD COLUMN settled_by TEXT REFERENCES staff;
        ALTER TABLE callbacks ADD COLUMN next_try_at TEXT;
        ALTER TABLE callbacks ADD COLUMN moved_up INTEGER NOT NULL DEFAULT 0;
        UPDATE callbacks SET moved_up = level;
        UPDATE callbacks SET settled_by = claimed_by WHERE state = 'settled';
        """
    )


@steps()
def m008_visit_identities(db: Database) -> None:
    """A visit keeps one identity through every change: the id under which it first stood in the book."""
    db.executescript(
        """
        DROP TRIGGER visits_keeps_update;
        ALTER TABLE visits ADD COLUMN identity TEXT NOT NULL DEFAULT '';
        WITH RECURSIVE first (id, identity) AS (
            SELECT id, id FROM visits WHERE replaces IS NULL
            UNION ALL SELECT v.id, first.identity FROM visits v JOIN first ON v.replaces = first.id
        )
        UPDATE visits SET identity = (SELECT identity FROM first WHERE first.id = visits.id);
        CREATE INDEX visits_by_identity ON visits (identity);
        CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits
        BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
        """
    )


@steps()
def m009_watch(db: Database) -> None:
    """What went wrong and still does, and when each job last ran: that takes the place of its slots."""
    db.executescript(
        """
        CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
        CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
        DROP TABLE job_slots;
        """
    )


@steps()
def m011_bounds(db: Database) -> None:
    """New rows hold times of fixed width that can be. Rows that stand already stay: facts are never changed.

    A day more is left on each side, since the rows hold UTC and the clinic's day may begin earlier or end later.
    """
    second = "[012][0-9]:[0-5][0-9]:[0-5][0-9]." + "[0-9]" * 6 + "Z"
    dated = "[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]"
    surgery = "(SELECT max(operated_at) FROM operation_records r WHERE r.operation_id = NEW.operation_id)"

    def no_time(column: str) -> str:
        return (
            f"NEW.{column} NOT GLOB '{dated}T{second}' OR date(NEW.{column}, '+0 days') IS NOT substr(NEW.{column}, 1, 10)"
        )

    def no_date(column: str) -> str:
        return f"NEW.{column} NOT GLOB '{dated}' OR date(NEW.{column}, '+0 days') IS NOT NEW.{column}"

    refused = {
        ("patients", "INSERT", "birth"): (
            f"{no_date('born_on')} OR NEW.born_on NOT BETWEEN '1900-01-01' AND date(NEW.created_at, '+1 day')",
            "born between 1900 and today",
        ),
        ("patients", "UPDATE OF born_on", "corrected_birth"): (
            f"{no_date('born_on')} OR NEW.born_on NOT BETWEEN '1900-01-01' AND '2200-12-31'",
            "born between 1900 and today",
        ),
        ("operation_records", "INSERT", "surgery"): (
            f"{no_time('operated_at')} OR {no_time('recorded_at')} OR NEW.operated_at < '1989-12-31' "
            "OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body)",
            "surgery lies between 1990 and now",
        ),
        ("visits", "INSERT", "visit"): (
            f"{no_date('target')} OR {no_date('earliest')} OR {no_date('latest')} OR {no_time('recorded_at')} "
            f"OR min(NEW.target, NEW.earliest, NEW.latest) < date({surgery}, '-1 day') "
            "OR max(NEW.target, NEW.earliest, NEW.latest) > "
            f"max(date({surgery}, '+3 years', '+1 day'), date(NEW.recorded_at, '+1 year', '+1 day'))",
            "visits lie within three years after surgery",
        ),
        ("events", "INSERT", "event"): (
            f"{no_time('at')} OR {no_time('received_at')} OR (NEW.device_at IS NOT NULL AND ({no_time('device_at')})) "
            "OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 "
            "OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000",
            "an event lies between 1990 and its arrival and has a readable body",
        ),
    }
    for (table, verb, what), (cannot_be, accepted) in refused.items():
        db.execute(
            f"CREATE TRIGGER {table}_bounds_{what} BEFORE {verb} ON {table} WHEN {cannot_be} "
            f"BEGIN SELECT RAISE(ABORT, '{table}: {accepted}'); END"
        )
