"""Change the logic of the clinical core one place at a time and see that the fast tests notice: python -m tests.mutate_clinical

Mutations are made on the syntax tree: another comparison, another bound, a dropped term or condition, a sign turned,
minimum for maximum, two arguments swapped. Of each module the `EACH` with the smallest hash of what they change are run,
so that a change elsewhere does not reshuffle them; `--each N` tries more. Each is tried in a process of its own, forked
before anything of the project was imported, so that tables made at import are made by the changed module too; nothing is
written. The tests that fit the module run the quickest first, and the first to fail ends it. That they pass without a
change is seen first. One that nobody notices must stand in `EQUIVALENT` with the reason, or the exit code is 1, as it is
for a reason that no change asks for any more. Constants have a gate of their own (`tests.mutate_constants`).
"""

import argparse
import ast
import copy
import hashlib
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import signal
import sys
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, ModuleType
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parent.parent
CORE = Path("followup/clinical")
EACH, WORKERS = 6, 2
TOO_LONG_SECONDS = 120  # of the processor's time: on a busy machine nothing is noticed only because it waited

# The quickest first.
RULES = ("checks", "one_eye_after_another", "bounds", "second_looks", "sight", "ten_courses", "warnings")
TESTS = {
    "attendance": (*RULES, "without_the_app", "next_look"), "success": ("success",),
    "acuity": ("bounds", "acuity"), "altitude": ("altitude", "bounds"), "bubble": ("bubble",), "chart_noise": ("sight",),
    "coverage": ("coverage",), "drop_times": ("drop_times",), "drops": ("drops",),
    "next_look": ("next_look",), "second_thoughts": ("second_thoughts",),
    "tamponades": (*RULES, "next_look"), "durations": ("tamponade",), "outcomes": ("outcomes", "bounds"), "overfill": ("overfill",),
    "posture": ("posture", "bounds"), "pressure": ("pressure",), "schedule": ("bounds", "schedule"),
    "sight": ("one_eye_after_another", "sight", "warnings"), "vision": ("bounds", "acuity"),
    **dict.fromkeys(("course", "facts", "timeline"), ("stage", *RULES)),
    **dict.fromkeys(("agents", "fading_cases", "forecasts", "seen_levels", "tamponade"), ("tamponade",)),
}  # fmt: skip
BEFORE_FORKING = ("hypothesis", "numpy", "scipy.stats", "networkx")  # slow to import, and nothing of the project

