"""One eye's course as a picture, worked out here, and as a table."""

from collections.abc import Callable, Sequence
from datetime import datetime
from itertools import takewhile

from followup.care.callbacks.kinds import OUTCOMES
from followup.care.reading.entries import said
from followup.care.reading.eye import Eye, drop_plan_of
from followup.clinical import bubble, posture, pressure, vision
from followup.clinical.agents import AGENTS
from followup.clinical.timeline import Timeline
from followup.clinical.warnings import HOW_SOON
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import BubbleSeenBody, DropsBody
from followup.records.values import Event, Note, Warning, saying
from followup.web.drawing import (
    GAP,
    LEFT,
    PANEL,
    RIGHT,
    STRIP,
    TOP,
    WIDTH,
    Axis,
    Chart,
    Mark,
    Panel,
    Strip,
    axis,
    day_ticks,
    scale,
)

Measured = Sequence[tuple[Event, MeasuresBody]]


def course_chart(eye: Eye, now: datetime, bands: pressure.Bands, fellow: Eye | None = None) -> Chart:
    """The whole course on one axis: acuity (better upward), pressure with bands, and of each operation its bubble forecast,
    levels and posture hours. An eye that was never operated shows acuity and pressure.
    """
    days = axis(eye, fellow, now)
    stages = [stage for stage in eye.course.timelines(now) if stage.operated]
    measures = list(saying(eye.events, MeasuresBody))
    drawn: list[Callable[[float], Panel]] = [
        lambda top: _acuity_panel(top, measures, days),
        lambda top: _pressure_panel(top, measures, days, bands),
    ]
    if stages:
        drawn += [lambda top: _bubble_panel(stages, top, days), lambda top: _posture_panel(stages, top, days, now)]
    panels = [draw(TOP + n * (PANEL + GAP)) for n, draw in enumerate(drawn)]
    strips = _strips(days, now, panels[-1].bottom)
    return Chart(
        WIDTH,
        strips[-1].y + 18,
        LEFT,
        WIDTH - RIGHT,
        [(days.x(d), str(d)) for d in day_ticks(days.last)],
        days.x(min(days.day(now), days.last)),
        panels,
        strips,
        [(days.at(stage.operation.at), AGENTS[stage.operation.agent].words) for stage in stages],
    )


def course_table(eye: Eye, now: datetime) -> list[tuple[datetime, str, str]]:
    """The same course as rows (when, what, in words), newest first."""
    rows = [(e.at, e.kind.replace("-", " "), said(e.body, eye.zone)) for e in eye.events]
    rows += [(w.raised_at, "warning", _warned(w)) for w in eye.warnings]
    for c in eye.callbacks:
        rows.append((c.opened_at, "callback opened", c.worry))
        if c.settled_at:
            rows.append((c.settled_at, "callback settled", f"{c.worry}: {OUTCOMES[c.outcome or '']}"))
    for v in eye.visits:
        planned = datetime.combine(v.target, datetime.min.time(), eye.zone)
        rows.append((planned, "visit planned", v.name))
    rows += [(op.at, "operation", f"left in the eye: {AGENTS[op.agent].words}") for op in eye.operations]
    for day in (day for stage in eye.course.timelines(now) for day in stage.hours_in_plan):
        end = datetime.combine(day.day, datetime.max.time(), eye.zone).replace(microsecond=0)
        rows.append((min(end, now), "posture total", f"{day.hours:.1f} of {day.target_hours:g} hours"))
    return sorted(rows, key=lambda r: r[0], reverse=True)


def _warned(w: Warning) -> str:
    told = f"{w.how_soon.replace('-', ' ')}: {w.words}"
    return f"{told} Rests on an entry that was put right." if w.unfounded else told


def _acuity_panel(top: float, measures: Measured, days: Axis) -> Panel:
    panel = Panel("Acuity, logMAR", top)
    y = scale(vision.STAND_INS["NLP"].value, -0.2, top + PANEL, top)
    labels = ((0.0, "6/6"), (0.6, "6/24"), (1.2, "6/95"))
    panel.ticks = [(y(value), label) for value, label in labels]
    panel.ticks += [(y(figure.value), name) for name, figure in vision.STAND_INS.items() if name in ("CF", "HM")]
    for event, body in measures:
        if seen := body.fact(event.at).acuity:
            kind = "category" if seen.category else "clinic"
            panel.marks.append(Mark(days.at(event.at), y(min(seen.logmar, 3.0)), f"acuity {seen.typed}", kind, seen.typed))
    panel.path = [(m.x, m.y) for m in panel.marks]
    return panel


def _pressure_panel(top: float, measures: Measured, days: Axis, bands: pressure.Bands) -> Panel:
    values = [body.iop_mmhg for _, body in measures if body.iop_mmhg is not None]
    highest = max([50.0, *values])
    y = scale(0, highest, top + PANEL, top)
    panel = Panel("Pressure, mmHg", top)
    panel.bands = [
        (y(bands.normal_to), y(bands.normal_from) - y(bands.normal_to), "normal"),
        (y(highest), y(bands.spike_from) - y(highest), "high"),
        (y(bands.hypotony_at_most), y(0) - y(bands.hypotony_at_most), "low"),
    ]
    panel.ticks = [(y(v), f"{v:g}") for v in (0, bands.normal_from, bands.normal_to, bands.spike_from, bands.severe_from)]
    for event, body in measures:
        if (iop := body.iop_mmhg) is not None:
            panel.marks.append(Mark(days.at(event.at), y(iop), f"pressure {iop:g} mmHg", "clinic", f"{iop:g}"))
    panel.path = [(m.x, m.y) for m in panel.marks]
    return panel


