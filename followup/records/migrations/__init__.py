"""The schema, as ordered steps. A step that has run anywhere is never changed: add another, in a new module."""

from followup.records.migrations import first, mended, two_eyes
from followup.records.migrations import joined as joined  # after two_eyes, whose tables it indexes
from followup.records.migrations.registry import steps

__all__ = ["first", "joined", "mended", "steps", "two_eyes"]