# What no test can notice, by the key that is printed, and why.
EQUIVALENT: dict[str, str] = {
    "acuity.py: _partial: operator: round(PARTIAL_LETTERS.value) * (1 if unsaid == '+' else -1) → "
    "round(PARTIAL_LETTERS.value) / (1 if unsaid == '+' else -1)": "to divide by 1 or -1 is to multiply by it",
    "bubble.py: _height_of_small_fill: compare: f < 1e-06 → f <= 1e-06": "at a millionth both ways give the same root",
    "bubble.py: meniscus_percent: compare: f > 0.5 → f >= 0.5": "the cubic is symmetric: both branches give one half",
    "callbacks.py: joined_by: compare: HOW_SOON.index(sign.how_soon) >= HOW_SOON.index(self.how_soon) → "
    "HOW_SOON.index(sign.how_soon) > HOW_SOON.index(self.how_soon)": "a later sign of the same urgency is due later",
    "coverage.py: hours_covered: compare: wanted <= -swing + 1e-09 → wanted < -swing + 1e-09": (
        "what lies exactly a billionth inside is drawn as the whole ring either way"
    ),
    **dict.fromkeys(
        (
            "facts.py: in_order: and-or: a.at == b.at and type(a) is type(b) → a.at == b.at or type(a) is type(b)",
            "facts.py: in_order: drop condition 1: a.at == b.at and type(a) is type(b) → type(a) is type(b)",
            "facts.py: in_order: drop condition 2: a.at == b.at and type(a) is type(b) → a.at == b.at",
        ),
        "sorting again what is in order changes nothing; the condition only saves time",
    ),
    "tamponade.py: _prior: operator: life * math.exp(spread * z) → life / math.exp(spread * z)": (
        "eyes whose gas lasts longer and shorter are as likely as each other in the logarithm: the same cases in another order"
    ),
    "durations.py: _first_order: operator: low.low - high.low → low.low + high.low": (
        "of every gas with a published half-life some eyes hold less than nine tenths from the first day: high.low is nought"
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

    @property
    def module(self) -> str:
        return ".".join(self.file.with_suffix("").parts)

    @property
    def tests(self) -> tuple[str, ...]:
        return TESTS.get(self.file.stem, RULES)


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


class _Changed(importlib.abc.MetaPathFinder):
    """Finds one module with the text of a mutation instead of its own."""

    def __init__(self, mutation: Mutation) -> None:
        self.mutation = mutation

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self.mutation.module:
            return None
        file, text = str(ROOT / self.mutation.file), self.mutation.text

        class Loader(importlib.machinery.SourceFileLoader):
            def get_code(self, fullname: str) -> CodeType:
                return compile(text, file, "exec", dont_inherit=True)

        return importlib.util.spec_from_file_location(fullname, file, loader=Loader(fullname, file))


def _fork(tests: Sequence[str], mutation: Mutation | None) -> int:
    """The id of a process that passes these tests, the module changed; its exit code is that of pytest."""
    process = os.fork()
    if process:
        return process
    code = 3
    try:
        signal.setitimer(signal.ITIMER_PROF, TOO_LONG_SECONDS)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        if mutation is not None:
            sys.meta_path.insert(0, _Changed(mutation))
        files = [f"tests/clinical/test_{name}.py" for name in tests]
        code = int(pytest.main(["-q", "-x", "--noconftest", "-p", "no:cacheprovider", "-p", "tests.few_examples", *files]))
    finally:
        os._exit(code)  # whatever happened: this process must not go on as its parent would


def _passed(tasks: Sequence[tuple[Sequence[str], Mutation | None]]) -> Iterator[tuple[int, bool]]:
    """For each task in the order in which they end: its number, and whether its tests passed. Never ending is failing."""
    running: dict[int, int] = {}
    waiting = list(enumerate(tasks))
    while waiting or running:
        while waiting and len(running) < WORKERS:
            number, (tests, mutation) = waiting.pop(0)
            running[_fork(tests, mutation)] = number
        process, status = os.wait()
        code = os.waitstatus_to_exitcode(status)
        if code not in (0, 1, 2, -signal.SIGPROF):
            raise SystemExit(f"the tests could not be run (exit code {code})")
        yield running.pop(process), code == 0


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--each", type=int, default=EACH, help="mutations of each module")
    options.add_argument("--only", default="", help="modules whose path holds this")
    chosen = options.parse_args()
    os.chdir(ROOT)
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    began = time.monotonic()
    files = sorted(f.relative_to(ROOT) for f in (ROOT / CORE).rglob("*.py") if chosen.only in str(f.relative_to(ROOT)))
    tried = [m for file in files for m in mutations(file)[: chosen.each]]
    for name in BEFORE_FORKING:
        importlib.import_module(name)
    assert not any(name.partition(".")[0] == "followup" for name in sys.modules), "the core must be imported anew each time"
    names = sorted({name for m in tried for name in m.tests})
    failing = [names[n] for n, passed in _passed([((name,), None) for name in names]) if not passed]
    if failing:
        raise SystemExit(f"these tests fail without any change: {', '.join(failing)}")
    unseen = []
    for n, passed in _passed([(m.tests, m) for m in tried]):
        if passed:
            unseen.append(tried[n].key)
            print(f"{'equivalent' if tried[n].key in EQUIVALENT else 'SURVIVED'}: {tried[n].key}", flush=True)
    survived = [key for key in unseen if key not in EQUIVALENT]
    stale = sorted(EQUIVALENT.keys() & {m.key for m in tried} - set(unseen))
    for key in stale:
        print(f"noticed after all, take it off the list: {key}")
    print(f"{len(tried)} mutations: {len(tried) - len(unseen)} noticed, {len(unseen) - len(survived)} equivalent")
    print(f"{f'{len(survived)} SURVIVED' if survived else 'none survived'}, in {time.monotonic() - began:.0f} s")
    return 1 if survived or stale else 0


if __name__ == "__main__":
    sys.exit(main())
