"""What a query gives, row by row."""

import sqlite3
from collections.abc import Iterator
from typing import Any


def named(cursor: sqlite3.Cursor) -> Iterator[dict[str, Any]]:
    """Each row by the names of its columns; of two with one name the later counts."""
    names = [column[0] for column in cursor.description]
    for row in cursor:
        yield dict(zip(names, row, strict=True))
