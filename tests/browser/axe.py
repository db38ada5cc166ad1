"""What axe finds wrong on a page by WCAG 2.2, levels A to AAA, in light and in dark; and what is too small to press.

Axe is asked for violations only, and for contrast of each look once: a long table has thousands of cells and few colours,
and to measure each takes most of its time.
"""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

LEVELS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa"]  # no rule of axe is new at AAA since 2.0
ALL_BUT_CONTRAST = {
    "runOnly": {"type": "tag", "values": [*LEVELS, "best-practice"]},
    "rules": {"color-contrast": {"enabled": False}, "color-contrast-enhanced": {"enabled": False}},
}
CONTRAST = {"runOnly": {"type": "rule", "values": ["color-contrast-enhanced"]}}  # 7:1, large text 4.5:1 (1.4.6)
ASK = """async ([options, of]) => {
    const found = await axe.run(of === "looks" ? { include: looks() } : document, { ...options, resultTypes: ["violations"] });
    return found.violations;

    // Up to three elements of each look, since something may lie over one.
    function looks() {
        const grounds = new Map([[null, ""]]);
        const ground = (e) => {
            if (!grounds.has(e)) {
                const { backgroundColor, backgroundImage, opacity } = getComputedStyle(e);
                grounds.set(e, `${ground(e.parentElement)} ${backgroundColor} ${backgroundImage} ${opacity}`);
            }
            return grounds.get(e);
        };
        const found = new Map();
        for (const e of document.body.querySelectorAll("*")) {
            const says = e.matches("input, select, textarea") || [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
            if (!says || !e.checkVisibility({ visibilityProperty: true })) continue;
            const { color, fontSize, fontWeight } = getComputedStyle(e);
            const look = `${color} ${fontSize} ${fontWeight} ${ground(e)}`;
            const known = found.get(look) ?? found.set(look, []).get(look);
            if (known.length < 3) known.push(e);
        }
        return [...found.values()].flat();
    }
}"""

# WCAG 2.2, 2.5.5 (AAA) with what it excepts: a link in a line of text, and what has an equal on the page (the boxes of the
# clock face: keys, and a tap on the whole field). A label around a control counts. Dense tables of the staff keep to 24 px
# (2.5.8, AA): a day in one view is worth more there, and each line opens a page on which the same is 44 px.
SMALL = """(least) => [...document.querySelectorAll("a[href], button, input, select, textarea, summary")].flatMap((e) => {
    const { width, height } = (e.closest("label") ?? e).getBoundingClientRect();
    const shown = e.checkVisibility({ visibilityProperty: true }) && width > 0 && height > 0;
    const inline = e.tagName === "A" && getComputedStyle(e).display === "inline";
    const side = e.closest(".lines") ? 24 : least;
    if (!shown || inline || e.closest(".face, .unseen") || Math.min(width, height) >= side - 0.5) return [];
    return [`target: ${e.outerHTML.slice(0, 120)} ${width}x${height}`];
})"""


def violations(page: Page) -> list[str]:
    """Each violation on the page as it is, with the element and what is wrong."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    return [*_asked(page, ALL_BUT_CONTRAST, "document"), *_asked(page, CONTRAST, "looks")]


def violations_in_both(page: Page) -> list[str]:
    """Each violation in light, and each of contrast in dark, which changes colours and nothing else."""
    found = violations(page)
    page.emulate_media(color_scheme="dark")
    found += [f"dark: {fault}" for fault in _asked(page, CONTRAST, "looks")]
    page.emulate_media(color_scheme="light")
    return found


def too_small(page: Page, least_px: int = 44) -> list[str]:
    """What is pressed and has a side under `least_px` CSS pixels."""
    found: list[str] = page.evaluate(SMALL, least_px)
    return found


def _asked(page: Page, options: dict[str, object], of: str) -> list[str]:
    found = page.evaluate(ASK, [options, of])
    return [f"{v['id']}: {node['html'][:120]} {node['failureSummary'][:200]}" for v in found for node in v["nodes"]]
