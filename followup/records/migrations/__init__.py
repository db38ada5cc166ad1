"""The schema, as ordered steps. A step that has run anywhere is never changed: add another, in a new module."""

from followup.records.migrations import first, mended, two_eyes
from followup.records.migrations import put_right as put_right  # after two_eyes, whose tables it changes
from followup.records.migrations.registry import steps

__all__ = ["first", "mended", "put_right", "steps", "two_eyes"]
