"""The benchmark runs and gives every figure with its yardstick. How large they are is looked at by people, never here."""

import json
from pathlib import Path

import pytest

from demo_db import data, many
from tests.benchmark import __main__ as benchmark
from tests.benchmark import side_by_side


def test_it_gives_every_figure_at_a_tiny_size(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told = data.eyes()[:2]
    monkeypatch.setattr(data, "eyes", lambda: told)
    monkeypatch.setattr(many, "MOST_LIVED", 1)
    monkeypatch.setattr(benchmark, "STARTS", 1)
    monkeypatch.setattr(side_by_side, "CLINICS", 2)
    out = tmp_path / "figures.json"
    found = benchmark.main(["--eyes", "20", "--seconds", "0", "--folder", str(tmp_path), "--out", str(out)])
    assert json.loads(out.read_text()) == found
    assert set(found) == {"at", "machine", "start", "sizes", "ten clinics", "growth"}
    assert set(found["ten clinics"]) == {"pages", "cpu", "entries", "memory"}
    (of,) = found["sizes"].values()
    assert set(of) == {"built_cpu_seconds", "disk", "pages", "admin", "entries", "clock", "memory"}
    assert set(of["pages"]) == set(found["growth"]) == {
        "today", "callbacks", "search", "one eye", "day sheet", "needs me",
    }  # fmt: skip
    assert set(of["clock"]) == {"check", "escalate", "messages"}
    cpu = [page["cpu"] for page in of["pages"].values()]
    for figure in (
        found["start"],
        of["disk"],
        of["entries"],
        of["memory"],
        *of["pages"].values(),
        *found["ten clinics"].values(),
        *of["clock"].values(),
        *cpu,
    ):
        assert {"measured", "yardstick", "unit", "ratio"} <= set(figure)
        assert figure["measured"] >= 0
    table = capsys.readouterr().out
    for name in (
        "followup --help",
        "20 eyes",
        "durable entries",
        "quiet minute: check",
        "memory of the server",
        "growth of today",
        "ten clinics side by side",
    ):
        assert name in table
