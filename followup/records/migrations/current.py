"""What stands now of each eye, visit and call, made from the facts so that lists and the clock read only what they need."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m028_current_state(db: Database) -> None:
    """None of this is a fact. Whatever changes a patient's facts writes the patient into `changed_patients`.

    `look_at`: when the clock must next look; empty for at once. `hour` is `~` where no time is kept, so that it comes last;
    `urgency` counts from 0 for now to 3 for nothing.
    """
    db.executescript(
        """
        CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
        CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
        CREATE TABLE eye_states (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, version TEXT NOT NULL, look_at TEXT NOT NULL DEFAULT '',
            agent TEXT NOT NULL, operated_at TEXT NOT NULL, posture_from TEXT, posture_until TEXT,
            next_visit TEXT, next_earliest TEXT, next_target TEXT, next_latest TEXT,
            how_soon TEXT, worry TEXT NOT NULL, worry_since TEXT, worry_due_at TEXT, reason TEXT NOT NULL,
            last_heard TEXT, last_measures TEXT
        ) STRICT;
        CREATE INDEX eye_states_of_patient ON eye_states (patient_id);
        CREATE INDEX eyes_to_look_at ON eye_states (look_at);
        CREATE INDEX eyes_posturing ON eye_states (posture_until) WHERE posture_until IS NOT NULL;
        CREATE TABLE visit_states (
            identity TEXT PRIMARY KEY, visit_id TEXT NOT NULL, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL,
            target TEXT NOT NULL, latest TEXT NOT NULL, hour TEXT NOT NULL, urgency INTEGER NOT NULL, name TEXT NOT NULL,
            waited INTEGER NOT NULL, away INTEGER NOT NULL, seen_at TEXT, here_at TEXT, arrival TEXT NOT NULL
        ) STRICT;
        CREATE INDEX visit_states_of_patient ON visit_states (patient_id);
        CREATE INDEX visits_waited ON visit_states (target, hour, urgency, name, identity, latest, away, here_at) WHERE waited;
        CREATE INDEX visits_here ON visit_states (here_at) WHERE waited AND here_at IS NOT NULL;
        CREATE INDEX visits_seen ON visit_states (seen_at) WHERE seen_at IS NOT NULL;
        CREATE INDEX visits_unseen ON visit_states (target) WHERE seen_at IS NULL;
        CREATE TABLE wish_states (
            event_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, at TEXT NOT NULL, visit TEXT NOT NULL,
            identity TEXT, words TEXT NOT NULL
        ) STRICT;
        CREATE INDEX wish_states_of_patient ON wish_states (patient_id);
        CREATE INDEX wishes_in_order ON wish_states (at, event_id);
        CREATE TABLE call_states (
            patient_id TEXT PRIMARY KEY, urgency INTEGER NOT NULL, since TEXT NOT NULL, first TEXT NOT NULL,
            level INTEGER NOT NULL, decided INTEGER NOT NULL
        ) STRICT;
        CREATE INDEX calls_in_order ON call_states (urgency, since, first, level, decided, patient_id);
        CREATE INDEX calls_counted ON call_states (urgency, level, decided);
        CREATE TABLE call_people (
            who TEXT NOT NULL, patient_id TEXT NOT NULL, PRIMARY KEY (who, patient_id)
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX people_of_call ON call_people (patient_id);
        """
    )
    _what_lists_look_for(db)
    of_eye = "SELECT patient_id FROM eyes WHERE id = {row}.eye_id"
    of_operation = "SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = {row}.operation_id"
    of_warning = "SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = {row}.warning_id"
    whose = dict.fromkeys(("visits", "events", "warnings", "follow_ups", "callbacks", "tasks", "operations"), of_eye)
    whose |= {"operation_records": of_operation, "warning_grounds": of_warning}
    whose |= {"patients": "SELECT {row}.id", "eyes": "SELECT {row}.patient_id"}
    for table, patient in whose.items():
        for verb, rows in (("INSERT", ("NEW",)), ("UPDATE", ("OLD", "NEW")), ("DELETE", ("OLD",))):
            changed = " ".join(f"INSERT OR IGNORE INTO changed_patients {patient.format(row=row)};" for row in rows)
            db.execute(f"CREATE TRIGGER {table}_changed_{verb.lower()} AFTER {verb} ON {table} BEGIN {changed} END")
    db.execute(
        "CREATE TRIGGER protocol_texts_changed AFTER INSERT ON protocol_texts BEGIN UPDATE eye_states SET look_at = ''; END"
    )
    db.execute("INSERT INTO changed_patients SELECT id FROM patients")


def _what_lists_look_for(db: Database) -> None:
    """Rows that are few, found among those that are many: times that cannot be, refused entries, whom nobody told."""

    def in_time(column: str) -> str:
        return f"({column} GLOB '[12][0-9][0-9][0-9]-*' AND {column} BETWEEN '1900' AND '2201')"

    days = " AND ".join(in_time(day) for day in ("target", "earliest", "latest"))
    db.executescript(
        f"""
        CREATE INDEX events_off_time ON events (eye_id) WHERE NOT {in_time("at")};
        CREATE INDEX records_off_time ON operation_records (operation_id) WHERE NOT {in_time("operated_at")};
        CREATE INDEX visits_off_time ON visits (eye_id) WHERE NOT ({days});
        CREATE INDEX events_of_clinic ON events (at) WHERE kind IN ('seen', 'measures', 'did-not-come');
        CREATE INDEX refused_by_time ON refused_events (received_at);
        CREATE INDEX visits_untold ON visits_to_tell (made_at) WHERE told_at IS NULL;
        CREATE INDEX callbacks_of_eye ON callbacks (eye_id, opened_at);
        CREATE INDEX callbacks_moved_up ON callbacks (due_at) WHERE state != 'settled' AND level > 0;
        CREATE INDEX callbacks_for_now ON callbacks (opened_at) WHERE state != 'settled' AND how_soon = 'now' AND level = 0;
        CREATE INDEX callbacks_silent ON callbacks (opened_at) WHERE state != 'settled' AND worry = 'silence';
        CREATE INDEX callbacks_settled ON callbacks (settled_at) WHERE settled_at IS NOT NULL;
        CREATE INDEX tasks_open ON tasks (owner) WHERE done_at IS NULL;
        CREATE INDEX steps_by_kind ON callback_steps (step, at);
        CREATE INDEX eyes_followed ON eyes (patient_id) WHERE followed_since IS NOT NULL AND ended_at IS NULL;
        """
    )
