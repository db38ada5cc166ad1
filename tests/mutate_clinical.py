"""Change the logic of the clinical core one place at a time and see that the fast tests notice: python -m tests.mutate_clinical

Mutations are made on the syntax tree: another comparison, another bound, a dropped term or condition, a sign turned,
minimum for maximum, two arguments swapped. Of each module the `EACH` with the smallest hash of what they change are run,
so that a change elsewhere does not reshuffle them; `--each N` tries more. Every one runs in a copy of the project,
against the tests that fit its module. One that nobody notices must stand in `EQUIVALENT` with the reason, or the exit
code is 1. Constants have a gate of their own (`tests.mutate_constants`).
"""

import argparse
import ast
import copy
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue
from typing import NamedTuple

ROOT = Path(__file__).parent.parent
CORE = Path("followup/clinical")
EACH, WORKERS, TOO_LONG_SECONDS = 6, 2, 120

RULES = ("warnings", "second_looks", "one_eye_after_another", "ten_courses", "checks", "bounds")
TESTS = {
    "acuity": ("acuity", "bounds"), "altitude": ("altitude", "bounds"), "bubble": ("bubble",), "chart_noise": ("sight",),
    "coverage": ("coverage",), "outcomes": ("outcomes", "bounds"), "overfill": ("overfill",), "posture": ("posture", "bounds"),
    "pressure": ("pressure",), "schedule": ("schedule", "bounds"), "sight": ("sight", "warnings", "one_eye_after_another"),
    "tamponade": ("tamponade",),
}  # fmt: skip

# What no test can notice, by the key that is printed, and why.
EQUIVALENT: dict[str, str] = {
    "acuity.py: _partial: operator: round(PARTIAL_LETTERS.value) * (1 if unsaid == '+' else -1) → "
    "round(PARTIAL_LETTERS.value) / (1 if unsaid == '+' else -1)": "to divide by 1 or -1 is to multiply by it",
    "bubble.py: meniscus_percent: compare: f > 0.5 → f >= 0.5": "the cubic is symmetric: both branches give one half",
    "callbacks.py: joined_by: compare: HOW_SOON.index(sign.how_soon) >= HOW_SOON.index(self.how_soon) → "
    "HOW_SOON.index(sign.how_soon) > HOW_SOON.index(self.how_soon)": "a later sign of the same urgency is due later",
    "course.py: _in_order: and-or: a.at == b.at and type(a) is type(b) → a.at == b.at or type(a) is type(b)": (
        "sorting again what is in order changes nothing; the condition only saves time"
    ),
}

_OTHER: dict[type, type] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
_OTHER_CALL = {"min": "max", "max": "min", "any": "all", "all": "any"}


class Mutation(NamedTuple):
    """One change: in which file, where and how (the key), and the whole text with it."""

    file: Path
    key: str
    text: str


