"""The look-up without a signal says what the reader in Python says: one set of texts against both."""

import json
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import BrowserContext

from followup.clinical import acuity
from followup.clinical.errors import ClinicalError
from tests.browser.conftest import RunningServer

ROOT = Path(__file__).parent.parent.parent
VECTORS = json.loads((ROOT / "tests" / "clinical" / "data" / "acuity-vectors.json").read_text(encoding="utf-8"))
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
EVERY_ONE = """async ([table, vectors]) => {
    const { lookUp } = await import("/static/staff/acuity-table.js");
    return vectors.map(({ text, notation }) => lookUp(table, text, notation ?? ""));
}"""


def test_the_table_looks_up_what_the_reader_reads(
    open_context: Callable[..., BrowserContext], server: RunningServer
) -> None:
    page = open_context().new_page()
    page.goto(f"{server.address}/sign-in")
    found = page.evaluate(EVERY_ONE, [acuity.table(), VECTORS])
    on_charts = [(text, chart) for text in ON_CHART for chart in acuity.CHARTS]
    called = page.evaluate(EVERY_ONE, [acuity.table(), [{"text": text, "notation": chart} for text, chart in on_charts]])
    for (text, chart), answer in zip(on_charts, called, strict=True):
        try:
            read = acuity.read(acuity.on_chart(text, chart))
        except ClinicalError:
            assert not answer.get("row"), (text, chart)
        else:
            assert answer.get("row", [None])[0] == (None if read.category else round(read.logmar, 3)), (text, chart)
    for vector, answer in zip(VECTORS, found, strict=True):
        assert bool(answer.get("ask")) == bool(vector.get("ask")), vector
        assert answer.get("category") == vector.get("category"), vector
        assert answer.get("correction") == vector.get("correction"), vector
        if "logmar" in vector:
            read = acuity.read(vector["text"], vector.get("notation"))
            assert answer["row"] == [round(read.logmar, 3), read.snellen_6m, read.snellen_20ft, read.letters], vector
        else:
            assert not answer.get("row"), vector
