"""One eye's course as a picture: panels over one axis of days, worked out here, drawn by a template.

Coordinates are in the units of an SVG view box 420 wide, so that text stays readable on a phone.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import ceil, floor
from typing import Any

from followup.care.callbacks import OUTCOMES
from followup.care.entries import said
from followup.care.eye import Eye
from followup.clinical import acuity, bubble, posture, pressure
from followup.clinical.outcomes import Step
from followup.records.values import Event, Warning

WIDTH, LEFT, RIGHT, TOP, GAP, PANEL, STRIP = 420, 40, 10, 22, 32, 74, 14
Scale = Callable[[float], float]
Point = tuple[float, float]


@dataclass
class Mark:
    """A value drawn as a point, with the words a reader hears."""

    x: float
    y: float
    words: str
    kind: str = "clinic"
    label: str = ""


@dataclass
class Panel:
    """One strip of the picture; `bands` are (y, height, kind), `ticks` (y, words), `line` and `area` polygons."""

    title: str
    top: float
    bands: list[tuple[float, float, str]] = field(default_factory=list)
    ticks: list[tuple[float, str]] = field(default_factory=list)
    line: list[Point] = field(default_factory=list)
    area: list[Point] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    bars: list[tuple[float, float, float, float, str]] = field(default_factory=list)
    path: list[Point] = field(default_factory=list)

    @property
    def bottom(self) -> float:
        return self.top + PANEL


@dataclass
class Strip:
    """A line under the panels: `marks` at moments, `spans` (x, width, kind, words) over time."""

    title: str
    y: float
    marks: list[Mark] = field(default_factory=list)
    spans: list[tuple[float, float, str, str]] = field(default_factory=list)


@dataclass
class Chart:
    width: int
    height: float
    left: float
    right: float
    day_ticks: list[tuple[float, str]]
    now_x: float
    panels: list[Panel]
    strips: list[Strip]


def course_chart(eye: Eye, now: datetime, bands: pressure.Bands) -> Chart:
    """The whole course: acuity (better upward), pressure with bands, bubble forecast and levels, posture hours."""
    last_day = _last_day(eye, now)
    x = _scale(0, last_day, LEFT, WIDTH - RIGHT)
    tops = [TOP + n * (PANEL + GAP) for n in range(4)]
    at = {e.id: x(max(0.0, eye.operation.day(e.at))) for e in eye.events}
    measures = [e for e in eye.events if e.kind == "measures"]
    panels = [
        _acuity_panel(tops[0], measures, at),
        _pressure_panel(tops[1], measures, at, bands),
        _bubble_panel(eye, tops[2], x, last_day, now, at),
        _posture_panel(eye, tops[3], x, now),
    ]
    strips = _strips(eye, x, last_day, now, panels[-1].bottom)
    return Chart(
        WIDTH,
        strips[-1].y + 18,
        LEFT,
        WIDTH - RIGHT,
        [(x(d), str(d)) for d in _day_ticks(last_day)],
        x(min(eye.operation.day(now), last_day)),
        panels,
        strips,
    )


def reading(body: dict[str, Any]) -> acuity.Acuity | None:
    """The acuity of stored measures."""
    return acuity.read(body["acuity"], body.get("notation")) if body.get("acuity") else None


def course_table(eye: Eye, now: datetime) -> list[tuple[datetime, str, str]]:
    """The same course as rows (when, what, in words), newest first."""
    rows = [(e.at, e.kind.replace("-", " "), said(e.kind, e.body, eye.zone)) for e in eye.events]
    rows += [(w.raised_at, "warning", _warned(w)) for w in eye.warnings]
    for c in eye.callbacks:
        rows.append((c.opened_at, "callback opened", c.worry))
        if c.settled_at:
            rows.append((c.settled_at, "callback settled", f"{c.worry}: {OUTCOMES[c.outcome or '']}"))
    for v in eye.visits:
        planned = datetime.combine(v.target, datetime.min.time(), eye.zone)
        rows.append((planned, "visit planned", v.name))
    for day in eye.timeline(now).hours_in_plan:
        end = datetime.combine(day.day, datetime.max.time(), eye.zone).replace(microsecond=0)
        rows.append((min(end, now), "posture total", f"{day.hours:.1f} of {day.target_hours:g} hours"))
    return sorted(rows, key=lambda r: r[0], reverse=True)


@dataclass
class Curve:
    """A step curve with its interval over days, in the units of a view box 420 by 120."""

    line: list[Point]
    area: list[Point]
    days: list[tuple[float, str]]
    shares: list[tuple[float, str]]


def attachment_curve(steps: list[Step]) -> Curve | None:
    """The share of eyes still attached, from day 0 to the last step; None where nothing happened."""
    if not steps:
        return None
    last = max(14.0, steps[-1].day * 1.1)
    x, y = _scale(0, last, LEFT, WIDTH - RIGHT), _scale(0, 1, 100, 10)
    known = [(0.0, 1.0, 1.0, 1.0), *((s.day, s.survival, s.low, s.high) for s in steps)]
    ends = [*(day for day, *_ in known[1:]), last]

    def stairs(values: list[float]) -> list[Point]:
        return [
            point
            for (day, *_), end, value in zip(known, ends, values, strict=True)
            for point in ((x(day), y(value)), (x(end), y(value)))
        ]

    return Curve(
        stairs([share for _, share, _, _ in known]),
        stairs([high for *_, high in known]) + stairs([low for _, _, low, _ in known])[::-1],
        [(x(d), str(d)) for d in _day_ticks(last)],
        [(y(share), f"{share:.0%}") for share in (0, 0.5, 1)],
    )


def _warned(w: Warning) -> str:
    told = f"{w.how_soon.replace('-', ' ')}: {w.words}"
    return f"{told} Rests on an entry that was put right." if w.unfounded else told


def _acuity_panel(top: float, measures: list[Event], at: dict[str, float]) -> Panel:
    panel = Panel("Acuity, logMAR", top)
    y = _scale(acuity.STAND_INS["NLP"].value, -0.2, top + PANEL, top)
    labels = ((0.0, "6/6"), (0.6, "6/24"), (1.2, "6/95"))
    panel.ticks = [(y(value), label) for value, label in labels]
    panel.ticks += [(y(figure.value), name) for name, figure in acuity.STAND_INS.items() if name in ("CF", "HM")]
    for event in measures:
        seen = reading(event.body)
        if seen:
            kind = "category" if seen.category else "clinic"
            panel.marks.append(Mark(at[event.id], y(min(seen.logmar, 3.0)), f"acuity {seen.typed}", kind, seen.typed))
    panel.path = [(m.x, m.y) for m in panel.marks]
    return panel


def _pressure_panel(top: float, measures: list[Event], at: dict[str, float], bands: pressure.Bands) -> Panel:
    values = [e.body["iop_mmhg"] for e in measures if e.body.get("iop_mmhg") is not None]
    highest = max([50.0, *values])
    y = _scale(0, highest, top + PANEL, top)
    panel = Panel("Pressure, mmHg", top)
    panel.bands = [
        (y(bands.normal_to), y(bands.normal_from) - y(bands.normal_to), "normal"),
        (y(highest), y(bands.spike_from) - y(highest), "high"),
        (y(bands.hypotony_at_most), y(0) - y(bands.hypotony_at_most), "low"),
    ]
    panel.ticks = [(y(v), f"{v:g}") for v in (0, bands.normal_from, bands.normal_to, bands.spike_from, bands.severe_from)]
    for event in measures:
        iop = event.body.get("iop_mmhg")
        if iop is not None:
            panel.marks.append(Mark(at[event.id], y(iop), f"pressure {iop:g} mmHg", "clinic", f"{iop:g}"))
    panel.path = [(m.x, m.y) for m in panel.marks]
    return panel


def _bubble_panel(eye: Eye, top: float, x: Scale, last_day: float, now: datetime, at: dict[str, float]) -> Panel:
    y = _scale(0, 100, top + PANEL, top)
    panel = Panel(f"Bubble height, % ({eye.operation.agent})", top)
    panel.ticks = [(y(v), f"{v}") for v in (0, 50, 100)]
    if eye.operation.agent != "none":
        forecast = eye.forecast(now)
        days = [last_day * n / 60 for n in range(61)]
        levels = [forecast.at(d) for d in days]
        panel.line = [(x(d), y(level.meniscus_percent)) for d, level in zip(days, levels, strict=True)]
        if eye.operation.fades:
            height = bubble.meniscus_percent
            upper = [(x(d), y(height(level.high_percent))) for d, level in zip(days, levels, strict=True)]
            lower = [(x(d), y(height(level.low_percent))) for d, level in zip(days, levels, strict=True)]
            panel.area = upper + lower[::-1]
    for event in eye.events:
        body = event.body
        if event.kind == "measures" and body.get("bubble_percent") is not None:
            level = body["bubble_percent"]
            panel.marks.append(Mark(at[event.id], y(level), f"bubble {level:g} % high, seen in clinic", "clinic"))
        elif event.kind == "bubble-seen":
            panel.marks.append(
                Mark(at[event.id], y(body["percent"]), f"bubble {body['percent']:g} %, seen by the patient", "patient")
            )
    return panel


def _posture_panel(eye: Eye, top: float, x: Scale, now: datetime) -> Panel:
    panel = Panel("Posture, hours a day", top)
    y = _scale(0, 24, top + PANEL, top)
    panel.ticks = [(y(v), f"{v}") for v in (0, 12, 24)]
    blocks = [p.block for p in eye.timeline(now).postured]
    plan = eye.operation.plan
    for day, hours in sorted(posture.hours_by_day(blocks, eye.zone, now, plan.position if plan else None).items()):
        start = x(max(0.0, _day_of(eye, day.isoformat())))
        width = max(1.5, x(1) - x(0) - 1)
        panel.bars.append((start, y(hours), width, y(0) - y(hours), f"{day.isoformat()}: {hours:.1f} hours"))
    if plan:
        panel.line = [(x(0), y(plan.hours_a_day)), (x(plan.days), y(plan.hours_a_day))]
    return panel


def _strips(eye: Eye, x: Scale, last_day: float, now: datetime, foot: float) -> list[Strip]:
    """Warnings, callbacks, drops and visits, one line each."""
    day = eye.operation.day
    signs, callbacks, drops, visits = (
        Strip(title, foot + 14 + n * STRIP) for n, title in enumerate(("signs", "calls", "drops", "visits"))
    )
    signs.marks = [
        Mark(x(max(0.0, day(w.raised_at))), signs.y, _warned(w), "put-right" if w.unfounded else w.how_soon)
        for w in eye.warnings
    ]
    for c in eye.callbacks:
        start, end = (x(max(0.0, day(at))) for at in (c.opened_at, c.settled_at or now))
        said = f"callback, {c.worry}: {OUTCOMES[c.outcome or ''] if c.outcome else c.state}"
        callbacks.spans.append((start, max(3.0, round(end - start, 1)), c.state, said))
    for drop in eye.drops:
        until = min(_day_of(eye, drop["until"]) + 1, last_day)
        drops.spans.append((x(0), round(x(until) - x(0), 1), "planned", f"{drop['name']}, planned until {drop['until']}"))
    taken = [e for e in eye.events if e.kind == "drops"]
    drops.marks = [Mark(x(max(0.0, day(e.at))), drops.y, f"{e.body['name']}, taken", "taken") for e in taken]
    planned = [(v, _day_of(eye, v.target.isoformat())) for v in eye.visits]
    seen = eye.seen_visits
    visits.marks = [
        Mark(x(d), visits.y, f"visit {v.name}, {v.target}", "done" if v.identity in seen else "open")
        for v, d in planned
        if 0 <= d <= last_day
    ]
    return [signs, callbacks, drops, visits]


def _last_day(eye: Eye, now: datetime) -> float:
    return float(max(14, ceil(eye.operation.day(now)) + 7))


def _day_of(eye: Eye, iso: str) -> float:
    start = datetime.fromisoformat(iso[:10]).replace(tzinfo=eye.zone)
    return (
        start + timedelta(hours=0) - eye.operation.at.astimezone(eye.zone).replace(hour=0, minute=0, second=0, microsecond=0)
    ) / timedelta(days=1)


def _day_ticks(last_day: float) -> list[int]:
    step = next(s for s in (1, 2, 7, 14, 28, 56, 112, 365, 3650) if last_day / s <= 8)
    return list(range(0, floor(last_day) + 1, step))


def _scale(low: float, high: float, start: float, end: float) -> Scale:
    return lambda value: round(start + (value - low) / (high - low) * (end - start), 1)
