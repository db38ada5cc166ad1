"""Audit entries that keep hashes as bytes."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m037_packed_hashes(db: Database) -> None:
    """`packed`: an entry's hash and facts (`records/packing.py`). `previous`, `hash` and `facts` are empty in such an entry.

    Entries from before stay as they are: nothing in the chain is written anew.
    """
    db.execute("ALTER TABLE audit ADD COLUMN packed BLOB")
