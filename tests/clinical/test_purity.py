"""The core does no input or output, knows no clock, and shows its evidence."""

import ast
import importlib
from pathlib import Path

import pytest

import followup.clinical
from followup.clinical.errors import one_of, within
from followup.clinical.evidence import SOURCES, Figure
from followup.web.anybody.pages import MODELS

FOLDER = Path(followup.clinical.__file__).parent
MODULES = sorted(".".join(f.relative_to(FOLDER).with_suffix("").parts) for f in FOLDER.rglob("*.py") if f.stem != "__init__")
ALLOWED = {
    "__future__",
    "collections",
    "dataclasses",
    "datetime",
    "followup",
    "functools",
    "itertools",
    "math",
    "networkx",
    "operator",
    "re",
    "statistics",
    "typing",
}


def _source(name: str) -> str:
    return FOLDER.joinpath(*name.split(".")).with_suffix(".py").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", MODULES)
def test_a_module_imports_nothing_that_reads_or_writes(name: str) -> None:
    tree = ast.parse(_source(name))
    imported = {n.name.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.Import) for n in node.names}
    imported |= {node.module.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}
    assert imported <= ALLOWED
    clocks = [
        n
        for n in ast.walk(tree)
        if isinstance(n, ast.Attribute) and n.attr in ("now", "today", "utcnow") and isinstance(n.value, ast.Name)
    ]
    assert not [n for n in clocks if n.value.id in ("datetime", "date", "time")]  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", MODULES)
def test_public_functions_and_classes_say_what_they_do(name: str) -> None:
    module = importlib.import_module(f"followup.clinical.{name}")
    assert module.__doc__
    tree = ast.parse(_source(name))
    public = [n for n in tree.body if isinstance(n, ast.FunctionDef) and not n.name.startswith("_")]
    short = {"kpa"}
    assert [n.name for n in public if not ast.get_docstring(n) and n.name not in short] == []


def test_every_figure_has_a_source_in_the_list() -> None:
    figures = [f for module in MODELS for f in module.MODEL.figures]
    assert len(figures) > 80
    for figure in figures:
        assert isinstance(figure, Figure)
        assert figure.citation == SOURCES[figure.source]
        assert figure.source != "CP" or figure.provenance != "read", figure.name


def test_refusals_name_what_is_accepted() -> None:
    with pytest.raises(ValueError, match="accepted are: a, b"):
        one_of("letter", "c", ("a", "b"))
    with pytest.raises(ValueError, match="accepted is 1 to 2 mm"):
        within("a length of", 3, 1, 2, " mm")
    assert (one_of("letter", "a", ("a",)), within("a length of", 1, 1, 2)) == ("a", 1)
