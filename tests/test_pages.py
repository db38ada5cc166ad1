"""Tests of pages ask for elements (`tests/pages.py`), never for the way that they are written."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

FILES = sorted(Path(__file__).with_name("web").glob("*.py"))
OF_PATTERNS = re.compile(r"\(\?P?<|<>")  # signs that a pattern has of its own: groups, what goes before, a class of signs


def patterns(source: str) -> Iterator[str]:
    """What is written as the pattern of each call of `re`."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and node.args and ast.unparse(node.func).startswith("re."):
            parts = (part.value for part in ast.walk(node.args[0]) if isinstance(part, ast.Constant))
            yield "".join(str(part) for part in parts)


def reads_markup(pattern: str) -> bool:
    return any(sign in OF_PATTERNS.sub("", pattern) for sign in ("<", '="'))


def test_no_page_is_read_by_a_pattern() -> None:
    found = {file.name: list(filter(reads_markup, patterns(file.read_text(encoding="utf-8")))) for file in FILES}
    assert len(found) > 30
    assert {name: read for name, read in found.items() if read} == {}


def test_a_pattern_that_reads_markup_is_found() -> None:
    reading = """re.search(rf'<option value="{x}">', page), re.findall('id="(.*?)"', page)"""
    own = """re.sub(r"(?<!-)(?P<word>x)", "", words), re.compile("[<>]")"""
    assert [reads_markup(pattern) for pattern in patterns(f"{reading}, {own}")] == [True, True, False, False]
