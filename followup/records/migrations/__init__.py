"""The schema, as ordered steps. A step that has run anywhere is never changed: add another, in a new module."""

# In the order in which they run: each changes what those before it made.
from followup.records.migrations import first, mended, two_eyes

# isort: split
from followup.records.migrations import put_right

# isort: split
from followup.records.migrations import joined

# isort: split
from followup.records.migrations import one_call

# isort: split
from followup.records.migrations import book

# isort: split
from followup.records.migrations import current

# isort: split
from followup.records.migrations import sessions

# isort: split
from followup.records.migrations import sealed

# isort: split
from followup.records.migrations import living

# isort: split
from followup.records.migrations import rights

# isort: split
from followup.records.migrations import kept_results

# isort: split
from followup.records.migrations import theatre

# isort: split
from followup.records.migrations import passkeys

# isort: split
from followup.records.migrations import reminded

# isort: split
from followup.records.migrations import packed

# isort: split
from followup.records.migrations import narrow

# isort: split
from followup.records.migrations import unsaid

# isort: split
from followup.records.migrations import traffic

# isort: split
from followup.records.migrations import unplanned

# isort: split
from followup.records.migrations import waiting
from followup.records.migrations.registry import steps

__all__ = [
    "book",
    "current",
    "first",
    "joined",
    "kept_results",
    "living",
    "mended",
    "narrow",
    "one_call",
    "packed",
    "passkeys",
    "put_right",
    "reminded",
    "rights",
    "sealed",
    "sessions",
    "steps",
    "theatre",
    "traffic",
    "two_eyes",
    "unplanned",
    "unsaid",
    "waiting",
]
