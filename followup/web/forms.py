"""The staff's forms. Fields say what is wrong beside them; what was typed stays."""

from collections.abc import Mapping
from datetime import date, datetime, tzinfo
from typing import Any

from flask_babel import format_date
from flask_babel import lazy_gettext as _
from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    DateField,
    DateTimeLocalField,
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
from wtforms.validators import AnyOf, DataRequired, InputRequired, Length, NumberRange, Optional
from wtforms.widgets import CheckboxInput, HiddenInput, ListWidget

from followup.care.callbacks import CHOICES, DECISIONS
from followup.care.correcting import LONGEST_REASON
from followup.care.discharge import PROCEDURE_STEPS
from followup.care.events import CORRECTIONS, number
from followup.clinical import acuity, pressure
from followup.clinical.course import FINDINGS, INDICATIONS, RISKS
from followup.clinical.coverage import POSTURES as POSTURE_NAMES
from followup.clinical.coverage import REACHES
from followup.clinical.errors import ClinicalError
from followup.clinical.pressure import INSTRUMENTS
from followup.clinical.tamponade import AGENTS, LENSES
from followup.records.values import Note, Visit
from followup.web.context import LANGUAGES
from followup.web.display import POSTURES

BREAK_ROWS = 4
DROP_ROWS = 4
NOTATIONS = [
    SelectChoice("", "as written"),
    *(SelectChoice(n, {"logmar": "logMAR"}.get(n, n.capitalize())) for n in acuity.NOTATIONS),
]

STAFF_MESSAGES = {
    "now": "new callbacks that need somebody within the hour",
    "escalation": "callbacks that moved up to me because they were not settled in time",
}


def _visit_words(visit: Visit) -> str:
    return f"{visit.name}, {format_date(visit.target, 'EEE d MMM')}"


def choices(words: Mapping[str, str]) -> list[SelectChoice]:
    """What a field offers, each with its words as a sentence begins."""
    return [SelectChoice(code, said[0].upper() + said[1:]) for code, said in words.items()]


def to_choose(words: Mapping[str, str]) -> list[SelectChoice]:
    """The same for what nobody may have chosen for the reader: nothing is chosen at first."""
    return [SelectChoice("", "– choose –"), *choices(words)]


PLAN_POSITIONS = choices({"": "no posturing"} | {p: POSTURES[p] for p in POSTURE_NAMES if p != "face-up"})


class ManyField(SelectMultipleField):
    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


