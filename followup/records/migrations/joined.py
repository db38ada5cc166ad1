"""What was joined is found by an index: every reading of an eye or a patient asks for it."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m025_joined_by_index(db: Database) -> None:
    db.execute("CREATE INDEX eyes_joined ON eyes (joined_into) WHERE joined_into IS NOT NULL")
    db.execute("CREATE INDEX patients_joined ON patients (joined_into) WHERE joined_into IS NOT NULL")
