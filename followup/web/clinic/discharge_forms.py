"""The forms of discharge: patient, operation note, proposed visits; and of putting a note right."""

from datetime import tzinfo
from typing import Any

from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    FieldList,
    Form,
    FormField,
    HiddenField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
    TimeField,
)
from wtforms.validators import DataRequired, InputRequired, Length, Optional

from followup.care.corrections.correcting import LONGEST_REASON
from followup.care.discharge.note import PROCEDURE_STEPS, drops_text, steroid_end
from followup.care.patients.reaching import WAYS
from followup.clinical.agents import AGENTS, LENSES
from followup.clinical.surgery import INDICATIONS, RISKS
from followup.records.values import Note
from followup.web.clinic.clock_face import BreaksField, code_of
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
    to_choose,
)


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
    operated_time = TimeField("Time", [InputRequired("write the time, for example 14:30")])
    surgeon = StringField("Surgeon", [DataRequired("write the surgeon’s name"), Length(max=120)])
    indication = SelectField(
        "Indication", choices=to_choose(INDICATIONS), validators=[InputRequired("say why the eye was operated")]
    )
    steps = ManyField("What was done", choices=choices(PROCEDURE_STEPS))
    breaks = BreaksField("Breaks")
    lens = SelectField(
        "Lens", choices=to_choose({n: n for n in LENSES}), validators=[DataRequired("say which lens is in the eye")]
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
    drops = TextAreaField("Drops, as prescribed", [Length(max=2000)])
    steroid_drops_until = DayField("Steroid drops until", [Optional()])  # of older notes, where the drops say otherwise
    notes = TextAreaField("Notes", [Length(max=2000)])

    def set_lens(self) -> bool:
        """A combined procedure says which lens is in the eye, where nobody did; returns whether it did."""
        if self.lens.data or "cataract" not in (self.steps.data or ()):
            return False
        self.lens.data = "pseudophakic"
        return True


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
        "breaks": [code_of(site.clock, site.reach) for site in body.breaks],
        "baseline_acuity": before.acuity or "",
        "baseline_notation": before.notation or "",
        "baseline_iop": f"{before.iop_mmhg:g}" if before.iop_mmhg is not None else "",
        "drops": drops_text(body.drops),
        "steroid_drops_until": body.steroid_drops_until if body.steroid_drops_until != steroid_end(body.drops) else None,
    }
