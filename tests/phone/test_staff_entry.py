"""What the entry screen reads without a signal is what the core reads: one set of texts against both."""

import json
from pathlib import Path
from typing import Any

import pytest

from followup.care.today.daysheet import pressure_limits
from followup.clinical import acuity, pressure
from followup.clinical.errors import ClinicalError
from followup.protocols import book
from tests.phone.conftest import Run

VECTORS = json.loads((Path(__file__).parents[1] / "clinical/data/acuity-vectors.json").read_text(encoding="utf-8"))
ON_CHART = (
    "12",
    "12-1",
    "9p",
    "6",
    "60",
    "20",
    "100",
    "70 letters",
    "0.5",
    "0.3",
    "1.5",
    "7",
    "CF",
    "6/12",
    "20/40+1",
    "12 ph",
)
LOOK_UP = """
import { lookUp } from "./staff/acuity-table.js";

answer = given.vectors.map(({ text, notation }) => lookUp(given.table, text, notation ?? ""));
""".strip()
PRESSURES = """
import { asMmhg } from "./staff/measures.js";

answer = given.typed.map((typed) => asMmhg(typed, given.limits));
""".strip()


def test_the_table_looks_up_what_the_reader_reads(run: Run) -> None:
    found = run(LOOK_UP, {"table": acuity.table(), "vectors": VECTORS})
    for vector, answer in zip(VECTORS, found, strict=True):
        assert bool(answer.get("ask")) == bool(vector.get("ask")), vector
        assert answer.get("category") == vector.get("category"), vector
        assert answer.get("correction") == vector.get("correction"), vector
        if "logmar" in vector:
            read = acuity.read(vector["text"], vector.get("notation"))
            assert answer["row"] == [round(read.logmar, 3), read.snellen_6m, read.snellen_20ft, read.letters], vector
        else:
            assert not answer.get("row"), vector


def test_a_bare_number_on_the_clinic_s_chart_is_read_as_the_core_reads_it(run: Run) -> None:
    on_charts = [(text, chart) for text in ON_CHART for chart in acuity.CHARTS]
    found = run(
        LOOK_UP, {"table": acuity.table(), "vectors": [{"text": text, "notation": chart} for text, chart in on_charts]}
    )
    for (text, chart), answer in zip(on_charts, found, strict=True):
        try:
            read = acuity.read(acuity.on_chart(text, chart))
        except ClinicalError:
            assert not answer.get("row"), (text, chart)
        else:
            assert answer.get("row", [None])[0] == (None if read.category else round(read.logmar, 3)), (text, chart)


def core(typed: str) -> float | None:
    try:
        return pressure.read(typed)
    except ClinicalError:
        return None


@pytest.mark.parametrize(
    "typed", ["15", " 31 ", "31 mmHg", "31mm Hg", "2.0 kPa", "4,1kPa", "4.1 KPA", "15.5", "", "abc", "-3", "15 20", "kPa"]
)
def test_a_pressure_is_read_as_the_core_reads_it(run: Run, typed: str) -> None:
    limits: dict[str, Any] = pressure_limits(book.rulebook()).model_dump()
    (found,) = run(PRESSURES, {"typed": [typed], "limits": limits})  # JSON has no NaN: null
    expected = core(typed)
    assert found == (None if expected is None else pytest.approx(expected, abs=0.05))
