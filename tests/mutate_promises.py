"""Break what is promised outside the core, one place at a time, and see that the tests notice: python -m tests.mutate_promises

Two kinds of change: those of `tests/promises.toml`, each with the tests that must notice; and, found by this program in every
module of care, each entry for the audit left out and each transaction taken away, which the table of verbs must notice
(`tests/care/test_verbs.py`, the cases that lead there) or the tests that `ELSEWHERE` names. Each is made in a copy of the tree
in a temporary folder, in a process of its own, forked before anything of the project was imported; the first test to fail
ends it. That the tests pass without a change is seen first. A change that nobody notices must stand in `EQUIVALENT` with the
reason, or the exit code is 1, as it is for a reason that no change asks for any more. `--only care/visits` tries the files
whose path holds this.
"""

import argparse
import ast
import importlib
import os
import shutil
import signal
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parent.parent
CARE = "care"
VERBS = "tests/care/test_verbs.py"
PARTS_OF_TREE = ("followup", "static", "templates", "demo_db", "tests", "pyproject.toml")
BEFORE = "as-it-was"
WORKERS, TOO_LONG_SECONDS, MOST_VERBS = 2, 300, 6
BEFORE_FORKING = (  # slow to import, and nothing of the project
    "flask", "flask_babel", "flask_compress", "flask_wtf", "wtforms", "pydantic", "sqlite_utils", "networkx", "hypothesis",
    "icalendar", "holidays", "argon2", "cryptography.fernet", "pywebpush", "py_vapid", "requests", "qrcode", "tomlkit",
    "structlog", "pyotp", "uuid_utils", "itsdangerous", "webauthn", "authlib.oidc.core",
    "apscheduler.schedulers.blocking", "time_machine", "aiosmtpd.smtp",
)  # fmt: skip

# Entries and transactions that another test must notice than the cases of the table that lead there. The second of one function
# has the number 2.
WHOLE = "care/test_whole_or_not.py"
LOOKS = f"{WHOLE}::test_nobody_else_writes_between_a_look_and_what_rests_on_it"
REFUSED = "care/test_verbs.py::test_a_failed_sign_in_is_on_record_once_with_where_it_came_from"
TRIES = "care/test_verbs.py::test_tries_count_until_the_sign_in_is_on_record"
ELSEWHERE = {
    "care/callbacks/settling.py: withdraw_theatre: no entry": "care/test_theatre.py",
    "care/accounts.py: confirmed: no transaction": LOOKS,
    "care/patients/erasing.py: erase: no transaction": LOOKS,
    "care/resetting.py: reset: no transaction": LOOKS,
    "care/signing_in.py: _counted: no transaction": LOOKS,
    "care/signing_in.py: _by_passkey: no transaction": LOOKS,
    "care/today/arrivals.py: arrive: no transaction": LOOKS,
    "care/corrections/standing_again.py: _say: no entry": "care/test_operation_note.py",
    "care/home/receive.py: count_junk: no transaction": WHOLE,
    "care/learning/contributions.py: bring_up_to_date: no transaction": WHOLE,
    "care/messages/outgoing.py: _taken: no transaction": WHOLE,
    "care/messages/outgoing.py: failed: no transaction": WHOLE,
    "care/reading/person.py: index_whoever_is_missing: no transaction": WHOLE,
    "care/reading/state.py: bring_up_to_date: no transaction": WHOLE,
    "care/reading/state.py: _all_anew: no transaction": WHOLE,
    "care/messages/outgoing.py: _drop: no transaction": WHOLE,
    "care/signing_in.py: refused_by_directory: no transaction": WHOLE,
    "care/signing_in.py: sign_in: no transaction": TRIES,
    "care/signing_in.py: sign_in: no entry": REFUSED,
    "care/signing_in.py: second_step: no entry 2": REFUSED,
    "care/signing_in.py: _by_passkey: no entry 2": REFUSED,
    "care/signing_in.py: by_directory: no entry": REFUSED,
}

# What no test can notice, by the key that is printed, and why.
EQUIVALENT: dict[str, str] = {}


class Change(NamedTuple):
    """A change that somebody chose: in this file, `was` becomes `becomes`, and these tests must notice."""

    file: str
    was: str
    becomes: str
    tests: tuple[str, ...]


def changes() -> list[Change]:
    found = tomllib.loads((ROOT / "tests/promises.toml").read_text(encoding="utf-8"))["changes"]
    return [Change(**{**change, "tests": tuple(change["tests"])}) for change in found]


class Mutation(NamedTuple):
    """One change: in which file, what it is (the key), the whole text with it, and what pytest is given."""

    file: Path
    key: str
    text: str
    tests: tuple[str, ...]


def chosen_changes() -> Iterator[Mutation]:
    """The changes that somebody chose."""
    for change in changes():
        file = path_of(change.file)
        text = (ROOT / file).read_text(encoding="utf-8")
        key = f"{change.file}: {_line(change.was)} → {_line(change.becomes) or '(nothing)'}"
        tests = tuple(f"tests/{name}" for name in change.tests)
        yield Mutation(file, key, text.replace(change.was, change.becomes), tests)


