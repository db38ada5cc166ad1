"""How many false alarms, and how many dangers found in time: python -m tests.simulate [--seed N] [--eyes N]

The eyes are those of `tests.simulated_eyes`, which lists what is assumed. A danger counts as found by the first sign of
the urgency named, raised after its onset. Intervals are 95 %: Wilson for shares, normal for means. Run by hand.
"""

import argparse
import math
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from datetime import timedelta
from typing import Any, NamedTuple

import numpy as np

from followup.clinical import second_looks
from followup.clinical.callbacks import DUE_WITHIN, Callback, callbacks
from followup.clinical.course import Course
from followup.clinical.facts import Measures, Settled
from followup.clinical.warnings import Sign, evaluate
from followup.protocols import book
from tests.courses import at, diary, measures, signs
from tests.simulated_eyes import OPERATED, SimulatedEye, Trouble

URGENT = ("now", "today")
Rng = np.random.Generator
WORKERS = 2


def lived_through(eye: SimulatedEye) -> tuple[list[Sign], list[Callback]]:
    """The signs and callbacks of an eye whose second looks are answered and whose callbacks are settled as they come."""
    rules, until = book.rulebook(), eye.time(eye.until)
    course, done = eye.course, set[Any]()
    while True:
        found = evaluate(course, rules, until)
        settled = [f for f in course.facts if isinstance(f, Settled)]
        opened = callbacks(found, settled)
        looks = [look for look in second_looks.second_looks(course, rules, until) if (look.asked_at, look.signs) not in done]
        waiting = [c for c in opened if c.settled_at is None and (c.opened_at, c.worry) not in done]
        steps = [(look.asked_at, 0, look) for look in looks] + [(c.opened_at, 1, c) for c in waiting]
        if not steps:
            return found, opened
        _, kind, step = min(steps, key=lambda s: s[:2])
        if kind == 0:
            done.add((step.asked_at, step.signs))
            fact = eye.second_look(step.asked_at, step.due_at, step.signs)
        else:
            done.add((step.opened_at, step.worry))
            share = eye.rng.uniform(0.2, 0.9)
            called_at = max(step.opened_at, step.due_at - DUE_WITHIN[step.how_soon])  # when it became as urgent as it is
            fact = Settled(called_at + (step.due_at - called_at) * float(share), step.worry)
        if fact is not None:
            course = Course(course.eye, course.operations, course.visits, (*course.facts, fact), course.zone)


def ramp(day: float, onset: float, per_day: float, most: float) -> float:
    return min(most, max(0.0, day - onset) * per_day)


def some(rng: Rng, onset: float, shares: dict[str, float], lag_hours: float) -> dict[str, float]:
    """From which day each sign is noticed, by those who notice it; the first at the onset."""
    lags = {n: rng.exponential(lag_hours / 24) for n, share in shares.items() if rng.random() < share}
    return {n: onset + lag - min(lags.values()) for n, lag in lags.items()}


def at_least_one(rng: Rng, onset: float, shares: dict[str, float], lag_hours: float) -> dict[str, float]:
    """`some`, of patients who notice something."""
    return some(rng, onset, shares, lag_hours) or at_least_one(rng, onset, shares, lag_hours)


INFECTION = {"vision": 0.85, "redness": 0.56, "discharge": 0.26, "floaters": 0.2}


def infection_with_pain(rng: Rng) -> Trouble:
    onset, worst = float(np.clip(rng.lognormal(math.log(3), 0.7), 0.7, 20)), rng.uniform(4, 9)
    return Trouble(
        onset,
        at_least_one(rng, onset, INFECTION, 3),
        lambda d: 0 if d < onset else worst * min(1, 0.5 + (d - onset)),
        lambda d, usual: usual + ramp(d, onset, 3, 8),
        lambda d: ramp(d, onset, 1, 1.5),
        lambda d: frozenset({"hypopyon"}) if d > onset + 0.5 and rng.random() < 0.78 else frozenset(),
    )


def infection_without_pain(rng: Rng) -> Trouble:
    found = infection_with_pain(rng)
    found.pain = lambda d: 0.0
    return found


def spike(rng: Rng) -> Trouble:
    onset, peak, hurts = float(rng.uniform(0.1, 2.5)), rng.uniform(16, 38), rng.random() < 0.5
    sick = {"vomiting": onset + 0.2} if hurts and rng.random() < 0.4 else {}
    return Trouble(
        onset,
        sick | some(rng, onset, {"vision": 0.2}, 12),
        lambda d: rng.uniform(4, 8) if hurts and onset < d < onset + 5 else 0,
        lambda d, usual: usual + (peak if onset < d < onset + 6 else 0),
        operation={"agent": str(rng.choice(["sf6", "c3f8", "silicone-oil"]))},
    )


def steroid_fast(rng: Rng) -> Trouble:
    onset, most = float(rng.uniform(2.5, 6)), rng.uniform(9, 26)
    operation = {"agent": str(rng.choice(["silicone-oil", "sf6", "c3f8"], p=[0.5, 0.25, 0.25]))}
    hurts = rng.random() < 0.2
    return Trouble(
        onset,
        some(rng, onset + 2, {"vision": 0.1}, 24),
        lambda d: 5.0 if hurts and onset + 2 < d < onset + 20 else 0,
        lambda d, usual: usual + (ramp(d, onset, most / 3, most) if d < 40 else 0),
        operation=operation,
    )


