"""How long the whole draft rulebook takes on one eye, and how that grows. Run by hand: python -m tests.benchmark_rulebook

Reports ratios to a fixed piece of work measured in the same run, beside the milliseconds.
"""

import timeit
from collections.abc import Callable
from datetime import timedelta

from followup.clinical.course import Course
from followup.clinical.facts import BubbleSeen, Fact
from followup.clinical.warnings import evaluate
from followup.protocols import book
from tests.courses import GAS_PLAN, at, measures, operation, postured, symptoms

REPEATS = 7


def course(facts: int) -> Course:
    """A third checks, a third posture or levels, a third measures, spread over the weeks."""
    made: list[Fact] = []
    for n in range(facts):
        day = 0.4 + n * 60 / facts
        kinds: list[Callable[[], Fact]] = [
            lambda d=day: symptoms(d),
            lambda d=day: postured(d, 11) if d < 6 else BubbleSeen(at(d), max(0, 90 - 2 * d)),
            lambda d=day: measures(d, acuity="6/24", iop_mmhg=16, pain=1),
        ]
        made.append(kinds[n % 3]())
    return Course.after(operation(plan=GAS_PLAN), (), tuple(made))


def best_ms(work: Callable[[], object], number: int) -> float:
    return min(timeit.repeat(work, number=number, repeat=REPEATS)) / number * 1000


def main() -> None:
    unit = best_ms(lambda: sum(range(10_000)), 200)
    print(f"unit of work, sum(range(10000)): {unit:.3f} ms; rules: {len(book.rulebook().rules)}")
    for facts in (15, 30, 60, 120, 240, 480):
        made = course(facts)
        now = at(61) + timedelta(hours=1)
        ms = best_ms(lambda made=made, now=now: evaluate(made, book.rulebook(), now), 100)
        print(f"{facts:4} facts: {ms:6.3f} ms, {ms / unit:6.1f} units, {ms / facts * 1000:5.1f} µs a fact")


if __name__ == "__main__":
    main()
