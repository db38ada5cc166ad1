"""Every number leads to a citation that can be looked up, and no citation stands there unused."""

import ast
import re
from pathlib import Path

import followup.clinical
from followup.clinical.evidence import SOURCES
from followup.protocols import book

CORE = Path(followup.clinical.__file__).parent
LOOKED_UP = re.compile(
    r"\d{4};|doi |PMID|PMC|NG81|CD\d+|Doc \d+|ICD-1[01]|H54|abstract|by its title|web page|handbook|"
    r"medical manual|convention|memory|second-hand|IOVS|"
    r"No measurement|no measurement|Common practice|20\d\d"
)


def named_in_code() -> set[str]:
    """Source keys that a figure or table of the core names, or that stand in brackets where a docstring explains."""
    found: set[str] = set()
    for file in CORE.rglob("*.py"):
        if file.stem == "evidence":
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found |= {node.value} | {
                    key.strip() for group in re.findall(r"\[([^\]]+)\]", node.value) for key in group.split(",")
                }
    return found


def test_every_source_is_used_and_can_be_looked_up() -> None:
    used = named_in_code()
    for rule in book.rulebook().rules:
        used |= {rule.source, rule.threshold_source}
    for text in ("reviews", "postures"):
        used |= set(re.findall(r'source = "(\w+)"', book.draft_text(text)))
    assert set(SOURCES) - used == set()
    assert [key for key, citation in SOURCES.items() if not LOOKED_UP.search(citation)] == []


def test_each_rule_says_apart_where_the_danger_and_where_the_number_come_from() -> None:
    text = book.draft_text("rulebook")
    rules = text.count("[[rules]]")
    assert len(re.findall(r"^source = ", text, re.M)) == len(re.findall(r"^threshold_source = ", text, re.M)) == rules


def test_numbers_are_quoted_only_for_what_their_source_says() -> None:
    """Read in the sources: 30 and 40 mmHg [Bern12], 24 [NICE], a rise of 6 [Arm67], under 6 [TSV25], 0.14 and 0.18 [Lim10]."""
    says = {
        "Bern12": {30, 40}, "NICE": {24}, "Arm67": {6}, "TSV25": {5}, "Lim10": {0.15, 0.2}, "Mtn": {1200},
    }  # fmt: skip
    for rule in book.rulebook().rules:
        if rule.threshold_source in says:
            numbers = {value for value in rule.threshold.values() if isinstance(value, int | float)}
            assert numbers & says[rule.threshold_source], rule.id
    assert {"CP", "DEF", "CKS", *says} == {rule.threshold_source for rule in book.rulebook().rules}
