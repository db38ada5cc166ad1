"""What is kept: SQLite through sqlite-utils. The only place with SQL.

Facts are append-only (the database itself refuses to change them); corrections are new rows that
point at the old ones. Only current-state tables (callbacks, devices, enrolments) are updated.
"""

from followup.records.opening import open_store
from followup.records.store import Store

__all__ = ["Store", "open_store"]
