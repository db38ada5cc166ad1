"""The colours of every sheet, in light and in dark, also where no page of a test shows them: errors, verdicts, what is pressed.

Outside check: contrast as WCAG 2.2 defines it (relative luminance, 1.4.3): 7:1 for text (1.4.6, AAA), 3:1 for what shows
where a control is and where the focus is (1.4.11, 2.4.13).
"""

import re
from itertools import product

import pytest

from followup.resources import folder

SHEETS = {"patient": ("base.css", "patient.css"), "staff": ("base.css", "staff.css")}
DARK = re.compile(r"@media[^{]*prefers-color-scheme: dark\) \{\s*:root \{(.*?)\}", re.DOTALL)
LIGHT = re.compile(r"^:root \{(.*?)\}", re.DOTALL | re.MULTILINE)
TOKEN = re.compile(r"--([a-z-]+): (#[0-9a-f]{3,6});")
TEXT_ON = {
    "paper": ("ink", "muted", "deep", "now", "today", "week"),
    "soft": ("ink", "muted", "deep", "now", "today", "week"),
    "deep": ("on-deep",),
    "now": ("paper",),
    "draft": ("on-draft",),
}
SHAPES = ("edge", "focus", "deep")


def tokens(reader: str, scheme: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for look in (LIGHT, DARK) if scheme == "dark" else (LIGHT,):
        for sheet in SHEETS[reader]:
            for block in look.findall((folder("static") / sheet).read_text(encoding="utf-8")):
                found |= dict(TOKEN.findall(block))
    return found


def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
    shares = [int(digits[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_is_the_standard_s() -> None:
    # WCAG 2.2's own bounds, and the grey that its Understanding 1.4.3 names as just under 4.5:1 (#777) and over it (#767676).
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") < 4.5 < contrast("#767676", "#ffffff")


@pytest.mark.parametrize(("reader", "scheme"), list(product(SHEETS, ("light", "dark"))))
def test_text_reaches_seven_to_one_and_controls_three_to_one(reader: str, scheme: str) -> None:
    known = tokens(reader, scheme)
    pairs = [(text, ground, 7) for ground, texts in TEXT_ON.items() for text in texts]
    if reader == "staff":
        pairs += [("on-level", level, 7) for level in ("now", "today", "week")]
    pairs += [(shape, ground, 3) for shape, ground in product(SHAPES, ("paper", "soft"))]
    if reader == "patient":
        pairs = [pair for pair in pairs if "draft" not in pair]
    low = {(a, b): round(contrast(known[a], known[b]), 2) for a, b, least in pairs if contrast(known[a], known[b]) < least}
    assert low == {}


@pytest.mark.parametrize("sheet", ["base.css", "patient.css", "staff.css", "card.css", "patient/later/later.css"])
def test_no_colour_stands_outside_a_token(sheet: str) -> None:
    css = (folder("static") / sheet).read_text(encoding="utf-8")
    assert re.findall(r"#[0-9a-f]{3,8}\b", re.sub(r"--[a-z-]+: #[0-9a-f]{3,6};|#[a-z-]+(?=[^;{}]*\{)", "", css)) == []
