"""Eyes that are followed and for which nothing is planned, and theatre that the end of follow-up withdrew."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m041_nothing_planned(db: Database) -> None:
    """`unplanned_since` of a state: empty while something is planned. Every state is made anew for it, since its shape is another."""
    db.executescript(
        """
        ALTER TABLE eye_states ADD COLUMN unplanned_since TEXT;
        CREATE INDEX eyes_unplanned ON eye_states (unplanned_since, eye_id) WHERE unplanned_since IS NOT NULL;
        CREATE INDEX steps_withdrawn ON callback_steps (at) WHERE step = 'theatre withdrawn';
        """
    )
