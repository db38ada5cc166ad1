"""A few hundred random requests by every role: no fault of ours, and nothing half stored. More: `python -m tests.fuzz`."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import abort

from tests import fuzz
from tests.fuzz import kept
from tests.fuzz.rounds import Fuzz

SEED = 8


def test_random_requests_find_no_fault_and_get_to_the_code_behind(tmp_path: Path) -> None:
    told = fuzz.run(300, SEED, tmp_path)
    assert told.faults == []
    assert told.requests == 300
    assert told.reached > 210
    for table in ("events", "refused_events", "callback_steps"):
        assert told.kept[table] > 0, table


@pytest.fixture
def made(tmp_path: Path) -> Iterator[Fuzz]:
    """One that asks for the page of signing in only."""
    fuzzing = Fuzz(tmp_path, SEED, fuzz.Told())
    fuzzing.rules = [rule for rule in fuzzing.rules if rule.endpoint == "account.sign_in"]
    fuzzing.weights = [1]
    yield fuzzing
    fuzzing.store.close()


def ask(made: Fuzz, times: int = 10) -> str:
    for _ in range(times):
        made.one()
    return " ".join(made.told.faults)


def test_a_fault_is_found_and_told(made: Fuzz) -> None:
    assert ask(made) == ""
    made.app.view_functions["account.sign_in"] = lambda: str(1 // 0)
    assert "500 our own fault, ZeroDivisionError" in ask(made)


def test_what_a_refused_request_left_is_found_and_told(made: Fuzz) -> None:
    def half_done() -> str:
        made.store.execute("UPDATE patients SET name = 'Another'")
        abort(409)

    made.app.view_functions["account.sign_in"] = half_done
    assert "409 wrote to patients: nobody" in ask(made)


def test_what_was_rolled_back_counts_as_nothing(made: Fuzz) -> None:
    def undone() -> str:
        with made.store.transaction():
            made.store.execute("UPDATE patients SET name = 'Another'")
            abort(409)

    made.app.view_functions["account.sign_in"] = undone
    assert ask(made) == ""


def test_an_entry_that_is_not_where_its_acknowledgement_says_is_told(made: Fuzz) -> None:
    for status in ("received", "refused"):
        (said,) = kept.not_as_answered(made.store, [{"id": "nowhere", "status": status}])
        assert said == f"entry 'nowhere' was {status} and is nowhere"


def test_a_row_that_was_written_past_us_is_told(made: Fuzz) -> None:
    made.store.db.conn.execute("UPDATE patients SET name = 'Another'")
    made.store.db.conn.execute("DELETE FROM temp.touched")
    assert any("patients" in fault for fault in kept.faults(made.store, made.people.settings, made.people.now))
