"""The form that changes a plan after discharge."""

from datetime import date

from wtforms import (
    BooleanField,
    FieldList,
    Form,
    FormField,
    HiddenField,
    SelectField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length

from followup.clinical.agents import AGENTS
from followup.records.operation_note import OperationNote, Positioning
from followup.records.values import Note, Visit
from followup.web.clinic.book_forms import BookForm
from followup.web.fields import PLAN_POSITIONS, DayField, NumberText, asked_with_position, choices


class MoveForm(Form):
    """A visit with its date; `was` is the date that was shown."""

    id = HiddenField()
    was = HiddenField()
    target = DayField("Date", [InputRequired("write the date")])


class PlanForm(BookForm):
    """What may change after discharge: what is in the eye, the posture, the dates. `corrects` is the note that was shown."""

    corrects = HiddenField()
    agent = SelectField("Left in the eye", choices=choices({n: a.words for n, a in AGENTS.items()}))
    percent = NumberText("Concentration, %", unit=" %")
    fill_percent = NumberText("Fill, %", unit=" %")
    position = SelectField("Head position", choices=PLAN_POSITIONS)
    hours_a_day = NumberText("Hours a day", low=0, high=24, unit=" hours")
    days = NumberText("Days", low=0, high=60, unit=" days", whole=True)
    visits = FieldList(FormField(MoveForm))
    notes = TextAreaField("Notes", [Length(max=2000)])
    callback = HiddenField()
    settles = BooleanField("This answers the callback: somebody tells the patient", default=True)

    validate_hours_a_day = validate_days = asked_with_position

    def fill_from(self, note: Note, visits: list[Visit]) -> None:
        """Show what stands now."""
        body, plan = note.body, note.body.posture
        self.corrects.data = note.id
        self.agent.data = note.agent
        self.percent.data, self.fill_percent.data = f"{body.percent:g}", f"{body.fill_percent:g}"
        self.position.data = plan.position if plan else ""
        self.hours_a_day.data = f"{plan.hours_a_day:g}" if plan else "0"
        self.days.data = str(plan.days) if plan else "0"
        self.notes.data = body.notes
        for visit in visits:
            self.visits.append_entry({"id": visit.identity, "was": visit.target.isoformat(), "target": visit.target})

    def changed(self, note: Note) -> OperationNote:
        """The operation note with what was changed here."""
        position, days, hours = self.position.data, self.days.number, self.hours_a_day.number or 0
        changes = {
            "agent": self.agent.data,
            "percent": self.percent.number or 0.0,
            "fill_percent": self.fill_percent.number or 0.0,
            "posture": Positioning(position=position, hours_a_day=hours, days=int(days)) if position and days else None,
            "notes": self.notes.data or "",
        }
        return note.body.model_copy(update=changes)

    def moves(self, visits: list[Visit]) -> dict[str, date]:
        """Visits that got another date here than the one that was shown, by identity."""
        planned = {v.identity: v.target.isoformat() for v in visits}
        rows = [row.form for row in self.visits if row.form.id.data in planned]
        return {f.id.data: f.target.data for f in rows if f.target.data.isoformat() != (f.was.data or planned[f.id.data])}

    def shown(self) -> dict[str, str]:
        """The date (ISO) that was shown of each visit, by identity."""
        return {row.form.id.data: row.form.was.data for row in self.visits if row.form.was.data}
