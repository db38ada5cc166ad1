"""When the clock must think of somebody's drops and posture, so that each minute reads only whom that minute is about."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m036_reminded_by_time(db: Database) -> None:
    """`drops_until`: the last day of drops of whoever wants to be reminded of them; `drops_at`: when to look next.

    `posture_seen` is the time of the reminder for which the hours were looked at last, and were enough.
    """
    db.executescript(
        """
        ALTER TABLE eye_states ADD COLUMN drops_until TEXT;
        ALTER TABLE eye_states ADD COLUMN drops_at TEXT;
        ALTER TABLE eye_states ADD COLUMN posture_seen TEXT;
        CREATE INDEX eyes_with_drops ON eye_states (drops_at) WHERE drops_at IS NOT NULL;
        """
    )
    # The upsert that keeps a choice has its own way with conflicts, which an OR IGNORE in here would give way to.
    of_patient = """
        INSERT INTO changed_patients SELECT substr({row}.person, 9) WHERE {row}.person GLOB 'patient:*'
        AND NOT EXISTS (SELECT 1 FROM changed_patients WHERE patient_id = substr({row}.person, 9));
    """
    for verb, rows in (("INSERT", ("NEW",)), ("UPDATE", ("OLD", "NEW")), ("DELETE", ("OLD",))):
        changed = " ".join(of_patient.format(row=row) for row in rows)
        db.execute(
            f"CREATE TRIGGER message_choices_changed_{verb.lower()} AFTER {verb} ON message_choices BEGIN {changed} END"
        )