def path_of(file: str) -> Path:
    return Path(file) if file.startswith("static/") else Path("followup") / file


def _line(text: str) -> str:
    return " ".join(text.split())


class Care:
    """The modules of care as text: which functions call which, and so which verbs of the table lead to a function."""

    def __init__(self) -> None:
        self.files = sorted((ROOT / "followup" / CARE).rglob("*.py"))
        self.trees = {self._name(f): ast.parse(f.read_text(encoding="utf-8")) for f in self.files}
        self.calls = {f"{module}.{f.name}": set(self._called(module, f)) for module, f in self.functions()}
        table = ast.parse((ROOT / VERBS).read_text(encoding="utf-8"))
        known = {name: f"{module}" for name, module in self._imported(table)}
        self.verbs = [
            f"{known[node.args[0].value.id]}.{node.args[0].attr}"
            for node in ast.walk(table)
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "verb"
            and isinstance(node.args[0], ast.Attribute) and isinstance(node.args[0].value, ast.Name)
        ]  # fmt: skip

    def functions(self) -> Iterator[tuple[str, ast.FunctionDef]]:
        """Each function with its module, those of classes too."""
        for module, tree in self.trees.items():
            for node in tree.body:
                for inside in node.body if isinstance(node, ast.ClassDef) else [node]:
                    if isinstance(inside, ast.FunctionDef):
                        yield module, inside

    def leading_to(self, function: str) -> list[str]:
        """The cases of verbs from which a function is reached, those of the nearest verbs first."""
        near: dict[str, int] = {}
        for verb in set(self.verbs):
            steps, seen, frontier = 0, {verb}, {verb}
            while frontier and function not in seen:
                frontier = {next for known in frontier for next in self.calls.get(known, ())} - seen
                seen |= frontier
                steps += 1
            if function in seen:
                near[verb] = steps
        nearest = sorted(near, key=lambda verb: (near[verb], self.verbs.index(verb)))[:MOST_VERBS]
        return [f"{verb}-{n}" if n > 1 else verb for verb in nearest for n in range(1, self.verbs.count(verb) + 1)]

    @staticmethod
    def _name(file: Path) -> str:
        return ".".join(file.relative_to(ROOT / "followup" / CARE).with_suffix("").parts)

    @staticmethod
    def _imported(tree: ast.Module) -> Iterator[tuple[str, str]]:
        """(name here, its module or function in care) of everything imported from there."""
        for node in tree.body:
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("followup.care"):
                inside = (node.module or "").removeprefix("followup.care").removeprefix(".")
                for alias in node.names:
                    yield alias.asname or alias.name, f"{inside}.{alias.name}".removeprefix(".")

    def _called(self, module: str, function: ast.FunctionDef) -> Iterator[str]:
        known = dict(self._imported(self.trees[module]))
        for node in ast.walk(function):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                yield known.get(node.func.id, f"{module}.{node.func.id}")
            elif (
                isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and isinstance(node.func.value, ast.Name)
            ):
                yield f"{known.get(node.func.value.id, node.func.value.id)}.{node.func.attr}"


def dropped() -> Iterator[Mutation]:
    """Each entry for the audit left out, and each transaction taken away, in every function of care."""
    care = Care()
    for module, function in care.functions():
        file = Path("followup") / CARE / Path(*module.split(".")).with_suffix(".py")
        lines = (ROOT / file).read_text(encoding="utf-8").splitlines(keepends=True)
        tests = tuple(care.leading_to(f"{module}.{function.name}"))
        met: list[str] = []
        for first, last, become in sorted(how for node in ast.walk(function) if (how := _how(node))):
            met.append(become[1])
            number = f" {n}" if (n := met.count(become[1])) > 1 else ""
            key = f"{CARE}/{module.replace('.', '/')}.py: {function.name}: no {become[1]}{number}"
            text = "".join([*lines[: first - 1], become[0], *lines[last:]])
            yield Mutation(file, key, text, _tests(key, tests))