def _bubble_panel(stages: Sequence[Timeline], top: float, days: Axis) -> Panel:
    y = scale(0, 100, top + PANEL, top)
    panel = Panel(f"Bubble height, % ({', then '.join(AGENTS[s.operation.agent].words for s in stages)})", top)
    panel.ticks = [(y(v), f"{v}") for v in (0, 50, 100)]
    for stage in stages:
        operation, forecast = stage.operation, stage.forecasts[-1][1]
        if operation.agent == "none":
            continue
        first, last = days.day(operation.at), _until(stage, days)
        at = [first + (last - first) * n / 60 for n in range(61)]
        levels = [forecast.at(d - first) for d in at]
        panel.lines.append([(days.x(d), y(level.meniscus_percent)) for d, level in zip(at, levels, strict=True)])
        if operation.fades:
            height = bubble.meniscus_percent
            upper = [(days.x(d), y(height(level.high_percent))) for d, level in zip(at, levels, strict=True)]
            lower = [(days.x(d), y(height(level.low_percent))) for d, level in zip(at, levels, strict=True)]
            panel.areas.append(upper + lower[::-1])
    for event in days.eye.events:
        match event.body:
            case MeasuresBody(bubble_percent=float(level)):
                panel.marks.append(Mark(days.at(event.at), y(level), f"bubble {level:g} % high, seen in clinic", "clinic"))
            case BubbleSeenBody(percent=level):
                panel.marks.append(Mark(days.at(event.at), y(level), f"bubble {level:g} %, seen by the patient", "patient"))
    return panel


def _until(stage: Timeline, days: Axis) -> float:
    """The day on which a stage's tamponade ends: taken out or seen to be gone, or followed by another operation."""
    if stage.empty_at(stage.now):
        emptied = reversed(stage.emptied)
        return days.day(min(at for at, empty in takewhile(lambda known: known[1], emptied)))
    return days.day(stage.ended_at) if stage.ended_at and stage.ended_at <= stage.now else days.last


def _posture_panel(stages: Sequence[Timeline], top: float, days: Axis, now: datetime) -> Panel:
    panel = Panel("Posture, hours a day", top)
    y = scale(0, 24, top + PANEL, top)
    panel.ticks = [(y(v), f"{v}") for v in (0, 12, 24)]
    width = max(1.5, days.x(1) - days.x(0) - 1)
    for stage in stages:
        plan, blocks = stage.operation.plan, [p.block for p in stage.postured]
        by_day = posture.hours_by_day(blocks, days.eye.zone, now, plan.position if plan else None)
        for day, hours in sorted(by_day.items()):
            start = days.x(max(0.0, days.day_of(day)))
            panel.bars.append((start, y(hours), width, y(0) - y(hours), f"{day.isoformat()}: {hours:.1f} hours"))
        if plan:
            first = days.day(stage.operation.at)
            last = min(first + plan.days, _until(stage, days))
            panel.lines.append([(days.x(first), y(plan.hours_a_day)), (days.x(last), y(plan.hours_a_day))])
    return panel


def _strips(days: Axis, now: datetime, foot: float) -> list[Strip]:
    """Warnings, callbacks, drops and visits, one line each."""
    eye, x = days.eye, days.x
    titles = ("signs", "calls", "drops", "visits") if eye.operated else ("signs", "calls")
    strips = [Strip(title, foot + 14 + n * STRIP) for n, title in enumerate(titles)]
    signs, callbacks = strips[:2]
    # What is drawn later lies above: of one moment's signs the most urgent that holds is seen.
    signs.marks = [
        Mark(days.at(w.raised_at), signs.y, _warned(w), "put-right" if w.unfounded else w.how_soon)
        for w in sorted(eye.warnings, key=lambda w: (not w.unfounded, -HOW_SOON.index(w.how_soon)))
    ]
    for c in eye.callbacks:
        start, end = (days.at(at) for at in (c.opened_at, c.settled_at or now))
        said = f"callback, {c.worry}: {OUTCOMES[c.outcome or ''] if c.outcome else c.state}"
        callbacks.spans.append((start, max(3.0, round(end - start, 1)), c.state, said))
    if not eye.operated:
        return strips
    drops, visits = strips[2:]
    drops.spans = [span for note in eye.notes for span in _drops_of(note, days)]
    taken = saying(eye.events, DropsBody)
    drops.marks = [Mark(days.at(e.at), drops.y, f"{drop.name}, taken", "taken") for e, drop in taken]
    planned = [(v, days.day_of(v.target)) for v in eye.visits]
    visits.marks = [
        Mark(x(d), visits.y, f"visit {v.name}, {v.target}", "done" if v.identity in eye.seen_visits else "open")
        for v, d in planned
        if 0 <= d <= days.last
    ]
    return strips


def _drops_of(note: Note, days: Axis) -> list[tuple[float, float, str, str]]:
    """What one operation's note prescribed, from that operation on."""
    operated, spans = max(0.0, days.day(note.operated_at)), []
    for step in drop_plan_of(note, days.eye.zone):
        first = max(operated, days.day_of(step.first))
        until = min(days.day_of(step.last) + 1, days.last)
        width = max(0.0, round(days.x(until) - days.x(first), 1))
        spans.append((days.x(first), width, "planned", f"{step.name}, planned until {step.last}"))
    return spans