def steroid_slow(rng: Rng) -> Trouble:
    onset, rate, most = float(rng.uniform(10, 28)), rng.uniform(0.5, 1.0), rng.uniform(9, 22)
    return Trouble(
        onset,
        {},
        iop=lambda d, usual: usual + (ramp(d, onset, rate, most) if d < 75 else 0),
        operation={"steroid_drops_until": OPERATED + timedelta(days=42)},
    )


def low_pressure(rng: Rng) -> Trouble:
    onset, least, days = float(rng.uniform(28, 150)), rng.uniform(2, 6), rng.uniform(14, 28)
    risk = str(rng.choice(["residual-traction", "myopia", "diabetic", "none"], p=[0.3, 0.2, 0.2, 0.3]))
    return Trouble(
        onset,
        some(rng, onset + 10, {"vision": 0.4}, 120),
        iop=lambda d, usual: least if d > onset + days else usual + (least - usual) * max(0.0, d - onset) / days,
        logmar_loss=lambda d: ramp(d, onset + 10, 0.01, 0.3),
        operation={"risks": frozenset({risk} - {"none"})},
    )


def new_vessels(rng: Rng) -> Trouble:
    onset, rate, most = float(rng.uniform(30, 180)), rng.uniform(0.4, 1.1), rng.uniform(14, 34)
    hurts = rng.random() < 0.5
    return Trouble(
        onset,
        some(rng, onset + 14, {"redness": 0.5, "vision": 0.4}, 72),
        lambda d: 5.5 if hurts and d > onset + most / rate else 0,
        lambda d, usual: usual + ramp(d, onset, rate, most),
        findings=lambda d: frozenset({"iris-vessels"}) if d > onset and rng.random() < 0.7 else frozenset(),
        operation={"risks": frozenset({"diabetic"}), "indication": "diabetic-traction"},
    )


def detachment(rng: Rng) -> Trouble:
    onset = float(np.clip(rng.lognormal(math.log(28), 0.6), 5, 120))
    return Trouble(
        onset,
        some(rng, onset, {"curtain": 0.7, "vision": 0.6, "floaters": 0.3, "flashes": 0.25}, 24),
        logmar_loss=lambda d: ramp(d, onset, 0.15, 1.2),
        findings=lambda d: frozenset({"detached"}) if d > onset + 0.5 else frozenset(),
    )


def haemorrhage(rng: Rng) -> Trouble:
    onset = float(np.clip(rng.lognormal(math.log(14), 1.0), 1, 120))
    return Trouble(
        onset,
        some(rng, onset, {"floaters": 0.85, "vision": 0.75}, 8),
        logmar_loss=lambda d: 0 if d < onset else 0.8 * math.exp(-(d - onset) / 40),
        findings=lambda d: frozenset({"haemorrhage"}) if onset < d < onset + 60 else frozenset(),
        operation={"risks": frozenset({"diabetic"}), "indication": "diabetic-haemorrhage"},
    )


def leak(rng: Rng) -> Trouble:
    onset, least = float(rng.uniform(0.1, 5)), rng.uniform(1, 5)
    return Trouble(
        onset,
        some(rng, onset, {"vision": 0.4, "discharge": 0.2}, 24),
        lambda d: 0.0,
        lambda d, usual: least if onset < d < onset + 14 else usual,
        findings=lambda d: frozenset({"leak"}) if onset < d < onset + 14 and rng.random() < 0.5 else frozenset(),
    )


def cataract(rng: Rng) -> Trouble:
    rate = rng.uniform(0.02, 0.08) / 30
    return Trouble(30, {}, logmar_loss=lambda d: ramp(d, 30, rate, 1.2), operation={"lens": "phakic"})


class Danger(NamedTuple):
    """What to find, in how many days, at least how urgent, and the goal in percent (None: not lower than before)."""

    name: str
    makes: Callable[[Rng], Trouble]
    days: float
    urgencies: tuple[str, ...]
    goal: str


ANY = ("now", "today", "this-week")
DANGERS = (
    Danger("infection with pain: now within 24 h", infection_with_pain, 1, ("now",), "not lower"),
    Danger("infection without pain: now within 24 h", infection_without_pain, 1, ("now",), "≥ 85 %"),
    Danger("pressure spike: urgent within 3 days", spike, 3, URGENT, "not lower"),
    Danger("fast steroid response within 7 days", steroid_fast, 7, ANY, "not lower"),
    Danger("slow steroid response within 21 days", steroid_slow, 21, ANY, "≥ 92 %"),
    Danger("late low pressure within 28 days", low_pressure, 28, ANY, "≥ 80 %"),
    Danger("new vessels with pressure within 21 days", new_vessels, 21, ANY, "≥ 80 %"),
    Danger("re-detachment: urgent within 7 days", detachment, 7, URGENT, "not lower"),
    Danger("haemorrhage: urgent within 3 days", haemorrhage, 3, URGENT, "not lower"),
    Danger("early leak: urgent within 7 days", leak, 7, URGENT, "not lower"),
)
SILENCE = ("silence", "posture", "missed-visit")


