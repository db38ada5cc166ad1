"""The schema, as ordered steps. A step that has run anywhere is never changed: add another."""

from sqlite_utils import Database
from sqlite_utils.migrations import Migrations

steps = Migrations("followup")

# The tables that m004 and m006 protect. A table that comes later gets its triggers in the step that makes it.
APPEND_ONLY = (
    "operation_records",
    "visits",
    "events",
    "looks",
    "refused_events",
    "warnings",
    "callback_steps",
    "protocol_texts",
    "signatures",
    "audit",
)


@steps()
def m001_people(db: Database) -> None:
    db.executescript(
        """
        CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
        CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
        CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
        CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
        CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
        CREATE INDEX devices_of_patient ON devices (patient_id);
        CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
        CREATE INDEX tries_by_key ON tries (what, key, at);
        """
    )


@steps()
def m002_eyes(db: Database) -> None:
    db.executescript(
        """
        CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
        CREATE INDEX operations_of_patient ON operations (patient_id);
        CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
        CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
        CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        ) STRICT;
        CREATE INDEX visits_of_operation ON visits (operation_id);
        CREATE INDEX visits_by_date ON visits (target);
        CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
        CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
        CREATE INDEX events_of_operation ON events (operation_id, at);
        CREATE INDEX events_corrected ON events (corrects);
        CREATE TABLE looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
        CREATE INDEX looks_of_operation ON looks (operation_id, at);
        CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
        """
    )


@steps()
def m003_worries(db: Database) -> None:
    db.executescript(
        """
        CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
        CREATE UNIQUE INDEX one_open_callback ON callbacks (operation_id, worry) WHERE state != 'settled';
        CREATE INDEX callbacks_open ON callbacks (state, due_at);
        CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
        CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
        CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
        CREATE INDEX warnings_of_callback ON warnings (callback_id);
        CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
        CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
        CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
        """
    )


@steps()
def m004_audit(db: Database) -> None:
    db.executescript(
        """
        CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
        """
    )
    for table in APPEND_ONLY:
        for verb in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_keeps_{verb.lower()} BEFORE {verb} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only: record a correction instead'); END"
            )


@steps()
def m005_messages(db: Database) -> None:
    """A person is `patient:<id>`, `staff:<id>` or `contact:on-call`."""
    db.executescript(
        """
        CREATE TABLE message_choices (
            person TEXT PRIMARY KEY, email TEXT NOT NULL, language TEXT NOT NULL, quiet_from TEXT NOT NULL,
            quiet_to TEXT NOT NULL, unwanted TEXT NOT NULL, chosen_at TEXT NOT NULL
        ) STRICT;
        CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
        CREATE INDEX subscriptions_of_person ON push_subscriptions (person);
        CREATE TABLE messages (
            key TEXT PRIMARY KEY, person TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL, made_at TEXT NOT NULL,
            useless_after TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'sending', 'sent', 'dropped')),
            tries INTEGER NOT NULL DEFAULT 0, next_try_at TEXT NOT NULL, taken_at TEXT, ended_at TEXT,
            detail TEXT NOT NULL DEFAULT ''
        ) STRICT;
        CREATE INDEX messages_open ON messages (state, next_try_at);
        CREATE INDEX messages_of_person ON messages (person, made_at);
        """
    )


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
