"""What was decided about a callback and stays to be done: who, by when, and what became of it."""

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, datetime

from followup.records.eyes import SAME_EYE, in_time
from followup.records.store import Row, Store, new_id
from followup.records.times import to_text
from followup.records.values import Callback, Task, made

_TASKS = """
    SELECT t.*, coalesce(y.joined_into, t.eye_id) AS eye_id, o.name AS owner_name, m.name AS made_by_name,
           (SELECT v.target FROM visits v WHERE v.identity = t.visit_id ORDER BY v.recorded_at DESC, v.id DESC LIMIT 1) AS visit_on,
           (SELECT max(e.at) FROM events e WHERE e.kind IN ('measures', 'seen') AND e.at > t.made_at
            AND e.eye_id IN (t.eye_id, (SELECT v.eye_id FROM visits v WHERE v.id = t.visit_id))
            AND NOT EXISTS (SELECT 1 FROM events later WHERE later.corrects = e.id)) AS seen_at
    FROM tasks t JOIN eyes y ON y.id = t.eye_id LEFT JOIN staff o ON o.id = t.owner JOIN staff m ON m.id = t.made_by
"""


def add(
    store: Store,
    now: datetime,
    callback: Callback,
    kind: str,
    words: str,
    made_by: str,
    owner: str | None,
    due_at: datetime,
    decision: str,
    *,
    told_at: datetime | None = None,
    visit_id: str | None = None,
) -> str:
    id = new_id()
    about = {"callback_id": callback.id, "eye_id": callback.eye_id, "visit_id": visit_id}
    row = {"id": id, **about, "kind": kind, "words": words, "owner": owner, "due_at": to_text(due_at)}
    told = to_text(told_at) if told_at else None
    store.insert("tasks", {**row, "made_by": made_by, "made_at": to_text(now), "told_at": told, "decision": decision})
    return id


def task(store: Store, id: str) -> Task | None:
    found = store.row(_TASKS + " WHERE t.id = :id", {"id": id})
    return _opened(found) if found else None


def of_callback(store: Store, callback_id: str) -> list[Task]:
    """Every task of a callback, open or not, in the order made."""
    return [_opened(row) for row in store.rows(_TASKS + " WHERE t.callback_id = :id ORDER BY t.id", {"id": callback_id})]


def of_decision(store: Store, task: Task) -> list[Task]:
    """That task and the open ones that the same decision made and the same person has."""
    if task.decision is None or task.done_at is not None:
        return [task]
    sql = _TASKS + " WHERE t.decision = :decision AND t.owner IS :owner AND t.done_at IS NULL ORDER BY t.id"
    return [_opened(row) for row in store.rows(sql, {"decision": task.decision, "owner": task.owner})]


def made_with(store: Store, task: Task) -> list[Task]:
    """That task and the open ones that the same decision made, whoever has them."""
    if task.decision is None:
        return [task]
    sql = _TASKS + " WHERE t.decision = :decision AND t.done_at IS NULL ORDER BY t.id"
    return [_opened(row) for row in store.rows(sql, {"decision": task.decision})]


_OPERATED_SINCE = f"""
    SELECT 1 FROM operations o JOIN operation_records n ON n.operation_id = o.id WHERE o.created_at > t.made_at
    AND o.eye_id IN (SELECT j.id FROM eyes j WHERE j.id = t.eye_id OR j.joined_into = t.eye_id OR j.id = y.joined_into)
    AND {in_time("n.operated_at")} AND n.operated_at >= substr(t.made_at, 1, 10)
    AND NOT EXISTS (SELECT 1 FROM operation_records later WHERE later.operation_id = o.id
        AND (later.recorded_at, later.id) > (n.recorded_at, n.id))
"""


_FOR_THEATRE = f"t.kind = 'theatre' AND NOT t.given_up AND y.ended_at IS NULL AND NOT EXISTS ({_OPERATED_SINCE})"
TO_COME = f"SELECT t.id FROM tasks t JOIN eyes y ON y.id = t.eye_id WHERE {_FOR_THEATRE}"
"""Theatre that is still to come, as the facts have it; triggers keep the same in `theatre_to_come`."""


def for_theatre(store: Store) -> list[Task]:
    """What is decided for theatre of eyes that were not operated since: without a day first, then by day and list.

    Confirmed or not; what was given up is not among it, nor an eye whose follow-up ended.
    """
    sql = f"""
        {_TASKS} WHERE t.id IN (SELECT task_id FROM theatre_to_come)
        ORDER BY t.theatre_on IS NOT NULL, t.theatre_on, t.theatre_list, t.due_at, t.id
    """
    return [_opened(row) for row in store.rows(sql)]


def is_for_theatre(store: Store, id: str) -> bool:
    """Whether this task is among them."""
    return store.row(f"{TO_COME} AND t.id = :id", {"id": id}) is not None


def theatre_to_come(store: Store, eye_id: str) -> list[Task]:
    """The same of one eye, in the order made."""
    callbacks = f"(SELECT id FROM callbacks WHERE eye_id IN {SAME_EYE})"
    sql = f"{_TASKS} WHERE t.callback_id IN {callbacks} AND {_FOR_THEATRE} ORDER BY t.id"
    return [_opened(row) for row in store.rows(sql, {"id": eye_id})]


