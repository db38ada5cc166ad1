"""What still waits of lists that keep all that ever stood on them: kept by the database's own triggers, held against the facts.

None of these tables is a fact; a page reads them, so that it reads no more than waits.
"""

from followup.records import listed, tasks, visits
from followup.records.store import Store

_FACTS = {"listed_waiting": listed.WAITING, "changes_untold": visits.UNTOLD, "theatre_to_come": tasks.TO_COME}
"""Each table, and its rows as the facts have them."""


def differences(store: Store) -> list[str]:
    """Rows that are missing, too many, or not as the facts have them: each by its table and id."""
    found: list[str] = []
    for table, facts in _FACTS.items():
        kept, stand = ({tuple(row.values()) for row in store.rows(sql)} for sql in (f"SELECT * FROM {table}", facts))
        found += (f"{table} {id} is not what the facts say" for id in sorted({row[0] for row in kept ^ stand}))
    return found


def rebuild(store: Store) -> None:
    """Make all of them anew."""
    with store.transaction():
        for table, facts in _FACTS.items():
            store.execute(f"DELETE FROM {table}")
            store.execute(f"INSERT INTO {table} {facts}")
