"""What patients asked for: carers whom they name themselves, and reminders of drops for whoever wants them."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m031_carers_and_drops(db: Database) -> None:
    """A code that a patient makes names the carer it is for. Whoever chose messages before was not asked about drops."""
    db.executescript(
        """
        ALTER TABLE enrolments ADD COLUMN carer_name TEXT NOT NULL DEFAULT '';
        ALTER TABLE devices ADD COLUMN carer_name TEXT NOT NULL DEFAULT '';
        UPDATE message_choices SET unwanted = json_insert(unwanted, '$[#]', 'drops')
            WHERE person LIKE 'patient:%' AND json_valid(unwanted) AND json_type(unwanted) = 'array';
        """
    )
