"""Every number leads to a citation that can be looked up, and no citation stands there unused."""

import ast
import re
from pathlib import Path

import followup.clinical
from followup.clinical import durations
from followup.clinical.evidence import SOURCES
from followup.protocols import book
from followup.web.anybody.pages import MODELS

CORE = Path(followup.clinical.__file__).parent
TESTS = Path(__file__).parents[1]
# A library finds each of these: an identifier, a volume and page, a standard’s or guideline’s number, a page’s site and title.
FINDABLE = re.compile(
    r"\b\d{4};\d+|doi 10\.\d{4,}/|PMID \d+|PMC\d+|abstract \d+|guideline NG\d+|Clinical Knowledge Summary|"
    r"CD\d{6}|ICAO Doc \d+|WHO ICD-1[01]|safety alert .* \d{4}| at [a-z]+\.(com|de|govt\.nz)\b"
)
NO_SOURCE = {"CP", "DEF"}
NOT_KEYS = {"NG81"}  # the number of a guideline
KEY = r"[A-Z][A-Za-z]{1,5}\d\d[ab]?"


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


DRAFTS = "".join(book.draft_text(part) for part in ("rulebook", "reviews", "postures"))
LINES_REST_ON = set(re.findall(r'source = "(\w+)"', DRAFTS))


def cited_by_protocols() -> set[str]:
    in_brackets = {key for group in re.findall(r"\[([^\[\]]+)\]", DRAFTS) for key in re.split(", ?", group)}
    return LINES_REST_ON | {key for key in in_brackets if key in SOURCES or re.fullmatch(KEY, key)}


def cited_by_figures() -> set[str]:
    figures = {figure.source for module in MODELS for figure in module.MODEL.figures}
    return figures | {row.published.source for row in durations.compared()}


def test_every_source_is_used() -> None:
    assert set(SOURCES) - named_in_code() - cited_by_protocols() == set()


def test_nothing_cites_a_key_that_leads_nowhere() -> None:
    assert (cited_by_protocols() | cited_by_figures()) - set(SOURCES) == set()
    assert {text for text in named_in_code() if re.fullmatch(KEY, text)} - set(SOURCES) == set()


def test_a_library_finds_every_source_or_it_says_what_is_missing() -> None:
    vague = {key for key, said in SOURCES.items() if not FINDABLE.search(said)} - NO_SOURCE
    assert vague == {key for key, said in SOURCES.items() if "(incomplete: " in said}
    # No more of these: a new source comes in full. No line of a protocol rests on one.
    assert vague <= {"ABO", "Mtn", "SIO"}
    assert vague & LINES_REST_ON == set()


def test_keys_beside_the_tests_lead_to_a_source_too() -> None:
    found = set[str]()
    for file in TESTS.rglob("*.py"):
        comments = (line for line in file.read_text(encoding="utf-8").splitlines() if line.lstrip().startswith("#"))
        named = {key for line in comments for key in re.findall(rf"\b{KEY}\b", line)} - NOT_KEYS
        assert named <= set(SOURCES), file.name
        found |= named
    assert len(found) > 20


def test_each_rule_says_apart_where_the_danger_and_where_the_number_come_from() -> None:
    text = book.draft_text("rulebook")
    rules = text.count("[[rules]]")
    assert len(re.findall(r"^source = ", text, re.M)) == len(re.findall(r"^threshold_source = ", text, re.M)) == rules


def test_numbers_are_quoted_only_for_what_their_source_says() -> None:
    """Read in the sources: 30 and 40 mmHg [Bern12], 24 [NICE], a rise of 6 [Arm67], under 6 [TSV25], 0.14 and 0.18 [Lim10]."""
    says = {"Bern12": {30, 40}, "NICE": {24}, "Arm67": {6}, "TSV25": {5}, "Lim10": {0.15, 0.2}}
    for rule in book.rulebook().rules:
        if rule.threshold_source in says:
            numbers = {value for value in rule.threshold.values() if isinstance(value, int | float)}
            assert numbers & says[rule.threshold_source], rule.id
    assert {"CP", "DEF", "CKS", *says} == {rule.threshold_source for rule in book.rulebook().rules}
