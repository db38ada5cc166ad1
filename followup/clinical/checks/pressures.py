"""Pressures measured in clinic: levels, rises, the steroid response."""

from collections.abc import Iterator, Mapping
from datetime import timedelta
from typing import Any

from followup.clinical import pressure
from followup.clinical.checks.findings import beside
from followup.clinical.checks.look import NOTHING, Check, Look, Values
from followup.clinical.facts import Measures
from followup.clinical.timeline import Timeline


def _iop_at_least(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Pressure at or above `mmhg`; with `pain`, only if pain is at least that; with `finding`, only beside it."""
    for m in timeline.measures:
        if m.iop_mmhg is not None:
            bad = m.iop_mmhg >= threshold["mmhg"] and beside(m, threshold)
            yield (m.at, m.iop_mmhg, _pressure_values(m)) if bad else (m.at, None, NOTHING)


def _pressure_values(m: Measures) -> Values:
    return {"iop_mmhg": m.iop_mmhg, "instrument": m.instrument, "pain": m.pain}


def _iop_rise(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Pressure at least `rise_mmhg` over the eye's own baseline and at least `mmhg`."""
    baseline = timeline.baseline_iop_mmhg
    for m in timeline.measures:
        risen = None if m.iop_mmhg is None else pressure.rise(m.iop_mmhg, baseline)
        if m.iop_mmhg is not None and risen is not None:
            bad = risen >= threshold["rise_mmhg"] and m.iop_mmhg >= threshold["mmhg"]
            values = {**_pressure_values(m), "baseline_mmhg": baseline, "risen_mmhg": risen} if bad else NOTHING
            yield (m.at, m.iop_mmhg if bad else None, values)


def _iop_trend(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A move of `by_mmhg` from the eye's usual pressure (the median before) in the `direction`, reaching `mmhg`.

    Usual are the pressure before surgery and the readings that had not moved themselves, the last `READINGS_KEPT` of
    them. The move must exceed what the two instruments differ by.
    """
    rising = threshold["direction"] == "up"
    sign = 1 if rising else -1
    before = timeline.baseline_iop_mmhg
    usual: list[tuple[float, str | None]] = [] if before is None else [(before, "applanation")]
    for m in timeline.measures:
        if m.iop_mmhg is None:
            continue
        if usual:
            reference, instrument = sorted(usual, key=lambda reading: reading[0])[(len(usual) - 1) // 2]
            moved = sign * (m.iop_mmhg - reference)
            bad = (
                moved >= threshold["by_mmhg"]
                and sign * m.iop_mmhg >= sign * threshold["mmhg"]
                and pressure.really_changed(reference, m.iop_mmhg, instrument, m.instrument)
            )
            values = {**_pressure_values(m), "usual_mmhg": reference, "moved_mmhg": round(moved, 1)}
            yield (m.at, moved if bad else None, values)
            if bad:
                continue
        usual = [*usual, (m.iop_mmhg, m.instrument)][-_READINGS_KEPT:]


_READINGS_KEPT = 5  # common practice, no source


def _iop_at_most(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for m in timeline.measures:
        if m.iop_mmhg is not None:
            bad = m.iop_mmhg <= threshold["mmhg"] and beside(m, threshold)
            yield (m.at, -m.iop_mmhg, _pressure_values(m)) if bad else (m.at, None, NOTHING)


def _steroid_response(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A rise of `rise_mmhg` over baseline, to at least `mmhg`, after `days` on steroid drops that have not long ended."""
    op = timeline.operation
    if op.steroid_drops_until is None or op.baseline_iop_mmhg is None:
        return
    ended = op.steroid_drops_until + timedelta(days=threshold.get("days_after_drops", 0))
    for m in timeline.measures:
        if m.iop_mmhg is None or m.at > ended:
            continue
        on_drops = min(m.at, op.steroid_drops_until) - op.at
        response = pressure.steroid_response(
            m.iop_mmhg, op.baseline_iop_mmhg, on_drops, threshold["rise_mmhg"], threshold["days"]
        )
        bad = response.pattern and m.iop_mmhg >= threshold["mmhg"]
        values = {
            "iop_mmhg": m.iop_mmhg,
            "baseline_mmhg": op.baseline_iop_mmhg,
            "risen_mmhg": response.rise_mmhg,
            "days_on_drops": round(response.days_on_drops, 1),
            "level_scheme": response.level,
            "rise_scheme": response.rise,
        }
        yield (m.at, response.rise_mmhg if bad else None, values)


def _by_finger(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """An eye that feels as `finger` says; a pressure that is measured answers it too."""
    for m in timeline.measures:
        if m.finger is not None or m.iop_mmhg is not None:
            yield (m.at, 1.0 if m.finger == threshold["finger"] else None, {"finger": m.finger})


CHECKS = {
    "pressure-by-finger": Check(_by_finger, frozenset({"finger"}), fits_fellow=True),
    "iop-at-least": Check(_iop_at_least, frozenset({"mmhg"}), fits_fellow=True),
    "iop-rise": Check(_iop_rise, frozenset({"mmhg", "rise_mmhg"})),
    "iop-trend": Check(_iop_trend, frozenset({"mmhg", "by_mmhg", "direction"}), fits_fellow=True),
    "iop-at-most": Check(_iop_at_most, frozenset({"mmhg"}), fits_fellow=True),
    "steroid-response": Check(_steroid_response, frozenset({"mmhg", "rise_mmhg", "days"})),
}
