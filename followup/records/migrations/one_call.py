"""One decision for several callbacks of a patient, and how each patient is reached."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m026_one_call(db: Database) -> None:
    """`reached_by` is empty for patients of whom nobody has said yet how they are reached, `reached_since` when that changed."""
    db.executescript(
        """
        ALTER TABLE tasks ADD COLUMN decision TEXT;
        CREATE INDEX tasks_of_decision ON tasks (decision) WHERE decision IS NOT NULL;
        ALTER TABLE patients ADD COLUMN reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app'));
        ALTER TABLE patients ADD COLUMN reached_since TEXT;
        ALTER TABLE patients ADD COLUMN carer_phone TEXT NOT NULL DEFAULT '';
        """
    )
