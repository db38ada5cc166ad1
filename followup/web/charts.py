"""One eye's course as a picture, worked out here, and as a table."""

from collections.abc import Callable, Iterable, Sequence
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
    EARLY_DAYS,
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

LABEL_WIDTH, LABEL_HEIGHT = 34, 11
SIGN_WIDTH, SIGN_ROW = 10, 10
Measured = Sequence[tuple[Event, MeasuresBody]]


def course_chart(eye: Eye, now: datetime, bands: pressure.Bands, fellow: Eye | None = None, early: bool = False) -> Chart:
    """The whole course on one axis: acuity (better upward), pressure with bands, and of each operation its bubble forecast,
    levels and posture hours. An eye that was never operated shows acuity and pressure.
    """
    days = axis(eye, fellow, now, early)
    stages = [stage for stage in eye.course.timelines(now) if stage.operated]
    own, other = (_drawn(one.events if one else (), days) for one in (eye, fellow))
    drawn: list[Callable[[float], Panel]] = [
        lambda top: _acuity_panel(top, own, other, days),
        lambda top: _pressure_panel(top, own, other, days, bands),
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
        [(days.x(d), str(d)) for d in day_ticks(days.last, days.first)],
        days.x(min(days.day(now), days.last)),
        panels,
        strips,
        [(days.at(s.operation.at), AGENTS[s.operation.agent].words) for s in stages if days.holds(s.operation.at)],
        axis(eye, fellow, now).last > EARLY_DAYS + 7,
    )


def _drawn(events: Iterable[Event], days: Axis) -> Measured:
    return [(event, body) for event, body in saying(events, MeasuresBody) if days.holds(event.at)]


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


def _acuity_panel(top: float, own: Measured, other: Measured, days: Axis) -> Panel:
    panel = Panel("Acuity, logMAR", top)
    y = scale(vision.STAND_INS["NLP"].value, -0.2, top + PANEL, top)
    labels = ((0.0, "6/6"), (0.6, "6/24"), (1.2, "6/95"))
    panel.ticks = [(y(value), label) for value, label in labels]
    panel.ticks += [(y(figure.value), name) for name, figure in vision.STAND_INS.items() if name in ("CF", "HM")]

    def mark(at: datetime, seen: vision.Acuity, words: str) -> Mark:
        kind = "category" if seen.category else "clinic"
        return Mark(days.at(at), y(min(seen.logmar, 3.0)), words, kind, seen.typed)

    for found, measures, whose in ((panel.marks, own, ""), (panel.fellow, other, "fellow eye, ")):
        for event, body in measures:
            fact = body.fact(event.at)
            if seen := fact.better_acuity:
                both = " and ".join(f"{reading.typed}" for reading, _ in fact.readings)
                found.append(mark(event.at, seen, f"{whose}acuity {both}"))
    panel.before = [
        mark(op.at, op.baseline_acuity, f"before surgery, acuity {op.baseline_acuity.typed}")
        for op in days.eye.operations
        if op.baseline_acuity and days.holds(op.at)
    ]
    return _finished(panel)


def _finished(panel: Panel) -> Panel:
    """The marks joined by a line, and the values beside those that have room."""
    panel.path = [(m.x, m.y) for m in panel.marks]
    kept: list[Mark] = []
    for mark in sorted([*panel.marks, *panel.before], key=lambda m: -m.x):
        if any(abs(mark.x - other.x) < LABEL_WIDTH and abs(mark.y - other.y) < LABEL_HEIGHT for other in kept):
            mark.label = ""
        else:
            kept.append(mark)
    return panel


def _pressure_panel(top: float, own: Measured, other: Measured, days: Axis, bands: pressure.Bands) -> Panel:
    values = [body.iop_mmhg for _, body in (*own, *other) if body.iop_mmhg is not None]
    highest = max([50.0, *values])
    y = scale(0, highest, top + PANEL, top)
    panel = Panel("Pressure, mmHg", top)
    panel.bands = [
        (y(bands.normal_to), y(bands.normal_from) - y(bands.normal_to), "normal"),
        (y(highest), y(bands.spike_from) - y(highest), "high"),
        (y(bands.hypotony_at_most), y(0) - y(bands.hypotony_at_most), "low"),
    ]
    panel.ticks = [(y(v), f"{v:g}") for v in (0, bands.normal_from, bands.normal_to, bands.spike_from, bands.severe_from)]
    for found, measures, whose in ((panel.marks, own, ""), (panel.fellow, other, "fellow eye, ")):
        for event, body in measures:
            if (iop := body.iop_mmhg) is not None:
                found.append(Mark(days.at(event.at), y(iop), f"{whose}pressure {iop:g} mmHg", "clinic", f"{iop:g}"))
    for op in days.eye.operations:
        if (iop := op.baseline_iop_mmhg) is not None and days.holds(op.at):
            panel.before.append(Mark(days.at(op.at), y(iop), f"before surgery, pressure {iop:g} mmHg", "before", f"{iop:g}"))
    return _finished(panel)


