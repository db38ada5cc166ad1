"""Acuity measured in clinic, judged with the bubble in mind."""

import functools
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from followup.clinical import vision
from followup.clinical.chart_noise import real_fall
from followup.clinical.checks.look import Check, Look
from followup.clinical.facts import Measures
from followup.clinical.timeline import Timeline


def _vision_category(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Vision down to `category` or beyond, where it was better before surgery; gas does not excuse it.

    Of a fellow eye nothing is known before its first reading: once a callback about that was settled, it is no news.
    """
    rank = 1 + vision.CATEGORIES.index(threshold["category"])
    known = timeline.baseline_acuity
    if known is not None and known.rank >= rank:
        return
    told: Measures | None = None
    for m in timeline.measures:
        seen = m.better_acuity
        if seen is None or _known_blind(timeline, told, m):
            continue
        bad = seen.rank >= rank
        told = m if bad else told
        yield (m.at, float(seen.rank) if bad else None, {"acuity": seen.typed})


def _known_blind(timeline: Timeline, told: Measures | None, now: Measures) -> bool:
    """Whether a fellow eye sees no worse than when that was told and settled."""
    if timeline.operated or told is None or told.better_acuity is None or now.better_acuity is None:
        return False
    return now.better_acuity.rank <= told.better_acuity.rank and any(told.at <= s.at < now.at for s in timeline.settlements)


def _vision_drop(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A loss of `logmar` from the worse of the last two comparable readings, by rank where a category is involved.

    The loss must exceed what the two charts vary by. With gas over the line of sight nothing is judged. Comparable is
    what was read with the same correction and through the same: oil with oil, gas below the line of sight with the same.
    The first reading of a clear eye is compared with those past the gas, else with the one before surgery, whose
    correction is unknown. A reading that fell is no reference for the next. With `slow_per_month`, a fall must also
    exceed what a slow one takes in the time after three weeks.
    """
    kept: dict[tuple[str, str | None], list[Reading]] = {}
    for m, seen, through in timeline.views:
        if through == "gas over sight":
            continue
        own = kept.setdefault((through, m.correction), [])
        past_gas = kept.get(("gas below sight", m.correction), []) if through == "clear" else []
        reference = _worse_of((own or past_gas)[-2:])
        if reference is None and through == "clear" and timeline.baseline_acuity is not None:
            reference = Reading(timeline.operation.at, timeline.baseline_acuity, m.correction, weak=True)
        now = Reading(m.at, seen, m.correction)
        fell = reference is not None and _fell(reference, now, threshold)
        if not fell:
            own.append(now)
        if reference is not None:
            yield (m.at, _severity(seen) if fell else None, {"acuity": seen.typed, "before": reference.acuity.typed})


def _vision_slow_fall(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A loss of `logmar` from the best comparable reading that is at least `days` old: nobody need hurry."""
    read: dict[tuple[str, str | None], list[Reading]] = {}
    for m, seen, through in timeline.views:
        if through == "gas over sight":
            continue
        earlier = read.setdefault((through, m.correction), [])
        now = Reading(m.at, seen, m.correction)
        old = [r for r in earlier if m.at - r.at >= timedelta(days=threshold["days"])]
        earlier.append(now)
        if old:
            best = functools.reduce(lambda a, b: b if a.acuity.worse_than(b.acuity) else a, old)
            fell = _fell(best, now, threshold)
            yield (m.at, _severity(seen) if fell else None, {"acuity": seen.typed, "before": best.acuity.typed})


_QUICK = timedelta(days=21)  # common practice, no source


class Reading(NamedTuple):
    """One acuity, when and with which correction (None: unknown); weak where nobody wrote down how it was read."""

    at: datetime
    acuity: vision.Acuity
    correction: str | None
    weak: bool = False


def _worse_of(readings: Sequence[Reading]) -> Reading | None:
    return functools.reduce(lambda a, b: b if b.acuity.worse_than(a.acuity) else a, readings) if readings else None


def _fell(before: Reading, now: Reading, threshold: Mapping[str, Any]) -> bool:
    if not now.acuity.worse_than(before.acuity):
        return False
    known = now.correction is not None  # of both: only readings with the same one are compared
    months = max(timedelta(0), now.at - before.at - _QUICK) / timedelta(days=30)
    limit = real_fall(before.acuity, now.acuity, threshold["logmar"], known_correction=known, weak_reference=before.weak)
    return vision.change(before.acuity, now.acuity, limit + threshold.get("slow_per_month", 0) * months).exceeds_noise


def _severity(seen: vision.Acuity) -> float:
    return seen.logmar + seen.rank * 10


CHECKS = {
    "vision-category": Check(_vision_category, frozenset({"category"}), fits_fellow=True),
    "vision-drop": Check(_vision_drop, frozenset({"logmar"}), fits_fellow=True),
    "vision-slow-fall": Check(_vision_slow_fall, frozenset({"logmar", "days"}), fits_fellow=True),
}
