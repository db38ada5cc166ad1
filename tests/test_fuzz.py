"""A few hundred random requests by every role: no fault of ours, and nothing half stored. More: `python -m tests.fuzz`."""

from pathlib import Path

import pytest

from tests import fuzz


def test_random_requests_find_no_fault(tmp_path: Path) -> None:
    done, faults = fuzz.run(300, 7, tmp_path)
    assert faults == []
    assert done.statuses[200] > 30
    done.store.close()


def test_a_fault_is_found_and_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = fuzz.Fuzz(tmp_path, 7)
    made.app.view_functions["pages.index"] = lambda: 1 / 0
    made.rules = [rule for rule in made.rules if rule.endpoint == "pages.index" and rule.rule == "/"]
    assert made.one()[1] == 500
    made.store.close()
