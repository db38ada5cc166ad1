"""Let the database fail at one write, and see all that it holds."""

import sqlite3
from collections.abc import Callable
from typing import Any, cast

import pytest

from followup.records import Store, sealing

BESIDE = ("tries", "faults")  # counters of guesses, and what the watch notes of a fault: meant to outlast what failed


class Full(sqlite3.OperationalError):
    """The disk is full."""


def dump(store: Store, without: tuple[str, ...] = BESIDE) -> list[str]:
    """All that the database holds, without some tables."""
    return [line for line in store.db.conn.iterdump() if not line.startswith(tuple(f'INSERT INTO "{t}"' for t in without))]


def failing_at(number: int, patch: pytest.MonkeyPatch) -> list[int]:
    """Let the `number`th row or entry that is written fail; returns a list that holds something once it has."""
    written, failed = [0], cast(list[int], [])

    def counting(write: Callable[..., Any]) -> Callable[..., Any]:
        def fails(*given: Any) -> Any:
            written[0] += 1
            if written[0] == number:
                failed.append(number)
                raise Full("the disk is full")
            return write(*given)

        return fails

    patch.setattr(Store, "execute", counting(Store.execute))
    patch.setattr(sealing, "write", counting(sealing.write))
    return failed
