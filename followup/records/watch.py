"""What went wrong and still does, and when each of the clock's jobs last ran."""

import logging
import traceback
from collections.abc import Callable, Collection, Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, TypeVar

from followup.records.store import Store
from followup.records.times import to_text
from followup.records.values import Fault, Run, Value, made

Given = TypeVar("Given")
log = logging.getLogger(__name__)
LEEWAY = timedelta(seconds=5)  # a timer is never exact
CUT_OFF, CUT_OFF_AGAIN = "its process ended", "its process ended again"
"""How a job ended that was begun and not done."""
FAILED = "failed: "
"""How the result of a job begins that ended with a fault."""
AGAIN = timedelta(hours=1)  # what did not end well waits no longer than this, so that it is soon seen to be mended
_OURS = str(Path(__file__).parents[1])
_EYE_OF = {
    "eyes": ":id",
    "eye": ":id",
    "operation_records": "(SELECT o.eye_id FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE r.id = :id)",
    "events": "(SELECT eye_id FROM events WHERE id = :id)",
    "visits": "(SELECT eye_id FROM visits WHERE id = :id)",
    "callbacks": "(SELECT eye_id FROM callbacks WHERE id = :id)",
    "warnings": "(SELECT eye_id FROM warnings WHERE id = :id)",
}


def note(store: Store, at: datetime, what: str, about: str, words: str) -> None:
    """Something of a kind went wrong: `about` is a record's id, a person or a job. No names and nothing clinical in `words`."""
    sql = """
        INSERT INTO faults (what, about, words, first_at, last_at) VALUES (:what, :about, :words, :at, :at)
        ON CONFLICT (what, about) DO UPDATE SET words = excluded.words, last_at = excluded.last_at, times = times + 1
    """
    store.execute(sql, {"what": what, "about": about, "words": words[:300], "at": to_text(at)})
    log.warning("fault: %s %s: %s", what, about, words)


def clear(store: Store, what: str, about: str) -> None:
    """It went well again."""
    known = {"what": what, "about": about}
    if store.row("SELECT 1 FROM faults WHERE what = :what AND about = :about", known):
        store.execute("DELETE FROM faults WHERE what = :what AND about = :about", known)
        log.info("well again: %s %s", what, about)


def clear_others(store: Store, what: str, at: datetime) -> None:
    """After a pass over everything of a kind: what was not noted in that pass went well."""
    sql = "SELECT about FROM faults WHERE what = :what AND last_at != :at"
    for row in store.rows(sql, {"what": what, "at": to_text(at)}):
        clear(store, what, row["about"])


def clear_some(store: Store, what: str, abouts: Collection[str], at: datetime) -> None:
    """After a pass over some of a kind: what of these was not noted in that pass went well."""
    for row in store.rows(
        "SELECT about FROM faults WHERE what = :what AND last_at != :at", {"what": what, "at": to_text(at)}
    ):
        if row["about"] in abouts:
            clear(store, what, row["about"])


def clear_older(store: Store, what: str, than: datetime) -> None:
    """What was not met again since a time is no fault any more."""
    sql = "SELECT about FROM faults WHERE what = :what AND last_at < :than"
    for row in store.rows(sql, {"what": what, "than": to_text(than)}):
        clear(store, what, row["about"])


def clear_all(store: Store, what: str) -> None:
    """Everything of a kind went well."""
    for row in store.rows("SELECT about FROM faults WHERE what = :what", {"what": what}):
        clear(store, what, row["about"])


def faults(store: Store) -> list[Fault]:
    """All that goes wrong now, the latest first."""
    found = store.rows("SELECT * FROM faults ORDER BY last_at DESC, what, about")
    return [made(Fault, row) for row in found]


def patient_of(store: Store, kind: str, id: str) -> tuple[str, str, str] | None:
    """Whose eye a fault is about (its id, the name, the number), read without the parts that may be unreadable."""
    if kind not in _EYE_OF:
        return None
    sql = f"""
        SELECT e.id AS eye_id, p.name, p.number FROM eyes e JOIN patients p ON p.id = e.patient_id
        WHERE e.id = {_EYE_OF[kind]}
    """
    found = store.row(sql, {"id": id})
    return (found["eye_id"], found["name"], found["number"]) if found else None


def words_of(error: BaseException) -> str:
    """Which error it was and where, without its text: that may hold a name or a finding."""
    ours = [step for step in traceback.extract_tb(error.__traceback__) if step.filename.startswith(_OURS)]
    place = f" in {Path(ours[-1].filename).name}, line {ours[-1].lineno}" if ours else ""
    return f"{type(error).__name__}{place}"


def readable(store: Store, table: str, rows: Iterable[Given], opened: Callable[[Given], Value]) -> list[Value]:
    """The rows opened; one that cannot be read is left out and noted, and takes no other with it."""
    found: list[Value] = []
    for row in rows:
        try:
            found.append(opened(row))
        except Exception as error:
            note(store, datetime.now(UTC), "row", f"{table} {_key(row)}", words_of(error))
    return found


def _key(row: Any) -> str:
    return str(row.get("id") or row.get("key") if isinstance(row, dict) else row.id)


def take_run(store: Store, now: datetime, job: str, every: timedelta) -> bool:
    """Whether this process may run the job now: when its interval has passed since it last started, by one process only.

    A start that lies ahead was made by a clock that has been set back since; it holds nothing up, and neither does one
    that was cut off. What failed, or was cut off again, is due an hour after it started.
    """
    sql = """
        INSERT INTO job_runs (job, started_at) VALUES (:job, :now)
        ON CONFLICT (job) DO UPDATE SET started_at = excluded.started_at
        WHERE started_at <= :due OR started_at > :ahead OR (ended_at >= started_at AND (result = :cut_off
            OR (started_at <= :again AND (result = :cut_off_again OR result GLOB :failed))))
    """
    times = {"due": now - every + LEEWAY, "again": now - AGAIN + LEEWAY, "ahead": now + LEEWAY}
    ends = {"cut_off": CUT_OFF, "cut_off_again": CUT_OFF_AGAIN, "failed": f"{FAILED}*"}
    return store.execute(sql, {"job": job, "now": to_text(now), **ends, **{k: to_text(at) for k, at in times.items()}}) == 1


def end_run(store: Store, now: datetime, job: str, result: str) -> None:
    sql = "UPDATE job_runs SET ended_at = :now, result = :result WHERE job = :job"
    store.execute(sql, {"job": job, "now": to_text(now), "result": result})


def begun(store: Store) -> list[Run]:
    """Jobs that were begun and have not ended; `result` is how they ended the time before."""
    sql = "SELECT * FROM job_runs WHERE ended_at IS NULL OR ended_at < started_at ORDER BY job"
    return [made(Run, row) for row in store.rows(sql)]


def runs(store: Store) -> dict[str, Run]:
    """For each job that ever ran: when it last started and ended, and how."""
    return {row["job"]: made(Run, row) for row in store.rows("SELECT * FROM job_runs")}
