"""From the note to a plan to confirm: visits on clinic days, posture, forecast, cautions."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from followup.care.discharge.note import operation_from
from followup.care.reading.eye import protocol
from followup.clinical import agents, coverage, forecasts, overfill, posture, schedule, tamponade
from followup.clinical.errors import ClinicalError
from followup.clinical.surgery import Operation
from followup.protocols import book
from followup.records import Store, visits
from followup.records.operation_note import OperationNote


@dataclass(frozen=True)
class Proposal:
    """What the app proposes from an operation note, for the nurse to adjust and confirm.

    `asks` is what `asks_about` says of the note.
    """

    operation: Operation
    visits: list[schedule.Window]
    plan: posture.Plan | None
    covers: list[coverage.Cover]
    cover_lost_day: float | None
    forecast: forecasts.Forecast
    unplaced: dict[str, str]
    asks: str | None = None


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
    windows, unplaced = _on_clinic_days(store, wanted, clinic_days)
    forecast = tamponade.forecast(operation.agent, operation.percent, operation.fill_percent, operation.lens)
    with_bubble = operation.breaks and operation.agent != "none"
    covers = coverage.best_postures(operation.breaks, operation.fill_percent, moves) if with_bubble else []
    lost = tamponade.cover_lost(forecast, operation.breaks, plan.position) if plan else None
    return Proposal(operation, windows, plan, covers, lost.median if lost else None, forecast, unplaced, asks_about(note))


def asks_about(note: OperationNote) -> str | None:
    """A question about a gas strength and fill that together outgrow the eye; None where they fit, or are refused anyway."""
    try:
        return overfill.question(note.agent, note.percent, note.fill_percent)
    except ClinicalError:
        return None


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
