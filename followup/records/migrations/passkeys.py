"""Passkeys of staff, whom the clinic's own directory knows them as, and what is taken only once."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m035_passkeys(db: Database) -> None:
    """A passkey's public half and count of uses. What was used once is known by its hash until it would be too old anyway."""
    db.executescript(
        """
        CREATE TABLE passkeys (
            id TEXT PRIMARY KEY, staff_id TEXT NOT NULL REFERENCES staff, credential_id TEXT NOT NULL UNIQUE,
            public_key TEXT NOT NULL, sign_count INTEGER NOT NULL CHECK (sign_count >= 0), name TEXT NOT NULL,
            created_at TEXT NOT NULL, used_at TEXT, removed_at TEXT
        ) STRICT;
        CREATE INDEX passkeys_of_staff ON passkeys (staff_id);
        CREATE TABLE used_once (hash TEXT PRIMARY KEY, at TEXT NOT NULL) STRICT, WITHOUT ROWID;
        ALTER TABLE staff ADD COLUMN passkey_asked INTEGER;
        ALTER TABLE staff ADD COLUMN directory_subject TEXT;
        CREATE UNIQUE INDEX staff_by_subject ON staff (directory_subject)
            WHERE directory_subject IS NOT NULL AND left_at IS NULL;
        """
    )