def theatre_withdrawn(store: Store, since: datetime, today: date) -> list[Task]:
    """Theatre that was withdrawn since a time, of which the day is not over: by day and list; `done_words` says why."""
    sql = f"""
        {_TASKS} JOIN callback_steps s ON s.callback_id = t.callback_id AND json_extract(s.detail, '$.task') = t.id
        WHERE s.step = 'theatre withdrawn' AND s.at >= :since AND t.theatre_on >= :today
        ORDER BY t.theatre_on, t.theatre_list, t.id
    """
    return [_opened(row) for row in store.rows(sql, {"since": to_text(since), "today": today.isoformat()})]


def for_theatre_of(store: Store, eye_id: str) -> list[Task]:
    """What was decided for theatre of an eye and not given up, in the order made."""
    sql = f"{_TASKS} WHERE t.eye_id IN {SAME_EYE} AND t.kind = 'theatre' AND NOT t.given_up ORDER BY t.id"
    return [_opened(row) for row in store.rows(sql, {"id": eye_id})]


def cancelled_theatre(store: Store, callback_ids: Sequence[str]) -> dict[str, Task]:
    """Of these callbacks, those whose last decision was theatre that fell away; `done_words` says why."""
    named = {f"c{n}": id for n, id in enumerate(callback_ids)}
    marks = ", ".join(f":{name}" for name in named)
    sql = f"""
        {_TASKS} WHERE t.callback_id IN ({marks}) AND t.kind = 'theatre' AND t.given_up
        AND NOT EXISTS (SELECT 1 FROM tasks later WHERE later.callback_id = t.callback_id AND later.id > t.id)
    """
    return {row["callback_id"]: _opened(row) for row in (store.rows(sql, named) if named else [])}


def plan_theatre(store: Store, id: str, on: date | None, on_list: str) -> None:
    """The day of theatre and the list, as far as they are known."""
    sql = "UPDATE tasks SET theatre_on = :on, theatre_list = :list WHERE id = :id"
    store.execute(sql, {"id": id, "on": on.isoformat() if on else None, "list": on_list})


def needs_visit(store: Store, visit_id: str) -> bool:
    """Whether an open task still waits for that visit of the book."""
    return bool(store.rows("SELECT 1 FROM tasks WHERE visit_id = :id AND done_at IS NULL", {"id": visit_id}))


def held_by(store: Store, staff_id: str) -> list[Task]:
    """The open tasks of a member of staff, the earliest due first."""
    sql = _TASKS + " WHERE t.done_at IS NULL AND t.owner = :who ORDER BY t.due_at, t.id"
    return [_opened(row) for row in store.rows(sql, {"who": staff_id})]


def open_of(store: Store, callback_ids: Sequence[str]) -> dict[str, list[Task]]:
    """The open tasks of these callbacks, by callback, the earliest due first."""
    named = {f"c{n}": id for n, id in enumerate(callback_ids)}
    marks = ", ".join(f":{name}" for name in named)
    sql = f"{_TASKS} WHERE t.callback_id IN ({marks}) AND t.done_at IS NULL ORDER BY t.due_at, t.id"
    found: dict[str, list[Task]] = defaultdict(list)
    for row in store.rows(sql, named) if named else ():
        found[row["callback_id"]].append(_opened(row))
    return dict(found)


def give(store: Store, id: str, to: str | None, whose: str | None) -> bool:
    """Hand an open task from `whose` (None: nobody's) to another; False if somebody was faster."""
    sql = "UPDATE tasks SET owner = :to WHERE id = :id AND done_at IS NULL AND owner IS :whose"
    return store.execute(sql, {"id": id, "to": to, "whose": whose}) == 1


def told(store: Store, now: datetime, id: str, due_at: datetime) -> None:
    """The patient or carer knows what was decided; from now on it is to be done by `due_at`."""
    sql = "UPDATE tasks SET told_at = coalesce(told_at, :now), due_at = :due WHERE id = :id"
    store.execute(sql, {"id": id, "now": to_text(now), "due": to_text(due_at)})


def end(store: Store, now: datetime, id: str, who: str, words: str, *, given_up: bool = False) -> None:
    sql = "UPDATE tasks SET done_at = :now, done_by = :who, done_words = :words, given_up = :given_up WHERE id = :id"
    store.execute(sql, {"id": id, "now": to_text(now), "who": who, "words": words, "given_up": int(given_up)})


def reopen(store: Store, callback_id: str, ended_at: datetime) -> None:
    """Take up again what was done in the moment at which the callback was settled."""
    sql = """UPDATE tasks SET done_at = NULL, done_by = NULL, done_words = ''
             WHERE callback_id = :id AND done_at = :at AND NOT given_up"""
    store.execute(sql, {"id": callback_id, "at": to_text(ended_at)})


def _opened(row: Row) -> Task:
    return made(Task, row)
