"""The pictures of the results: attachment over time with the numbers at risk, and the run chart of pressure spikes."""

from dataclasses import dataclass

from followup.clinical.outcomes import ChartPoint, Step
from followup.web.drawing import LEFT, RIGHT, WIDTH, Point, day_ticks, scale

FOOT = 100
ROOM = 12


@dataclass
class Curve:
    """A step curve with its interval over days, and how many were still looked at, in a view box 420 by 140."""

    line: list[Point]
    area: list[Point]
    days: list[tuple[float, str, int]]
    shares: list[tuple[float, str]]


def attachment_curve(steps: list[Step], times: list[float]) -> Curve | None:
    """The share of retinas still attached, from day 0 to the last step; None where nothing happened.

    `times` are the days for which each was followed.
    """
    if not steps:
        return None
    last = max(14.0, steps[-1].day * 1.1)
    x, y = scale(0, last, LEFT, WIDTH - RIGHT), scale(0, 1, FOOT, 10)
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
        [(x(day), str(day), sum(time >= day for time in times)) for day in day_ticks(last)],
        [(y(share), f"{share:.0%}") for share in (0, 0.5, 1)],
    )


@dataclass
class Run:
    """A run chart of shares by month, in a view box 420 by 130: points with their limits, and the mean."""

    points: list[tuple[float, float, ChartPoint]]
    limits: list[Point]
    mean: float
    months: list[tuple[float, str]]
    shares: list[tuple[float, str]]


def run_chart(chart: list[ChartPoint]) -> Run | None:
    """None where there are too few months for a run."""
    if len(chart) < 2:
        return None
    top = max(0.1, *(p.value for p in chart), *(p.high for p in chart))
    x, y = scale(0, len(chart) - 1, LEFT + ROOM, WIDTH - RIGHT - ROOM), scale(0, top, FOOT, 10)
    edge = [(x(n), y(p.high)) for n, p in enumerate(chart)] + [(x(n), y(p.low)) for n, p in enumerate(chart)][::-1]
    every = -(-len(chart) // 6)
    return Run(
        [(x(n), y(p.value), p) for n, p in enumerate(chart)],
        edge,
        y(chart[0].centre),
        [(x(n), p.label) for n, p in enumerate(chart) if n % every == 0],
        [(y(share), f"{share:.0%}") for share in (0, top / 2, top)],
    )
