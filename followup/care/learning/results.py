"""How the clinic's operations turned out: counted from what was recorded, with the core's intervals."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, tzinfo
from statistics import median

from followup.care.learning import contributions
from followup.care.reading.eye import rulebook
from followup.clinical import outcomes
from followup.clinical.outcomes import ChartPoint, Proportion, Step
from followup.records import Store, eyes, kept_results
from followup.records.kept_results import Asked as Asked
from followup.records.values import ListedResult


@dataclass(frozen=True, slots=True)
class Results:
    """Results of the operations asked for; a part that nothing was recorded for is None or empty.

    `attached` holds the steps of the curve of retinas not found detached again, `followed` how many operations it rests
    on, and `days_followed` for how long each was; `under_liquid` were found detached under oil or heavy liquid, which the
    curve leaves out. `once`, `finally_attached` and `liquid_left` are shares of the eyes followed long enough. `better` and
    `worse` compare the last acuity not read through gas with that before the operation, beyond test-retest noise; `spikes`
    are operations with a pressure at the rulebook's spike edge within 14 days; `attended` planned visits that took place;
    `in_time` callbacks settled before they moved up, of those settled or past their time; `hours_to_claim` the median time
    until somebody took one.
    """

    eyes: int
    operations: int
    followed: int
    days_followed: list[float]
    attached: list[Step]
    under_liquid: int
    once: Proportion | None
    finally_attached: Proportion | None
    liquid_left: Proportion | None
    better: Proportion | None
    worse: Proportion | None
    spikes: Proportion | None
    attended: Proportion | None
    in_time: Proportion | None
    hours_to_claim: float | None
    spikes_by_month: list[ChartPoint]


def surgeons(store: Store) -> list[str]:
    """Everybody who operated on an eye on record, by name."""
    return eyes.surgeons(store)


def results(store: Store, now: datetime, zone: tzinfo, asked: Asked | None = None) -> Results:
    """The results of the operations asked for, or of all of the clinic's."""
    contributions.bring_up_to_date(store, now, zone)
    found = kept_results.sums(store, asked or Asked(), rulebook(store).bands.spike_from)
    days = [days for days, _ in found.followed]
    sighted = sum(found.sight.values())
    return Results(
        eyes=found.eyes,
        operations=found.operations,
        followed=len(days),
        days_followed=days,
        attached=outcomes.kaplan_meier(days, [detached for _, detached in found.followed]),
        under_liquid=found.under_liquid,
        once=_share(found.once, found.ends),
        finally_attached=_share(found.attached, found.ends),
        liquid_left=_share(found.liquid_left, found.ends),
        better=_share(found.sight.get("better", 0), sighted),
        worse=_share(found.sight.get("worse", 0), sighted),
        spikes=_share(sum(hits for _, hits, _ in found.spikes), sum(of for _, _, of in found.spikes)),
        attended=_share(found.visits_seen, found.visits),
        in_time=_share(found.calls_in_time, found.calls),
        hours_to_claim=median(found.hours_to_claim) if found.hours_to_claim else None,
        spikes_by_month=outcomes.proportion_chart(found.spikes),
    )


def listed(store: Store, now: datetime, zone: tzinfo, asked: Asked | None = None) -> Iterator[ListedResult]:
    """The operations behind them, by when each eye was last operated."""
    contributions.bring_up_to_date(store, now, zone)
    yield from kept_results.listed(store, asked or Asked())


def _share(events: int, total: int) -> Proportion | None:
    return outcomes.wilson(events, total) if total else None
