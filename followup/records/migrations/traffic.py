"""Narrower indexes of what grows with every page that staff open and with every message."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m040_narrow_traffic(db: Database) -> None:
    """What was opened about somebody is read as a whole; messages that are over are looked for by their person alone."""
    db.executescript(
        """
        DROP INDEX pages_opened_about;
        CREATE INDEX pages_opened_about ON pages_opened (about);
        DROP INDEX messages_open;
        CREATE INDEX messages_waiting ON messages (next_try_at) WHERE state = 'waiting';
        CREATE INDEX messages_sending ON messages (taken_at) WHERE state = 'sending';
        """
    )
