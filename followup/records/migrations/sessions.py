"""Sessions that can be ended, a third role for whoever looks after accounts, and a second factor."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m029_sessions(db: Database) -> None:
    """Sessions are known by the hash of what the browser holds. An administrator looks after accounts, not patients."""
    db.executescript(
        """
        CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
        CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
        ALTER TABLE staff RENAME COLUMN role TO former_role;
        ALTER TABLE staff ADD COLUMN role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator'));
        UPDATE staff SET role = former_role;
        ALTER TABLE staff DROP COLUMN former_role;
        ALTER TABLE staff ADD COLUMN totp_secret TEXT;
        ALTER TABLE staff ADD COLUMN totp_last INTEGER;
        CREATE TABLE recovery_codes (
            staff_id TEXT NOT NULL REFERENCES staff, code_hash TEXT NOT NULL, used_at TEXT, PRIMARY KEY (staff_id, code_hash)
        ) STRICT;
        """
    )
