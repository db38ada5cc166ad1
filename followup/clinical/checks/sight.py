"""Acuity measured in clinic, judged with the bubble in mind."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from followup.clinical import acuity
from followup.clinical.checks.look import NOTHING, Check, Look
from followup.clinical.course import Measures, Timeline


def _vision_category(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Vision down to `category` or beyond, where it was better before surgery; gas does not excuse it.

    Of a fellow eye nothing is known before its first reading: once a callback about that was settled, it is no news.
    """
    rank = 1 + acuity.CATEGORIES.index(threshold["category"])
    known = timeline.baseline_acuity
    if known is not None and known.rank >= rank:
        return
    told: Measures | None = None
    for m in timeline.measures:
        if m.acuity is None or _known_blind(timeline, told, m):
            continue
        bad = m.acuity.rank >= rank
        told = m if bad else told
        yield (m.at, float(m.acuity.rank) if bad else None, {"acuity": m.acuity.typed})


def _known_blind(timeline: Timeline, told: Measures | None, now: Measures) -> bool:
    """Whether a fellow eye sees no worse than when that was told and settled."""
    if timeline.operated or told is None or told.acuity is None or now.acuity is None:
        return False
    return now.acuity.rank <= told.acuity.rank and any(told.at <= s.at < now.at for s in timeline.settlements)


def _vision_drop(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A loss of `logmar` from the best comparable reading, by rank where a category is involved.

    With gas over the line of sight nothing is judged. Comparable is what was read with the same correction
    and through the same: oil with oil, gas below the line of sight with the same. An eye that has become
    clear must not fall below what it saw past the gas, nor below the reading before surgery.
    """
    best: dict[tuple[str, str | None], acuity.Acuity] = {}
    before = timeline.baseline_acuity
    for m, seen, through in timeline.views:
        if through == "gas over sight":
            continue
        references = [best.get((through, m.correction))]
        if through == "clear":
            references += [best.get(("gas below sight", m.correction)), before]
        reference = _best_of(references)
        own = references[0]
        if own is None or own.worse_than(seen):
            best[through, m.correction] = seen
        if reference is None or not seen.worse_than(reference):
            yield (m.at, None, NOTHING)
            continue
        bad = acuity.change(reference, seen, threshold["logmar"]).exceeds_noise
        values = {"acuity": seen.typed, "best_before": reference.typed}
        yield (m.at, seen.logmar + seen.rank * 10 if bad else None, values)


def _best_of(readings: Iterable[acuity.Acuity | None]) -> acuity.Acuity | None:
    best: acuity.Acuity | None = None
    for reading in readings:
        if reading is not None and (best is None or best.worse_than(reading)):
            best = reading
    return best


CHECKS = {
    "vision-category": Check(_vision_category, frozenset({"category"}), fits_fellow=True),
    "vision-drop": Check(_vision_drop, frozenset({"logmar"}), fits_fellow=True),
}