class NumberText(StringField):
    """A number as people type it, with a comma or a point; says plainly what is accepted."""

    def __init__(
        self, *args: Any, low: float = 0, high: float = 100, unit: str = "", whole: bool = False, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.low, self.high, self.unit, self.whole = low, high, unit, whole

    def pre_validate(self, form: Form) -> None:
        if self.number is None:
            return
        if not self.low <= self.number <= self.high:
            raise ValidationError(f"{self.data} is out of range; accepted is {self._accepted}")
        if self.whole and not self.number.is_integer():
            raise ValidationError(f"{self.data} is not a whole number; accepted is {self._accepted}")

    @property
    def number(self) -> float | None:
        try:
            return number(self.data or "")
        except ValueError:
            raise ValidationError(f"“{self.data}” is not a number; accepted is {self._accepted}") from None

    @property
    def _accepted(self) -> str:
        return f"{self.low:g} to {self.high:g}{self.unit}"


class DayField(DateField):
    """A date from the browser's own date field; says what is accepted where it is none."""

    def process_formdata(self, valuelist: list[str]) -> None:
        try:
            super().process_formdata(valuelist)
        except ValueError:
            if typed := " ".join(valuelist).strip():
                raise ValueError(f"“{typed}” is not a date; write day, month and the year with four digits") from None


def filled(field: Field) -> bool:
    """Whether something stands in a field, right or wrong."""
    return bool(field.errors or (field.data.strip() if isinstance(field.data, str) else field.data))


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


class MessagesForm(FlaskForm):
    """How a member of staff wants to be reached."""

    email = StringField("E-mail (empty for none)", [Length(max=200)])
    kinds = ManyField("Tell me of", choices=choices(STAFF_MESSAGES))
    quiet_from = TimeField("No messages from", [InputRequired("write a time, for example 21:00")])
    quiet_to = TimeField("until (the same time: no quiet hours)", [InputRequired("write a time, for example 07:00")])


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


def asked_with_position(form: Any, field: Field) -> None:
    """A head position without hours or days would be no plan at all, and be dropped without a word."""
    if form.position.data and not field.errors and not field.number:
        raise ValidationError("write this for the head position, or choose no posturing")


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
    baseline, last_day = body.get("baseline") or {}, body.get("steroid_last_day")
    return {
        **{key: body.get(key) for key in ("indication", "lens", "steps", "risks", "notes")},
        **{key: f"{body[key]:g}" if body.get(key) else "" for key in ("percent", "fill_percent")},
        "eye": note.eye,
        "operated_on": at.date(),
        "operated_time": at.time().replace(tzinfo=None),
        "surgeon": note.surgeon,
        "agent": note.agent,
        "breaks": [{"clock": f"{b['clock']:g}", "reach": b["reach"]} for b in body.get("breaks", ())],
        "baseline_acuity": baseline.get("acuity", ""),
        "baseline_notation": baseline.get("notation", ""),
        "baseline_iop": f"{baseline['iop_mmhg']:g}" if baseline.get("iop_mmhg") is not None else "",
        "drops": [
            {"name": d["name"], "times_a_day": str(d["times_a_day"]), "until": date.fromisoformat(d["until"])}
            for d in body.get("drops", ())
        ],
        "steroid_drops_until": date.fromisoformat(last_day) if last_day else None,
    }


class MoveForm(Form):
    id = HiddenField()
    target = DayField("Date", [InputRequired("write the date")])


class PlanForm(FlaskForm):
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
            self.visits.append_entry({"id": visit.id, "target": visit.target})

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
        """Visits that got another date here."""
        planned = {v.id: v.target for v in visits}
        rows = [row.form for row in self.visits]
        return {f.id.data: f.target.data for f in rows if planned.get(f.id.data, f.target.data) != f.target.data}


class EyeMeasuresForm(Form):
    acuity = AcuityText("Acuity", notation="notation")
    notation = SelectField("Notation", choices=NOTATIONS, default="")
    correction = SelectField("With", choices=choices(CORRECTIONS))
    iop = PressureText("Pressure, mmHg")
    instrument = SelectField("Instrument", choices=choices({n: i.words for n, i in INSTRUMENTS.items()}))
    bubble_percent = NumberText("Bubble height, %", unit=" %")
    pain = NumberText("Pain, 0–10", low=0, high=10)
    findings = ManyField("Seen at the lamp", choices=choices(FINDINGS))
    notes = TextAreaField("Notes", [Length(max=2000)])

    def measured_like(self, body: Mapping[str, Any]) -> None:
        """Begin with the correction and the instrument of the last measures."""
        self.correction.data = body.get("correction") or self.correction.data
        self.instrument.data = body.get("instrument") or self.instrument.data


class VisitForm(FlaskForm):
    visit = SelectField("Visit", choices=[], validate_choice=False)
    right = FormField(EyeMeasuresForm)
    left = FormField(EyeMeasuresForm)
    no_gas_seen = BooleanField("A clinician looked at the retina and saw no gas")
    sure = BooleanField("Yes, that is right")

    def offer(self, open_visits: list[Visit]) -> None:
        """The visits that may be meant, each with its day; `data-name` is for a device that loses its signal."""
        self.visit.choices = [
            *(SelectChoice(v.identity, _visit_words(v), render_kw={"data-name": v.name}) for v in open_visits),
            SelectChoice("", "Not a planned visit"),
        ]

    def doubts(self, open_visits: list[Visit], today: date) -> list[str]:
        """Values that can be but rarely are, and a visit that is not due today: a question, not a block."""
        chosen = next((v for v in open_visits if v.identity == self.visit.data), None)
        found = []
        if chosen and not chosen.holds(today):
            window = " to ".join(format_date(day, "EEE d MMM") for day in (chosen.earliest, chosen.latest))
            found.append(f"{chosen.name} is due {window}: is it this visit that takes place today?")
        for side in ("right", "left"):
            iop = self[side].form.iop.mmhg
            if iop is not None and pressure.unlikely(iop):
                found.append(f"{side} eye: is a pressure of {iop:g} mmHg right?")
        return found


class AttemptForm(FlaskForm):
    """A call, and what came of what was to do: the pressed button may name a task that is done, or will not be."""

    reached = RadioField(
        "Reached?",
        choices=choices({"patient": "reached the patient", "carer": "reached a carer", "no": "not reached"}),
        validators=[Optional()],
    )
    words = TextAreaField("What was said or done", [Length(max=2000)])
    next_try = DateTimeLocalField("If not reached: next try", [Optional()])
    done = HiddenField()
    given_up = HiddenField()


class SettleForm(FlaskForm):
    outcome = RadioField(
        "Outcome", choices=choices(CHOICES), validators=[InputRequired("choose an outcome: nothing is closed without one")]
    )
    told = BooleanField("The patient or carer knows of it from this call")
    words = TextAreaField("Words for the record", [Length(max=2000)])


class DecideForm(FlaskForm):
    """The pressed button is the outcome."""

    outcome = StringField(validators=[AnyOf(DECISIONS)])
    words = StringField("A word for the record (optional)", [Length(max=2000)])
    owner = SelectField("Who does it", choices=[], validate_choice=False)
    by = DateTimeLocalField("The patient is told by", [Optional()])
    decided_before = IntegerField(widget=HiddenInput(), validators=[Optional()])


class SmallForm(FlaskForm):
    """A form with nothing but its button."""


class TakeBackForm(FlaskForm):
    """Why an entry is taken back."""

    reason = StringField("Why", [InputRequired(), Length(max=500)])


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
            NumberRange(1900, 2200, _("Type four digits, for example 1951.")),
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
