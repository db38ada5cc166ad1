"""Each change that the gate of promises tries still stands in the code, and names tests that are there: python -m tests.mutate_promises"""

import ast
from functools import cache

from tests.mutate_promises import ELSEWHERE, EQUIVALENT, ROOT, Change, changes, chosen_changes, dropped, path_of

FOLDERS = ("followup/care", "followup/records", "followup/web", "followup/exchange", "static")


@cache
def named_in(file: str) -> frozenset[str]:
    tree = ast.parse((ROOT / "tests" / file).read_text(encoding="utf-8"))
    return frozenset(node.name for node in tree.body if isinstance(node, ast.FunctionDef))


def fault(change: Change) -> str | None:
    """Why a change cannot be tried; None where it can."""
    stands = (ROOT / path_of(change.file)).read_text(encoding="utf-8").count(change.was)
    if stands != 1:
        return f"{change.file}: {change.was!r} stands there {stands} times"
    if change.was == change.becomes:
        return f"{change.file}: {change.was!r} changes nothing"
    for name in change.tests:
        file, _, test = name.partition("::")
        if "browser" in file or not (ROOT / "tests" / file).exists() or (test and test not in named_in(file)):
            return f"{change.file}: there is no test {name}"
    return None


def test_each_change_stands_once_in_its_file_and_its_tests_are_there() -> None:
    assert [found for change in changes() if (found := fault(change))] == []


def test_every_folder_has_its_share() -> None:
    files = [str(path_of(change.file)) for change in changes()]
    assert all(sum(file.startswith(folder) for file in files) >= 10 for folder in FOLDERS)
    assert len(files) >= 80


def test_what_is_changed_is_a_program_still() -> None:
    """Else its tests could not even begin, and that would seem to notice."""
    entries, chosen = list(dropped()), [change for change in chosen_changes() if change.file.suffix == ".py"]
    assert (len(entries) >= 100, len(chosen) >= 100) == (True, True)
    for mutation in (*entries, *chosen):
        compile(mutation.text, mutation.key, "exec")


def test_no_exception_stands_for_what_is_there_no_more() -> None:
    keys = {mutation.key for mutation in (*chosen_changes(), *dropped())}
    assert keys >= set(ELSEWHERE) | set(EQUIVALENT)