def _bubble_panel(stages: Sequence[Timeline], top: float, days: Axis) -> Panel:
    y = scale(0, 100, top + PANEL, top)
    panel = Panel(f"Bubble height, % ({', then '.join(AGENTS[s.operation.agent].words for s in stages)})", top)
    panel.ticks = [(y(v), f"{v}") for v in (0, 50, 100)]
    for stage in stages:
        operation, forecast = stage.operation, stage.forecasts[-1][1]
        if operation.agent == "none":
            continue
        first, last = max(days.first, days.day(operation.at)), min(_until(stage, days), days.last)
        if last <= first:
            continue
        at = [first + (last - first) * n / 60 for n in range(61)]
        levels = [forecast.at(d - days.day(operation.at)) for d in at]
        panel.lines.append([(days.x(d), y(level.meniscus_percent)) for d, level in zip(at, levels, strict=True)])
        if operation.fades:
            height = bubble.meniscus_percent
            upper = [(days.x(d), y(height(level.high_percent))) for d, level in zip(at, levels, strict=True)]
            lower = [(days.x(d), y(height(level.low_percent))) for d, level in zip(at, levels, strict=True)]
            panel.areas.append(upper + lower[::-1])
    for event in (event for event in days.eye.events if days.holds(event.at)):
        match event.body:
            case MeasuresBody(bubble_percent=float(level)):
                words = f"bubble {level:g} % high, seen in clinic"
                panel.marks.append(Mark(days.at(event.at), y(level), words, "clinic", f"{level:g}"))
            case BubbleSeenBody(percent=level):
                panel.marks.append(Mark(days.at(event.at), y(level), f"bubble {level:g} %, seen by the patient", "patient"))
    path = _finished(panel)
    path.path = []
    return path


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
            if not days.first - 1 <= days.day_of(day) <= days.last:
                continue
            start = days.x(max(days.first, days.day_of(day)))
            panel.bars.append((start, y(hours), width, y(0) - y(hours), f"{day.isoformat()}: {hours:.1f} hours"))
        if plan:
            first = days.day(stage.operation.at)
            last = min(first + plan.days, _until(stage, days))
            if drawn := days.span(first, last):
                panel.lines.append([(x, y(plan.hours_a_day)) for x in (drawn[0], drawn[0] + drawn[1])])
    return panel


def _strips(days: Axis, now: datetime, foot: float) -> list[Strip]:
    """Warnings, callbacks, drops and visits, one line each; signs in as many rows as they need beside each other."""
    eye = days.eye
    signs = Strip("signs", foot + 14, _side_by_side(_signs(days), foot + 14))
    below = max((mark.y for mark in signs.marks), default=signs.y)
    titles = ("calls", "drops", "visits") if eye.operated else ("calls",)
    callbacks, *more = others = [Strip(title, below + (n + 1) * STRIP) for n, title in enumerate(titles)]
    for c in eye.callbacks:
        said = f"callback, {c.worry}: {OUTCOMES[c.outcome or ''] if c.outcome else c.state}"
        if drawn := days.span(days.day(c.opened_at), days.day(c.settled_at or now)):
            callbacks.spans.append((drawn[0], max(3.0, drawn[1]), c.state, said))
    if more:
        drops, visits = more
        drops.spans = [span for note in eye.notes for span in _drops_of(note, days)]
        taken = [(event, body) for event, body in saying(eye.events, DropsBody) if days.holds(event.at)]
        drops.marks = [Mark(days.at(event.at), drops.y, f"{body.name}, taken", "taken") for event, body in taken]
        planned = [(v, days.day_of(v.target)) for v in eye.visits]
        visits.marks = [
            Mark(days.x(d), visits.y, f"visit {v.name}, {v.target}", "done" if v.identity in eye.seen_visits else "open")
            for v, d in planned
            if days.first <= d <= days.last
        ]
    return [signs, *others]


def _signs(days: Axis) -> list[Mark]:
    """The signs in order of time, of one moment the most urgent first."""
    held = [w for w in days.eye.warnings if days.holds(w.raised_at)]
    held.sort(key=lambda w: (w.raised_at, w.unfounded, HOW_SOON.index(w.how_soon)))
    return [Mark(days.at(w.raised_at), 0, _warned(w), "put-right" if w.unfounded else w.how_soon) for w in held]


def _side_by_side(marks: list[Mark], top: float) -> list[Mark]:
    """The same marks, each in the first row in which it covers none."""
    ends: list[float] = []
    for mark in marks:
        row = next((n for n, end in enumerate(ends) if end <= mark.x), len(ends))
        ends[row : row + 1] = [mark.x + SIGN_WIDTH]
        mark.y = top + row * SIGN_ROW
    return marks


def _drops_of(note: Note, days: Axis) -> list[tuple[float, float, str, str]]:
    """What one operation's note prescribed, from that operation on."""
    operated, spans = max(0.0, days.day(note.operated_at)), []
    for step in drop_plan_of(note, days.eye.zone):
        if drawn := days.span(max(operated, days.day_of(step.first)), days.day_of(step.last) + 1):
            spans.append((*drawn, "planned", f"{step.name}, planned until {step.last}"))
    return spans