def found_in_time(danger: Danger, seed: int) -> bool:
    rng = np.random.default_rng(seed)
    trouble = danger.makes(rng)
    eye = SimulatedEye(rng, trouble.onset + danger.days, trouble, scale=0.0)
    found, _ = lived_through(eye)
    last = eye.time(trouble.onset + danger.days)
    begins = eye.time(trouble.onset)
    return any(s.how_soon in danger.urgencies and begins <= s.raised_at <= last and s.worry not in SILENCE for s in found)


def callbacks_of_quiet(scale: float, urgent: bool, seed: int) -> int:
    _, opened = lived_through(SimulatedEye(np.random.default_rng(seed), 100, scale=scale))
    return sum((c.how_soon in URGENT) is urgent for c in opened)


def visits_of_quiet(seed: int) -> int:
    return sum(isinstance(f, Measures) for f in SimulatedEye(np.random.default_rng(seed), 400).course.facts)


def cataract_called_urgent(seed: int) -> bool:
    rng = np.random.default_rng(seed)
    eye = SimulatedEye(rng, 370, cataract(rng), scale=0.0)
    found = evaluate(eye.course, book.rulebook(), eye.time(370))
    return any(s.how_soon in URGENT and s.values.keys() & {"before", "best_before"} for s in found)


def calls_again_after_settling() -> bool:
    """A pressure of 38 settled, then 37 a week later."""
    facts = [measures(10, iop_mmhg=38), measures(17, iop_mmhg=37), *diary(20), Settled(at(10.2), "pressure")]
    found = signs(facts, 20)
    return any(s.rule == "pressure-spike" and s.raised_at == at(17) for s in found)


def wilson(hits: int, of: int) -> tuple[float, float]:
    z, share = 1.96, hits / of
    middle, half = share + z * z / (2 * of), z * math.sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    return (middle - half) / (1 + z * z / of), (middle + half) / (1 + z * z / of)


def _task(task: tuple[str, Any, int]) -> float:
    kind, what, seed = task
    if kind == "quiet":
        return callbacks_of_quiet(*what, seed)
    if kind == "visits":
        return visits_of_quiet(seed)
    return float(cataract_called_urgent(seed) if kind == "cataract" else found_in_time(DANGERS[what], seed))


def table(seed: int, eyes: int) -> list[tuple[str, str, str]]:
    """(what, result with its interval, goal) of each row."""
    groups: list[tuple[str, Any]] = [("quiet", (1 / 3, True)), ("quiet", (1.0, True)), ("cataract", None)]
    groups += [("danger", n) for n in range(len(DANGERS))]
    groups += [("quiet", (1.0, False)), ("visits", None)]
    tasks = [(kind, what, seed * 1_000_003 + n) for kind, what in groups for n in range(eyes)]
    with ProcessPoolExecutor(WORKERS) as pool:
        results = np.array(list(pool.map(_task, tasks, chunksize=10))).reshape(len(groups), eyes)
    rows = []
    for (kind, what), of_group in zip(groups, results, strict=True):
        if kind in ("quiet", "visits"):
            by = 10 if kind == "quiet" else 1
            mean, half = by * of_group.mean(), by * 1.96 * of_group.std(ddof=1) / math.sqrt(eyes)
            name, goal = ("visits of an eye in its first year", "few")
            if kind == "quiet":
                full, urgent = what[0] == 1.0, what[1]
                kind_of_call = "urgent" if urgent else "this-week"
                name = f"{kind_of_call} callbacks in 10 uneventful courses, {'all' if full else 'a third of'} wrong answers"
                goal = "few" if not urgent else "≤ 8" if full else "≤ 3"
            rows.append((name, f"{mean:5.1f}  ({mean - half:.1f} to {mean + half:.1f})", goal))
        elif kind == "cataract":
            low, high = wilson(int(of_group.sum()), eyes)
            rows.append((
                "slow cataracts that raise an urgent sign of fallen sight, of 200",
                f"{200 * of_group.mean():5.1f}  ({200 * low:.1f} to {200 * high:.1f})", "≤ 4",
            ))  # fmt: skip
        else:
            low, high = wilson(int(of_group.sum()), eyes)
            share = f"{100 * of_group.mean():5.1f} %  ({100 * low:.0f} to {100 * high:.0f} %)"
            rows.append((DANGERS[what].name, share, DANGERS[what].goal))
    rows.insert(2, ("pressure of 38 settled, 37 a week later: calls again", str(calls_again_after_settling()), "True"))
    return rows


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--eyes", type=int, default=200, help="eyes in each row")
    chosen = options.parse_args()
    print(f"seed {chosen.seed}, {chosen.eyes} eyes in each row")
    for name, result, goal in table(chosen.seed, chosen.eyes):
        print(f"{name:75} {result:28} goal {goal}")


if __name__ == "__main__":
    main()
