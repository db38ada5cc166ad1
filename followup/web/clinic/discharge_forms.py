"""The forms of discharge: patient, operation note, proposed visits; and of putting a note right."""

from datetime import datetime, tzinfo
from typing import Any

from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    Field,
    FieldList,
    Form,
    FormField,
    HiddenField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
    TimeField,
    ValidationError,
)
from wtforms.validators import DataRequired, InputRequired, Length, Optional

from followup.care.corrections.correcting import LONGEST_REASON
from followup.care.discharge.note import PROCEDURE_STEPS
from followup.care.patients.reaching import WAYS
from followup.clinical.agents import AGENTS, LENSES
from followup.clinical.coverage import REACHES
from followup.clinical.surgery import INDICATIONS, RISKS
from followup.records.values import Note
from followup.web.context import LANGUAGES
from followup.web.fields import (
    NOTATIONS,
    PLAN_POSITIONS,
    AcuityText,
    DayField,
    ManyField,
    NumberText,
    PressureText,
    asked_with_position,
    choices,
    filled,
    to_choose,
)

BREAK_ROWS = 4

DROP_ROWS = 4


class BreakForm(Form):
    clock = NumberText("Clock hour, 1–12", low=1, high=12, whole=True)
    reach = SelectField("Reach", choices=to_choose({r: r for r in REACHES}), default="")

    def validate_clock(self, field: Field) -> None:
        if self.reach.data and not filled(field):
            raise ValidationError("write the clock hour of this break, 1 to 12")

    def validate_reach(self, field: Field) -> None:
        if filled(self.clock) and not field.data:
            raise ValidationError("say how far out this break lies")


class DropForm(Form):
    name = StringField("Drop", [Length(max=60)])
    times_a_day = NumberText("Times a day", low=1, high=24, whole=True)
    until = DayField("Until (last day)", [Optional()])

    def validate_name(self, field: Field) -> None:
        if not filled(field) and (filled(self.times_a_day) or filled(self.until)):
            raise ValidationError("write which drop this is")

    def validate_times_a_day(self, field: Field) -> None:
        if filled(self.name) and not filled(field):
            raise ValidationError("write how many times a day, as prescribed, 1 to 24")

    def fault_of_end(self) -> str | None:
        """What is missing where a drop is named without its last day (an empty date stops a field's own checks)."""
        return "write the last day of this drop" if filled(self.name) and not filled(self.until) else None


class VisitRowForm(Form):
    keep = BooleanField("Keep", default=True)
    name = StringField("Visit", [Length(max=60)])
    target = DayField("Date", [Optional()])
    earliest = HiddenField()
    latest = HiddenField()
    reason = StringField("Reason", [Length(max=200)])


SAME_PERSON = {
    "written": "The same person, and what is written now is right",
    "recorded": "The same person, and what the records have is right",
    "another": "Another person: I will correct the hospital number",
}


class ParticularsPart:
    """Who the patient is."""

    number = StringField("Hospital number", [DataRequired("write the hospital number"), Length(max=40)])
    name = StringField("Name", [DataRequired("write the patient’s name"), Length(max=120)])
    born_on = DayField("Date of birth", [InputRequired("write the date of birth")])
    phone = StringField("Phone", [Length(max=40)])
    language = SelectField("Language of the phone pages", choices=choices(LANGUAGES), default="en")


