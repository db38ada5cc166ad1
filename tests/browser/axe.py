"""What axe finds wrong on a page, asked for violations only: what passes takes most of its time."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

ASK = "options => axe.run(document, options).then(({ violations }) => violations)"


def violations(page: Page, options: dict[str, Any]) -> list[str]:
    """Each violation with the element and what is wrong."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    found = page.evaluate(ASK, {**options, "resultTypes": ["violations"]})
    return [f"{v['id']}: {node['html'][:120]} {node['failureSummary'][:200]}" for v in found for node in v["nodes"]]
