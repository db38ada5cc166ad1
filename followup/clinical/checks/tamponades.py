"""The bubble and what must not happen while there is one; oil past its time."""

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any

from followup.clinical import altitude, overfill, tamponade
from followup.clinical.checks.look import NOTHING, Check, Look, looks_at_what_lasts, while_it_lasts
from followup.clinical.timeline import Timeline


def _bubble_off_forecast(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A level seen in clinic further than `sd` from the forecast of that moment, on the side named by `direction`.

    Levels that the patient saw neither contradict nor make the clinic's contradict: the forecast is from the clinic's.
    """
    if not timeline.operation.fades:
        return
    sign = 1 if threshold["direction"] == "more" else -1
    op = timeline.operation
    before = tamponade.forecast(op.agent, op.percent, op.fill_percent, op.lens)
    latest = before
    for at, level in timeline.sightings:
        if level.observer != "clinic":
            continue
        before, latest = latest, latest.updated(level)
        if timeline.empty_at(at):
            continue
        off = sign * before.contradiction(level)
        if off <= threshold["sd"]:
            yield (at, None, NOTHING)
        else:
            expected = before.at(level.day)
            values = {
                "seen_height_percent": level.meniscus_percent,
                "expected_height_percent": round(expected.meniscus_percent),
                "off_by_sd": round(off, 1),
            }
            yield (at, round(off, 3), values)


def _outgrows(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Strength and fill at the end of surgery that will exceed the eye."""
    op = timeline.operation
    if overfill.question(op.agent, op.percent, op.fill_percent) is not None:
        grown = overfill.grows_to_percent(op.agent, op.percent, op.fill_percent)
        values = {"agent": op.agent, "percent": op.percent, "fill_percent": op.fill_percent, "grown_percent": round(grown)}
        yield (op.at, grown, values)


def _bubble_full(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A level of at least `height_percent` together with a pressure of at least `mmhg`: too much gas."""
    for m in timeline.measures:
        if m.bubble_percent is not None and m.iop_mmhg is not None and timeline.operation.fades:
            bad = m.bubble_percent >= threshold["height_percent"] and m.iop_mmhg >= threshold["mmhg"]
            values = {"seen_height_percent": m.bubble_percent, "iop_mmhg": m.iop_mmhg}
            yield (m.at, m.iop_mmhg if bad else None, values)


def _climb(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A journey that climbs at least `climb_metres` while no clinician has recorded that the gas is gone."""
    op = timeline.operation
    if not op.fades:
        return
    for journey in timeline.journeys:
        worst = altitude.journey(journey.heights_metres, op.height_metres)
        bad = worst.climb_metres >= threshold["climb_metres"] and not timeline.empty_at(journey.at)
        values = {"climbed_metres": worst.climb_metres, "to_metres": worst.to_metres, "expansion": round(worst.expansion, 2)}
        yield (journey.at, worst.expansion if bad else None, values)


def _gas_seen_again(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Gas seen, by whomever, after a clinician had recorded that none was left."""
    was_empty = False
    for at, empty in timeline.emptied:
        if was_empty and not empty and timeline.operation.fades:
            yield (at, 1.0, {"agent": timeline.operation.agent})
            yield (at, None, NOTHING)
        was_empty = empty


def _anaesthetic(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for told in timeline.anaesthetics:
        bad = timeline.operation.fades and not timeline.empty_at(told.at)
        yield (told.at, 1.0 if bad else None, {"agent": timeline.operation.agent})


def _removal_overdue(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Oil still in the eye `days` after surgery, and four weeks after each time that this was settled."""
    op = timeline.operation
    if not op.liquid:
        return
    due = op.at + timedelta(days=threshold["days"])
    for at in while_it_lasts(timeline, due, _OVERDUE_AGAIN, timeline.now):
        if not timeline.empty_at(at):
            yield (at, 1.0, {"agent": op.agent, "days_in_eye": round(op.day(at))})


def _removal_times(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[datetime]:
    op = timeline.operation
    if op.liquid:
        yield from looks_at_what_lasts(timeline, op.at + timedelta(days=threshold["days"]), _OVERDUE_AGAIN)


_OVERDUE_AGAIN = timedelta(days=28)  # common practice, no source


CHECKS = {
    "bubble-off-forecast": Check(_bubble_off_forecast, frozenset({"direction", "sd"})),
    "outgrows-eye": Check(_outgrows, frozenset()),
    "bubble-full": Check(_bubble_full, frozenset({"height_percent", "mmhg"})),
    "gas-seen-again": Check(_gas_seen_again, frozenset()),
    "climb": Check(_climb, frozenset({"climb_metres"})),
    "anaesthetic": Check(_anaesthetic, frozenset()),
    "removal-overdue": Check(_removal_overdue, frozenset({"days"}), wakes=_removal_times),
}