def _changes(node: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    """(what is done, the node that takes its place) for each way to spoil a node."""
    if isinstance(node, ast.Compare) and type(node.ops[0]) in _OTHER:
        other = copy.deepcopy(node)
        other.ops[0] = _OTHER[type(node.ops[0])]()
        yield "compare", other
    if isinstance(node, ast.BoolOp):
        other = copy.deepcopy(node)
        other.op = _OTHER[type(node.op)]()
        yield "and-or", other
        for dropped in range(len(node.values)):
            rest = [copy.deepcopy(v) for n, v in enumerate(node.values) if n != dropped]
            yield f"drop condition {dropped + 1}", rest[0] if len(rest) == 1 else ast.BoolOp(node.op, rest)
    if isinstance(node, ast.BinOp) and type(node.op) in _OTHER:
        yield "operator", ast.BinOp(copy.deepcopy(node.left), _OTHER[type(node.op)](), copy.deepcopy(node.right))
        if isinstance(node.op, ast.Add | ast.Sub):
            yield "drop term", copy.deepcopy(node.left)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield "drop sign", copy.deepcopy(node.operand)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        if node.func.id in _OTHER_CALL:
            yield "min-max", ast.Call(ast.Name(_OTHER_CALL[node.func.id], ast.Load()), node.args, node.keywords)
        elif len(node.args) >= 2 and node.func.id[0].islower() and not any(isinstance(a, ast.Starred) for a in node.args):
            swapped = [copy.deepcopy(a) for a in node.args]
            swapped[0], swapped[1] = swapped[1], swapped[0]
            yield "swap arguments", ast.Call(node.func, swapped, node.keywords)


def _replaced(tree: ast.Module, target: int, by: ast.AST) -> ast.Module:
    """A copy of the tree with the node of that number (in the order of `ast.walk`) replaced."""
    made = copy.deepcopy(tree)
    goal = list(ast.walk(made))[target]
    for parent in ast.walk(made):
        for name, value in ast.iter_fields(parent):
            if value is goal:
                setattr(parent, name, by)
            elif isinstance(value, list) and any(v is goal for v in value):
                setattr(parent, name, [by if v is goal else v for v in value])
    return ast.fix_missing_locations(made)


_IGNORED_CALLS = {
    "Figure",
    "Model",
    "isinstance",
    "within",
    "one_of",
    "Literal",
    "range",
    "field",
    "zip",
    "hasattr",
    "getattr",
}


def mutations(file: Path) -> list[Mutation]:
    """Every change of one module's functions, in the order of their hashes; figures and type words are left alone."""
    tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
    numbers = {id(node): n for n, node in enumerate(ast.walk(tree))}
    found: dict[str, Mutation] = {}
    for function in (n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)):
        body = [node for part in function.body for node in ast.walk(part)]
        skipped = {
            id(inner)
            for node in body
            if isinstance(node, ast.Raise | ast.Assert | ast.AnnAssign)
            or (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _IGNORED_CALLS)
            for inner in ([node] if isinstance(node, ast.Call) else ast.walk(getattr(node, "annotation", None) or node))
        }
        for node in body:
            if id(node) in skipped:
                continue
            for how, other in _changes(node):
                key = f"{file.relative_to(CORE)}: {function.name}: {how}: {ast.unparse(node)}"
                key += f" → {ast.unparse(other)}"
                found.setdefault(key, Mutation(file, key, ast.unparse(_replaced(tree, numbers[id(node)], other))))
    return sorted(found.values(), key=lambda m: hashlib.sha256(m.key.encode()).hexdigest())


def _noticed(project: Path, mutation: Mutation) -> bool:
    """Whether the fitting tests fail on the changed module; a test that never ends has noticed too."""
    names = TESTS.get(mutation.file.stem, RULES)
    tests = [f"tests/clinical/test_{name}.py" for name in names if (ROOT / f"tests/clinical/test_{name}.py").exists()]
    whole = (ROOT / mutation.file).read_text(encoding="utf-8")
    (project / mutation.file).write_text(mutation.text, encoding="utf-8")
    try:
        done = subprocess.run(
            [sys.executable, "-m", "pytest", "-q", "-x", "--noconftest", "-p", "tests.few_examples", *tests],
            cwd=project, env={**os.environ, "PYTHONPATH": str(project)}, capture_output=True, check=False,
            timeout=TOO_LONG_SECONDS,
        )  # fmt: skip
        return done.returncode in (1, 2)
    except subprocess.TimeoutExpired:
        return True
    finally:
        (project / mutation.file).write_text(whole, encoding="utf-8")


def _copies(folder: Path) -> SimpleQueue[Path]:
    copies: SimpleQueue[Path] = SimpleQueue()
    for n in range(WORKERS):
        project = folder / str(n)
        for name in ("followup", "tests"):
            shutil.copytree(ROOT / name, project / name, ignore=shutil.ignore_patterns("__pycache__", "browser"))
        shutil.copy(ROOT / "pyproject.toml", project)
        copies.put(project)
    return copies


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--each", type=int, default=EACH, help="mutations of each module")
    options.add_argument("--only", default="", help="modules whose path holds this")
    chosen = options.parse_args()
    files = sorted(f.relative_to(ROOT) for f in (ROOT / CORE).rglob("*.py") if chosen.only in str(f.relative_to(ROOT)))
    tried = [m for file in files for m in mutations(file)[: chosen.each]]
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(WORKERS) as pool:
        copies = _copies(Path(folder))

        def run(mutation: Mutation) -> bool:
            project = copies.get()
            try:
                return _noticed(project, mutation)
            finally:
                copies.put(project)

        unseen = []
        for mutation, noticed in zip(tried, pool.map(run, tried), strict=True):
            if not noticed:
                unseen.append(mutation.key)
                print(f"{'equivalent' if mutation.key in EQUIVALENT else 'SURVIVED'}: {mutation.key}", flush=True)
    survived = [key for key in unseen if key not in EQUIVALENT]
    print(f"{len(tried)} mutations: {len(tried) - len(unseen)} noticed, {len(unseen) - len(survived)} equivalent")
    print(f"{len(survived)} SURVIVED" if survived else "none survived")
    return 1 if survived else 0


if __name__ == "__main__":
    sys.exit(main())
