"""What a request left in the database: nothing, where it was refused; all that it says, where it was taken."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from followup import jobs
from followup.care.reading import state
from followup.care.watch import raising, watching
from followup.config import Settings
from followup.records import Store, backup, kept_waiting, watch

DERIVED = {"changed_patients", "eye_states", "visit_states", "wish_states", "call_states", "call_people", "state_made"}
DERIVED |= {"changed_results", "eye_results", "operation_results", "listed_waiting", "changes_untold", "theatre_to_come"}
COUNTED = DERIVED | {"tries", "sessions", "used_once"}
"""What a refused request may write: the current state, which is no fact, wrong tries, what holds once, and a session that was
used or ended."""
ON_RECORD = {  # refused, and that is to be on record
    "account.sign_in": {"audit"},
    "account.second_step": {"audit"},
    "account.passkey": {"audit"},
    "account.second_step_by_passkey": {"audit"},
    "patient.enrolment": {"enrolments"},  # a wrong year of birth counts against the code
    "account.my_account": {"audit"},
    "account.remove_second_factor": {"audit"},
    "account.set_up_second_factor": {"audit"},
}
READING = COUNTED | {"pages_opened", "faults", "settings"}
"""What a page that is only looked at may write: that it was, rows that cannot be read, and a key on its first use."""
ALSO_READING = {
    "clinic.eye_page": {"audit", "looks"},  # who has seen it
    "account.back_from_directory": {"audit"},  # that nobody was let in
    "administrator.audit_csv": {"audit"},
    "surgeon.results_table": {"audit"},
    "surgeon.export_tables": {"audit"},
    "clinic.record_to_read": {"audit"},
    "clinic.record_for_programs": {"audit"},
}


class Written:
    """Which tables requests write to, as far as it lasted: what is rolled back takes its note along."""

    def __init__(self, store: Store) -> None:
        self.connection = store.db.conn
        self.connection.execute("CREATE TEMP TABLE written (place TEXT NOT NULL)")
        for table in (name for name in store.db.table_names() if not name.startswith("sqlite_")):
            for verb in ("INSERT", "UPDATE", "DELETE"):
                note = f"INSERT INTO written VALUES ('{table}');"
                self.connection.execute(
                    f"CREATE TEMP TRIGGER written_{table}_{verb} AFTER {verb} ON main.{table} BEGIN {note} END"
                )

    def since(self) -> Counter[str]:
        """Rows written by table since last asked."""
        found = Counter(dict(self.connection.execute("SELECT place, count(*) FROM written GROUP BY 1").fetchall()))
        if found:
            self.connection.execute("DELETE FROM written")
        return found


def half_stored(endpoint: str, safe: bool, status: int, written: Mapping[str, int]) -> list[str]:
    """The tables that a request wrote to and should not have."""
    if safe:
        return sorted(set(written) - READING - ALSO_READING.get(endpoint, set()))
    if status >= 400:
        return sorted(set(written) - COUNTED - ON_RECORD.get(endpoint, set()))
    return []


def not_as_answered(store: Store, results: Sequence[Mapping[str, Any]]) -> list[str]:
    """The entries that are not kept as their acknowledgement says."""
    wrong = []
    for result in results:
        written = result["id"].encode("utf-8", "backslashreplace").decode()[:80]
        kept = store.row("SELECT 1 FROM events WHERE id = :id", {"id": written}) is not None
        aside = store.row("SELECT 1 FROM refused_events WHERE id = :id", {"id": written}) is not None
        if not (kept if result["status"] == "received" else aside or kept):
            wrong.append(f"entry {result['id']!r} was {result['status']} and is nowhere")
    return wrong


def faults(store: Store, settings: Settings, now: datetime) -> list[str]:
    """What `followup check` finds, and what the clock does, which goes through every eye."""
    jobs.check_all(store, settings, now)
    jobs.escalate(store, settings, now)
    zone = settings.clinic.tz
    state.bring_up_to_date(store, now, zone)
    unreadable = [f"cannot be read: {row} ({watch.words_of(error)})" for row, error in watching.unreadable(store)]
    made = [fault for fault in watch.faults(store) if fault.what != watching.SHUT]  # that packet was spoilt here
    met = [f"not working: {fault.what} {fault.about} ({fault.words})" for fault in made]
    late = [f"the clock would look at eye {id} too late" for id in raising.looked_at_too_late(store, zone)]
    return backup.faults(store) + unreadable + met + state.differences(store, zone) + kept_waiting.differences(store) + late
