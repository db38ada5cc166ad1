"""How the clinic's operations turned out, by surgeon: counted from what was recorded, with the core's intervals."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from statistics import median

from followup.care.reading.eye import Eye, load, rulebook
from followup.care.watch import watching
from followup.clinical import acuity, outcomes
from followup.clinical.course import Timeline
from followup.clinical.outcomes import ChartPoint, Proportion, Step
from followup.records import Store, eyes

SPIKE_WITHIN = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Results:
    """Results of a set of eyes; a part that nothing was recorded for is None or empty.

    `attached` holds the steps of the curve of eyes whose retina was not found detached again, `followed` how many
    eyes it rests on; `better` and `worse` compare the last acuity not read through gas with that before surgery, beyond
    test-retest noise;
    `spikes` are eyes with a pressure at the rulebook's spike edge within 14 days; `attended` planned visits that took
    place; `in_time` callbacks settled before they moved up; `hours_to_claim` the median time until somebody took one.
    """

    eyes: int
    followed: int
    attached: list[Step]
    better: Proportion | None
    worse: Proportion | None
    spikes: Proportion | None
    attended: Proportion | None
    in_time: Proportion | None
    hours_to_claim: float | None
    spikes_by_month: list[ChartPoint]


def surgeons(store: Store) -> list[str]:
    """Everybody who operated on an eye on record, by name."""
    return sorted({known.note.surgeon for known in eyes.operated(store) if known.note})


def results(store: Store, now: datetime, zone: tzinfo, surgeon: str | None = None) -> Results:
    """The results of one surgeon's operations, or of the whole clinic's."""
    rows = [known for known in eyes.operated(store) if known.note and surgeon in (None, known.note.surgeon)]
    courses: list[tuple[Eye, Timeline]] = []
    with watching.parts(store, now, "results") as part:
        for row in rows:
            with part(row.id):
                eye = load(store, row.id, zone)
                courses.append((eye, eye.timeline(now)))
    known = [eye for eye, _ in courses]
    spike_from = rulebook(store).bands.spike_from
    ends = [end for eye, course in courses if (end := _attachment(eye, course)) is not None]
    changes = [change for eye, course in courses if (change := _acuity_change(eye, course)) is not None]
    spiked = {eye.id: hit for eye, course in courses if (hit := _spiked(eye, course, spike_from)) is not None}
    visits = [taken for eye in known for taken in _attendance(eye, now.astimezone(zone).date())]
    settled = [c for eye in known for c in eye.callbacks if c.state == "settled"]
    waits = [(c.claimed_at - c.opened_at) / timedelta(hours=1) for eye in known for c in eye.callbacks if c.claimed_at]
    return Results(
        eyes=len(known),
        followed=len(ends),
        attached=outcomes.kaplan_meier([day for day, _ in ends], [detached for _, detached in ends]),
        better=_share(change == "better" for change in changes),
        worse=_share(change == "worse" for change in changes),
        spikes=_share(spiked.values()),
        attended=_share(visits),
        in_time=_share(c.moved_up == 0 for c in settled),
        hours_to_claim=median(waits) if waits else None,
        spikes_by_month=_by_month(known, spiked, zone),
    )


def _attachment(eye: Eye, timeline: Timeline) -> tuple[float, bool] | None:
    """(day, True) when the retina was first found detached again, (last day seen, False) otherwise; None if never seen.

    An eye whose follow-up ended is censored where it was last seen before the end: what came later was not looked for.
    """
    ended_at = eye.known.ended_at
    seen = [m for m in timeline.measures if ended_at is None or m.at <= ended_at]
    first = next((fact for fact in seen if "detached" in fact.findings), None)
    if first is not None:
        return eye.operation.day(first.at), True
    return (eye.operation.day(seen[-1].at), False) if seen else None


def _acuity_change(eye: Eye, timeline: Timeline) -> str | None:
    """better, worse or same, beyond noise, of the last acuity not read through gas against the one before surgery."""
    last = next((seen for _, seen, through in reversed(timeline.views) if through != "gas over sight"), None)
    if last is None or eye.operation.baseline_acuity is None:
        return None
    change = acuity.change(eye.operation.baseline_acuity, last)
    return change.direction if change.exceeds_noise else "same"


def _spiked(eye: Eye, timeline: Timeline, spike_from: float) -> bool | None:
    until = eye.operation.at + SPIKE_WITHIN
    early = [m.iop_mmhg for m in timeline.measures if m.iop_mmhg is not None and m.at <= until]
    return max(early) >= spike_from if early else None


def _attendance(eye: Eye, today: date) -> list[bool]:
    """Whether each visit whose time is over took place."""
    seen = eye.seen_visits
    return [v.identity in seen for v in eye.visits if v.latest < today]


def _by_month(known: Sequence[Eye], spiked: dict[str, bool], zone: tzinfo) -> list[ChartPoint]:
    months: dict[str, list[bool]] = defaultdict(list)
    for eye in known:
        if eye.id in spiked:
            months[f"{eye.operation.at.astimezone(zone):%Y-%m}"].append(spiked[eye.id])
    return outcomes.proportion_chart([(month, sum(hits), len(hits)) for month, hits in sorted(months.items())])


def _share(hits: Iterable[bool]) -> Proportion | None:
    counted = list(hits)
    return outcomes.wilson(sum(counted), len(counted)) if counted else None