class OperationPart:
    """What was done, and the eye as it was before."""

    eye = RadioField("Eye", choices=choices({"right": "right", "left": "left"}), validators=[InputRequired("say which eye")])
    operated_on = DayField("Date of surgery", [InputRequired("write the date of surgery")])
    operated_time = TimeField(
        "Time", [InputRequired("write the time, for example 14:30")], default=lambda: datetime.min.time().replace(hour=12)
    )
    surgeon = StringField("Surgeon", [DataRequired("write the surgeon’s name"), Length(max=120)])
    indication = SelectField(
        "Indication", choices=to_choose(INDICATIONS), validators=[InputRequired("say why the eye was operated")]
    )
    steps = ManyField("What was done", choices=choices(PROCEDURE_STEPS))
    breaks = FieldList(FormField(BreakForm), min_entries=BREAK_ROWS)
    lens = SelectField(
        "Lens", choices=to_choose({n: n for n in LENSES}), validators=[InputRequired("say which lens is in the eye")]
    )
    agent = SelectField(
        "Left in the eye",
        choices=to_choose({n: a.words for n, a in AGENTS.items()}),
        validators=[InputRequired("say what was left in the eye, or none")],
    )
    percent = NumberText("Concentration, %", unit=" %")
    fill_percent = NumberText("Fill at the end of surgery, %", unit=" %")
    risks = ManyField("Risks left behind", choices=choices(RISKS))
    baseline_acuity = AcuityText("Acuity before surgery", notation="baseline_notation")
    baseline_notation = SelectField("Notation", choices=NOTATIONS, default="")
    baseline_iop = PressureText("Pressure before surgery, mmHg")
    drops = FieldList(FormField(DropForm), min_entries=DROP_ROWS)
    steroid_drops_until = DayField("Steroid drops until", [Optional()])
    notes = TextAreaField("Notes", [Length(max=2000)])


class DischargeForm(ParticularsPart, OperationPart, FlaskForm):
    """Patient, operation, and (once proposed) the plan."""

    reached_by = RadioField(
        "How we stay in touch", choices=choices(WAYS), validators=[InputRequired("say how the patient is reached")]
    )
    carer_phone = StringField("A carer’s phone", [Length(max=40)])
    same_person = RadioField("Is it the same person?", choices=choices(SAME_PERSON), validate_choice=False)
    same_person_mark = HiddenField()
    asked = HiddenField()  # the question about the gas that was shown, so that it is asked once
    position = SelectField("Head position", choices=PLAN_POSITIONS)
    hours_a_day = NumberText("Hours a day", low=0, high=24, unit=" hours")
    days = NumberText("Days", low=0, high=60, unit=" days", whole=True)
    visits = FieldList(FormField(VisitRowForm))

    validate_hours_a_day = validate_days = asked_with_position


class ParticularsForm(ParticularsPart, FlaskForm):
    reason = StringField("Why it is put right", [DataRequired("say why this is put right"), Length(max=LONGEST_REASON)])


class NoteForm(OperationPart, FlaskForm):
    """The note of an operation, to be put right; `corrects` is the note that was shown."""

    corrects = HiddenField()
    reason = StringField("Why it is put right", [DataRequired("say why this is put right"), Length(max=LONGEST_REASON)])


def note_data(note: Note, zone: tzinfo) -> dict[str, Any]:
    """What stands in a note, for the fields of `OperationPart`."""
    body, at = note.body, note.operated_at.astimezone(zone)
    before = body.baseline
    return {
        "indication": body.indication,
        "lens": body.lens,
        "steps": list(body.steps),
        "risks": list(body.risks),
        "notes": body.notes,
        "percent": f"{body.percent:g}" if body.percent else "",
        "fill_percent": f"{body.fill_percent:g}" if body.fill_percent else "",
        "eye": note.eye,
        "operated_on": at.date(),
        "operated_time": at.time().replace(tzinfo=None),
        "surgeon": note.surgeon,
        "agent": note.agent,
        "breaks": [{"clock": f"{site.clock:g}", "reach": site.reach} for site in body.breaks],
        "baseline_acuity": before.acuity or "",
        "baseline_notation": before.notation or "",
        "baseline_iop": f"{before.iop_mmhg:g}" if before.iop_mmhg is not None else "",
        "drops": [{"name": d.name, "times_a_day": str(d.times_a_day), "until": d.until} for d in body.drops],
        "steroid_drops_until": body.steroid_drops_until,
    }