def _how(node: ast.AST) -> tuple[int, int, tuple[str, str]] | None:
    """(first line, last line, (what stands there instead, what it takes away)); None for what is neither."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call) and isinstance(node.value.func, ast.Attribute):
        called = node.value.func
        if called.attr == "note" and isinstance(called.value, ast.Name) and called.value.id in ("desk", "audit"):
            return node.lineno, node.end_lineno or node.lineno, (" " * node.col_offset + "pass\n", "entry")
    if isinstance(node, ast.With) and any("transaction" in ast.unparse(item) for item in node.items):
        others = [ast.unparse(item) for item in node.items if "transaction" not in ast.unparse(item)]
        instead = f"with {', '.join(others)}:\n" if others else "if True:\n"
        return node.lineno, node.body[0].lineno - 1, (" " * node.col_offset + instead, "transaction")
    return None


def _tests(key: str, verbs: Sequence[str]) -> tuple[str, ...]:
    if key in ELSEWHERE:
        return tuple(f"tests/{name}" for name in ELSEWHERE[key].split())
    if not verbs:
        return (VERBS,)
    case = "test_a_verb_leaves_its_entries_and_nothing_when_it_fails_half_way"
    return tuple(f"{VERBS}::{case}[{verb}]" for verb in verbs)


def _copy(folder: Path) -> Path:
    tree = folder / "tree"
    for part in PARTS_OF_TREE:
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, tree / part)
        else:
            tree.mkdir(exist_ok=True)
            shutil.copy2(ROOT / part, tree / part)
    return tree


def _fork(tree: Path, tests: Sequence[str], *, keep_code: bool) -> int:
    """The id of a process that passes these tests in that tree; its exit code is that of pytest."""
    process = os.fork()
    if process:
        return process
    code = 3
    try:
        if not keep_code:
            signal.alarm(TOO_LONG_SECONDS)
        if "--loud" not in sys.argv:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
        os.chdir(tree)
        for name in [name for name in sys.modules if name == "tests" or name.startswith("tests.")]:
            del sys.modules[name]
        sys.path = [str(tree), *(place for place in sys.path if place not in ("", str(ROOT)))]
        os.environ["PYTHONPATH"] = str(tree)
        sys.dont_write_bytecode = not keep_code
        code = int(pytest.main(["-q", "-x", "--no-header", "-p", "no:cacheprovider", *tests]))
    finally:
        os._exit(code)  # whatever happened: this process must not go on as its parent would


def _run(trees: Sequence[Path], tasks: Sequence[Mutation]) -> Iterator[tuple[Mutation, bool, float]]:
    """For each task in the order in which they end: whether its tests passed, and the seconds of work. Never ending is failing."""
    free, waiting = list(trees), list(tasks)
    running: dict[int, tuple[Path, Mutation]] = {}
    while waiting or running:
        while waiting and free:
            tree, task = free.pop(), waiting.pop(0)
            if task.text:
                shutil.copy2(tree / task.file, tree / BEFORE)
                (tree / task.file).write_text(task.text, encoding="utf-8")
            running[_fork(tree, task.tests, keep_code=not task.text)] = tree, task
        process, status, used = os.wait4(-1, 0)
        tree, task = running.pop(process)
        if task.text:
            shutil.move(tree / BEFORE, tree / task.file)
        free.append(tree)
        code = os.waitstatus_to_exitcode(status)
        of_table = any("[" in name for name in task.tests)  # a case that is not there would seem to notice
        if code not in (0, 1, 2, 4, -signal.SIGALRM) or (code == 4 and (of_table or not task.text)):
            raise SystemExit(f"the tests of {task.key} could not be run (exit code {code})")
        yield task, code == 0, used.ru_utime + used.ru_stime


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--only", default="", help="files whose path holds this")
    options.add_argument("--slow", type=float, default=60.0, help="name what takes more seconds of work")
    options.add_argument("--loud", action="store_true", help="show what pytest says")
    asked = options.parse_args()
    began = time.monotonic()
    tried = [m for m in (*chosen_changes(), *dropped()) if asked.only in str(m.file)]
    for name in BEFORE_FORKING:
        importlib.import_module(name)
    assert not any(name.partition(".")[0] == "followup" for name in sys.modules), (
        "the project must be imported anew each time"
    )
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    with tempfile.TemporaryDirectory(prefix="followup-promises-") as folder:
        trees = [_copy(Path(folder) / str(n)) for n in range(WORKERS)]
        names = sorted({name.partition("[")[0] for m in tried for name in m.tests})
        shares = [tuple(names[n::WORKERS]) for n in range(WORKERS)]
        for task, passed, _ in _run(trees, [Mutation(Path(), "nothing", "", share) for share in shares if share]):
            if not passed:
                raise SystemExit(f"one of these tests fails without any change: {' '.join(task.tests)}")
        print(f"the tests pass without any change, after {time.monotonic() - began:.0f} s", flush=True)
        unseen, work = [], 0.0
        for task, passed, seconds in _run(trees, tried):
            work += seconds
            if seconds > asked.slow:
                print(f"took {seconds:.1f} s of work: {task.key}", flush=True)
            if passed:
                unseen.append(task.key)
                print(f"{'equivalent' if task.key in EQUIVALENT else 'SURVIVED'}: {task.key}", flush=True)
    survived = [key for key in unseen if key not in EQUIVALENT]
    stale = sorted(EQUIVALENT.keys() & {m.key for m in tried} - set(unseen))
    for key in stale:
        print(f"noticed after all, take it off the list: {key}")
    print(f"{len(tried)} mutations: {len(tried) - len(unseen)} noticed, {len(unseen) - len(survived)} equivalent")
    print(
        f"{f'{len(survived)} SURVIVED' if survived else 'none survived'}, in {time.monotonic() - began:.0f} s, {work:.0f} s of work"
    )
    return 1 if survived or stale else 0


if __name__ == "__main__":
    sys.exit(main())
