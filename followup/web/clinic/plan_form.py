"""The form that changes a plan after discharge."""

from datetime import date
from typing import Any

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

from followup.clinical.tamponade import AGENTS
from followup.records.values import Note, Visit
from followup.web.clinic.book_forms import BookForm
from followup.web.fields import PLAN_POSITIONS, DayField, NumberText, asked_with_position, choices


class MoveForm(Form):
    id = HiddenField()
    target = DayField("Date", [InputRequired("write the date")])


class PlanForm(BookForm):
    """What may change after discharge: what is in the eye, the posture, the dates."""

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
        body, plan = note.body, note.body.get("posture") or {}
        self.agent.data = note.agent
        self.percent.data, self.fill_percent.data = (f"{body.get(k) or 0:g}" for k in ("percent", "fill_percent"))
        self.position.data = plan.get("position", "")
        self.hours_a_day.data, self.days.data = (f"{plan.get(k, 0):g}" for k in ("hours_a_day", "days"))
        self.notes.data = body.get("notes", "")
        for visit in visits:
            self.visits.append_entry({"id": visit.identity, "target": visit.target})

    def changed(self, note: Note) -> dict[str, Any]:
        """The operation note with what was changed here."""
        body = dict(note.body)
        plan = None
        if self.position.data and self.days.number:
            plan = {
                "position": self.position.data,
                "hours_a_day": self.hours_a_day.number or 0,
                "days": int(self.days.number),
            }
        steroid_until = body.pop("steroid_last_day", None)
        return {
            **body,
            "steroid_drops_until": steroid_until,
            "eye": note.eye,
            "operated_at": note.operated_at,
            "surgeon": note.surgeon,
            "agent": self.agent.data,
            "percent": self.percent.number or 0,
            "fill_percent": self.fill_percent.number or 0,
            "posture": plan,
            "notes": self.notes.data or "",
        }

    def moves(self, visits: list[Visit]) -> dict[str, date]:
        """Visits that got another date here, by identity."""
        planned = {v.identity: v.target for v in visits}
        rows = [row.form for row in self.visits]
        return {f.id.data: f.target.data for f in rows if planned.get(f.id.data, f.target.data) != f.target.data}
