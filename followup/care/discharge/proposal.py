"""From the note to a plan to confirm: visits on clinic days, posture, forecast, cautions."""

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from followup.care import bounds
from followup.care.discharge.note import drops_text, operation_from
from followup.care.reading.eye import protocol
from followup.clinical import agents, coverage, forecasts, posture, schedule, tamponade
from followup.clinical.surgery import Operation
from followup.protocols import book
from followup.records import Store, eyes, visits
from followup.records.operation_note import OperationNote

LATELY_NOTES, LATELY_LINES = 60, 5


@dataclass(frozen=True)
class Proposal:
    """What the app proposes from an operation note, for the nurse to adjust and confirm. `unplaced` says by its name why a
    visit has no place, or is not proposed at all: its days were over before the operation was entered.
    """

    operation: Operation
    visits: list[schedule.Window]
    plan: posture.Plan | None
    covers: list[coverage.Cover]
    cover_lost_day: float | None
    forecast: forecasts.Forecast
    unplaced: dict[str, str]


def propose(
    store: Store, note: OperationNote, now: datetime, zone: tzinfo, clinic_days: dict[date, int] | None = None
) -> Proposal:
    """Visits from the review protocol (on open clinic days), posture from plans and geometry, forecast from the agent."""
    operation = operation_from(note, now, zone)
    moves = agents.AGENTS[operation.agent].moves
    plan = book.propose_plan(
        book.postures(protocol(store, "postures").text),
        operation.agent,
        operation.indication,
        operation.breaks,
        operation.fill_percent,
    )
    operated_on = operation.at.astimezone(zone).date()
    wanted = schedule.windows(book.reviews(protocol(store, "reviews").text), operated_on, operation.agent, operation.risks)
    today = now.astimezone(zone).date()
    over = {w.name: f"its last day was {bounds.words(w.latest)}" for w in wanted if w.latest < today}
    windows, unplaced = _on_clinic_days(store, [w for w in wanted if w.name not in over], clinic_days)
    forecast = tamponade.forecast(operation.agent, operation.percent, operation.fill_percent, operation.lens)
    with_bubble = operation.breaks and operation.agent != "none"
    covers = coverage.best_postures(operation.breaks, operation.fill_percent, moves) if with_bubble else []
    lost = tamponade.cover_lost(forecast, operation.breaks, plan.position) if plan else None
    return Proposal(operation, windows, plan, covers, lost.median if lost else None, forecast, over | unplaced)


def drops_lately(store: Store, zone: tzinfo) -> list[str]:
    """The lines of drops that this clinic's latest notes say most often, to write again by one press."""
    said: Counter[str] = Counter()
    for note in eyes.latest_notes(store, LATELY_NOTES):
        operated_on = note.operated_at.astimezone(zone).date()
        said.update(drops_text([drop], operated_on) for drop in note.body.drops if drop.until > operated_on)
    return [line for line, _ in said.most_common(LATELY_LINES)]


def _on_clinic_days(
    store: Store, wanted: list[schedule.Window], places: dict[date, int] | None
) -> tuple[list[schedule.Window], dict[str, str]]:
    """Move each window's target onto an open clinic day with a place; what finds none keeps its target and is named."""
    if not wanted or places is None:
        return wanted, {}
    booked = visits.booked_counts(store)
    free = {day: seats - booked.get(day, 0) for day, seats in places.items()}
    found = schedule.book([schedule.Request(w.name, w.target, w.earliest, w.latest) for w in wanted], free)
    moved = [schedule.Window(w.name, found.placed.get(w.name, w.target), w.earliest, w.latest, w.reason) for w in wanted]
    return moved, found.unplaced
