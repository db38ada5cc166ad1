"""Posture, visits and silence: what did not happen; and the calls that stand in for the app."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from followup.clinical.checks.look import NOTHING, Check, Look, looks_at_what_lasts, while_it_lasts
from followup.clinical.timeline import Timeline, end_of

CALLS_FROM = time(8)  # common practice, no source


def _posture_missed(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A whole plan day with something logged but under `share` of its target hours."""
    for day, at in _finished_plan_days(timeline):
        if day.hours > 0:
            values = {"date": day.day.isoformat(), "hours": round(day.hours, 1), "target_hours": day.target_hours}
            yield (at, 1 - day.share if day.share < threshold["share"] else None, values)


def _no_posture_entry(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A whole plan day with nothing logged in the planned position."""
    for day, at in _finished_plan_days(timeline):
        bad = day.hours == 0 and day.target_hours > 0
        yield (at, 1.0 if bad else None, {"date": day.day.isoformat()})


def _finished_plan_days(timeline: Timeline) -> Iterator[tuple[Any, datetime]]:
    for day in timeline.hours_in_plan[1:]:
        at = end_of(day.day, timeline.zone)
        if at <= timeline.now and day.day > timeline.reached_since.astimezone(timeline.zone).date():
            yield day, at


def _ends_of_plan_days(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[datetime]:
    op = timeline.operation
    first = op.at.astimezone(timeline.zone).date()
    yield from (end_of(first + timedelta(days=n), timeline.zone) for n in range(op.plan.days + 1 if op.plan else 0))


def _missed_visit(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A planned visit not seen by the end of its latest day, from `latest_from_day` to before `latest_until_day`."""
    op = timeline.operation
    for visit in sorted(timeline.visits, key=lambda v: (v.latest, v.name)):
        over = end_of(visit.latest, timeline.zone)
        seen_at = timeline.seen.get(visit.id or visit.name)
        due_day = (visit.latest - op.at.astimezone(timeline.zone).date()).days
        if over > timeline.now or not threshold["latest_from_day"] <= due_day < threshold["latest_until_day"]:
            continue
        if seen_at is None or seen_at >= over:
            yield (over, 1.0, {"visit": visit.name, "latest": visit.latest.isoformat()})
            yield (over, None, NOTHING)


def _ends_of_visits(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[datetime]:
    yield from (end_of(visit.latest, timeline.zone) for visit in timeline.visits)


def _silence(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Nothing from the patient for `hours`; with `while_posturing`, only in the days of the posture plan."""
    op = timeline.operation
    posturing_days = op.plan.days if op.plan else 0
    every = timedelta(hours=threshold["hours"])
    for last, silent_hours in timeline.silences:
        if silent_hours < threshold["hours"]:
            continue
        until = last + timedelta(hours=silent_hours)
        for due in while_it_lasts(timeline, last + every, every, until):
            if not threshold.get("while_posturing") or op.day(due) <= posturing_days:
                hours = round((due - last) / timedelta(hours=1))
                yield (due, 1.0, {"last_heard": last.isoformat(), "silent_hours": hours})
        yield (until, None, NOTHING)


def _silent_until(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[datetime]:
    every = timedelta(hours=threshold["hours"])
    last, _ = timeline.silences[-1]
    yield from looks_at_what_lasts(timeline, last + every, every)


def planned_calls(operated_on: date, days: Iterable[int], weekdays: Iterable[int]) -> dict[date, int]:
    """When a patient without the app is called, with the day after surgery that each call is for (the first of several)."""
    return {_moved(operated_on + timedelta(days=n), weekdays): n for n in sorted(days, reverse=True)}


def _diary_call(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """In the morning of each of `days` after surgery, or of the next day that is one of `weekdays` (1 is Monday)."""
    for at, number in _calls(timeline, threshold):
        if timeline.reached_since < at <= timeline.now:
            yield (at, 1.0, {"day": number})
            yield (at, None, NOTHING)


def _calls(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[tuple[datetime, int]]:
    operated_on = timeline.operation.at.astimezone(timeline.zone).date()
    for day, number in sorted(planned_calls(operated_on, threshold["days"], threshold["weekdays"]).items()):
        yield datetime.combine(day, CALLS_FROM, timeline.zone).astimezone(UTC), number


def _times_of_calls(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[datetime]:
    yield from (at for at, _ in _calls(timeline, threshold))


def _moved(day: date, weekdays: Iterable[int]) -> date:
    return next((later for n in range(7) if (later := day + timedelta(days=n)).isoweekday() in weekdays), day)


CHECKS = {
    "posture-missed": Check(_posture_missed, frozenset({"share"}), app=True, wakes=_ends_of_plan_days),
    "no-posture-entry": Check(_no_posture_entry, frozenset(), app=True, wakes=_ends_of_plan_days),
    "missed-visit": Check(_missed_visit, frozenset({"latest_from_day", "latest_until_day"}), wakes=_ends_of_visits),
    "silence": Check(_silence, frozenset({"hours"}), app=True, wakes=_silent_until),
    "diary-call": Check(_diary_call, frozenset({"days", "weekdays"}), app=False, wakes=_times_of_calls),
}
