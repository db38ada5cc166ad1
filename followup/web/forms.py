"""The staff's forms. Fields say what is wrong beside them; what was typed stays."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from flask_babel import lazy_gettext as _
from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    DateField,
    Field,
    FieldList,
    Form,
    FormField,
    HiddenField,
    IntegerField,
    PasswordField,
    RadioField,
    SelectField,
    SelectMultipleField,
    StringField,
    TextAreaField,
    TimeField,
    ValidationError,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import InputRequired, Length, NumberRange, Optional
from wtforms.widgets import CheckboxInput, ListWidget

from followup.care.callbacks import OUTCOMES
from followup.care.discharge import PROCEDURE_STEPS
from followup.care.events import CORRECTIONS
from followup.clinical import acuity, pressure
from followup.clinical.course import FINDINGS, INDICATIONS, RISKS
from followup.clinical.coverage import POSTURES as POSTURE_NAMES
from followup.clinical.coverage import REACHES
from followup.clinical.errors import ClinicalError
from followup.clinical.pressure import INSTRUMENTS
from followup.clinical.tamponade import AGENTS, LENSES
from followup.web.context import LANGUAGES
from followup.web.display import POSTURES

BREAK_ROWS = 4
DROP_ROWS = 4
NOTATIONS = [
    SelectChoice("", "as written"),
    *(SelectChoice(n, {"logmar": "logMAR"}.get(n, n.capitalize())) for n in acuity.NOTATIONS),
]


def choices(words: Mapping[str, str]) -> list[SelectChoice]:
    """What a field offers, each with its words as a sentence begins."""
    return [SelectChoice(code, said[0].upper() + said[1:]) for code, said in words.items()]


class ManyField(SelectMultipleField):
    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


class NumberText(StringField):
    """A number as people type it, with a comma or a point; says plainly what is accepted."""

    def __init__(self, *args: Any, low: float = 0, high: float = 100, unit: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.low, self.high, self.unit = low, high, unit

    def pre_validate(self, form: Form) -> None:
        if self.number is not None and not self.low <= self.number <= self.high:
            raise ValidationError(f"{self.data} is out of range; accepted is {self.low:g} to {self.high:g}{self.unit}")

    @property
    def number(self) -> float | None:
        if not (self.data or "").strip():
            return None
        try:
            return float(self.data.strip().replace(",", ".").removesuffix("%"))
        except ValueError:
            raise ValidationError(
                f"“{self.data}” is not a number; accepted is {self.low:g} to {self.high:g}{self.unit}"
            ) from None


class AcuityText(StringField):
    """A visual acuity as the chart has it; the notation stands in the sibling field named by `notation`."""

    def __init__(self, *args: Any, notation: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.notation_field = notation

    def pre_validate(self, form: Form) -> None:
        if self.data and self.data.strip():
            try:
                acuity.read(self.data, form[self.notation_field].data or None)
            except ClinicalError as error:
                raise ValidationError(str(error)) from error


class PressureText(StringField):
    """A pressure in mmHg, or in kPa where that is written."""

    def pre_validate(self, form: Form) -> None:
        if self.data and self.data.strip():
            try:
                pressure.read(self.data)
            except ClinicalError as error:
                raise ValidationError(str(error)) from error

    @property
    def mmhg(self) -> float | None:
        return pressure.read(self.data) if self.data and self.data.strip() else None


class SignInForm(FlaskForm):
    email = StringField("E-mail", [InputRequired("write your e-mail address")])
    password = PasswordField("Password", [InputRequired("write your password")])


class BreakForm(Form):
    clock = SelectField("Clock hour", choices=choices({"": "–"} | {str(n): str(n) for n in range(1, 13)}), default="")
    reach = SelectField("Reach", choices=choices({r: r for r in REACHES}), default="equator")


class DropForm(Form):
    name = StringField("Drop", [Length(max=60)])
    times_a_day = NumberText("Times a day", low=1, high=24)
    until = DateField("Until", [Optional()])


class VisitRowForm(Form):
    keep = BooleanField("Keep", default=True)
    name = StringField("Visit", [Length(max=60)])
    target = DateField("Date", [Optional()])
    earliest = HiddenField()
    latest = HiddenField()
    reason = StringField("Reason", [Length(max=200)])


class DischargeForm(FlaskForm):
    """Patient, operation, and (once proposed) the plan."""

    number = StringField("Hospital number", [InputRequired("write the hospital number"), Length(max=40)])
    name = StringField("Name", [InputRequired("write the patient’s name"), Length(max=120)])
    born_on = DateField("Date of birth", [InputRequired("write the date of birth")])
    phone = StringField("Phone", [Length(max=40)])
    language = SelectField("Language of the phone pages", choices=choices(LANGUAGES), default="en")
    eye = RadioField("Eye", choices=choices({"right": "right", "left": "left"}), validators=[InputRequired("say which eye")])
    operated_on = DateField("Date of surgery", [InputRequired("write the date of surgery")])
    operated_time = TimeField("Time", default=lambda: datetime.min.time().replace(hour=12))
    surgeon = StringField("Surgeon", [InputRequired("write the surgeon’s name"), Length(max=120)])
    indication = SelectField("Indication", choices=choices(INDICATIONS))
    steps = ManyField("What was done", choices=choices(PROCEDURE_STEPS))
    breaks = FieldList(FormField(BreakForm), min_entries=BREAK_ROWS)
    lens = SelectField("Lens", choices=choices({n: n for n in LENSES}))
    agent = SelectField("Left in the eye", choices=choices({n: a.words for n, a in AGENTS.items()}))
    percent = NumberText("Concentration, %", unit=" %")
    fill_percent = NumberText("Fill at the end of surgery, %", unit=" %")
    risks = ManyField("Risks left behind", choices=choices(RISKS))
    baseline_acuity = AcuityText("Acuity before surgery", notation="baseline_notation")
    baseline_notation = SelectField("Notation", choices=NOTATIONS, default="")
    baseline_iop = PressureText("Pressure before surgery, mmHg")
    drops = FieldList(FormField(DropForm), min_entries=DROP_ROWS)
    steroid_drops_until = DateField("Steroid drops until", [Optional()])
    notes = TextAreaField("Notes", [Length(max=2000)])
    position = SelectField(
        "Head position", choices=choices({"": "no posturing"} | {p: POSTURES[p] for p in POSTURE_NAMES if p != "face-up"})
    )
    hours_a_day = NumberText("Hours a day", low=0, high=24, unit=" hours")
    days = NumberText("Days", low=0, high=60, unit=" days")
    visits = FieldList(FormField(VisitRowForm))


class EyeMeasuresForm(Form):
    acuity = AcuityText("Acuity", notation="notation")
    notation = SelectField("Notation", choices=NOTATIONS, default="")
    correction = SelectField("With", choices=choices(CORRECTIONS))
    iop = PressureText("Pressure, mmHg")
    instrument = SelectField("Instrument", choices=choices({n: i.words for n, i in INSTRUMENTS.items()}))
    bubble_percent = NumberText("Bubble height, % of the eye", unit=" %")
    pain = NumberText("Pain, 0–10", low=0, high=10)
    findings = ManyField("Seen at the lamp", choices=choices(FINDINGS))
    notes = TextAreaField("Notes", [Length(max=2000)])


class VisitForm(FlaskForm):
    visit = SelectField("Visit", choices=[], validate_choice=False)
    right = FormField(EyeMeasuresForm)
    left = FormField(EyeMeasuresForm)
    no_gas_seen = BooleanField("A clinician looked at the retina and saw no gas")


class AttemptForm(FlaskForm):
    reached = RadioField(
        "Reached?",
        choices=choices({"yes": "reached", "no": "not reached"}),
        validators=[InputRequired("say whether you reached them")],
    )
    words = TextAreaField("What was said", [Length(max=2000)])


class SettleForm(FlaskForm):
    outcome = RadioField(
        "Outcome", choices=choices(OUTCOMES), validators=[InputRequired("choose an outcome: nothing is closed without one")]
    )
    words = TextAreaField("Words for the record", [Length(max=2000)])


class SmallForm(FlaskForm):
    """A form with nothing but its button."""


class SignForm(FlaskForm):
    fingerprint = HiddenField(validators=[InputRequired()])


class ProtocolForm(FlaskForm):
    text = TextAreaField("Text", [InputRequired("the protocol cannot be empty")])


class EnrolForm(FlaskForm):
    code = StringField(_("Code"), [InputRequired(_("Type the code from your card."))])
    birth_year = IntegerField(
        _("Year of birth"),
        [
            InputRequired(_("Type the year of birth, four digits.")),
            NumberRange(1880, 2200, _("Type four digits, for example 1951.")),
        ],
    )
    used_by = RadioField(
        _("Who will use this phone?"),
        choices=[SelectChoice("patient", _("The patient")), SelectChoice("carer", _("A carer"))],
        default="patient",
    )


def field_errors(form: FlaskForm) -> list[tuple[Field, str]]:
    """Every message of a form with its field, for the summary on top."""
    found: list[tuple[Field, str]] = []

    def walk(fields: Any) -> None:
        for field in fields:
            if isinstance(field, FormField):
                walk(field.form)
            elif isinstance(field, FieldList):
                walk(field.entries)
            else:
                found.extend((field, str(message)) for message in field.errors)

    walk(form)
    return found
