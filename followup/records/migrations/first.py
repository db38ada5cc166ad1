"""The schema that landed first: people, eyes, worries, the audit chain, messages."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps

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
