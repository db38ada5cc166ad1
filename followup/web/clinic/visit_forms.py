"""The form of a visit: measures of both eyes, and what is asked once before they are kept."""

from datetime import date

from flask_babel import format_date
from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    Form,
    FormField,
    HiddenField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import InputRequired, Length

from followup.care.reading.measures import CORRECTIONS, NOT_MEASURED
from followup.clinical import acuity, pressure
from followup.clinical.facts import FINDINGS, FINGER
from followup.clinical.pressure import INSTRUMENTS
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Visit
from followup.web.fields import NOTATIONS, AcuityText, ManyField, NumberText, PressureText, choices


def _visit_words(visit: Visit) -> str:
    return f"{visit.name}, {format_date(visit.target, 'EEE d MMM')}"


CHARTS = [*NOTATIONS, *(SelectChoice(chart, f"{chart}… (12 is {chart}12)") for chart in acuity.CHARTS)]


class EyeMeasuresForm(Form):
    acuity = AcuityText("Acuity", notation="notation")
    pinhole = AcuityText("With pinhole", notation="notation")
    notation = SelectField("Chart", choices=CHARTS, default="")
    acuity_not = SelectField("If no acuity", choices=choices({"": "–", **NOT_MEASURED}), default="")
    finger = SelectField("Pressure by finger", choices=choices({"": "–", **FINGER}), default="")
    iop_not = SelectField("If no pressure", choices=choices({"": "–", **NOT_MEASURED}), default="")
    correction = SelectField("With", choices=choices(CORRECTIONS))
    iop = PressureText("Pressure, mmHg")
    instrument = SelectField("Instrument", choices=choices({n: i.words for n, i in INSTRUMENTS.items()}))
    bubble_percent = NumberText("Bubble height, %", unit=" %")
    pain = NumberText("Pain, 0–10", low=0, high=10)
    findings = ManyField("Findings", choices=choices(FINDINGS))
    notes = TextAreaField("Notes", [Length(max=2000)])

    def measured_like(self, last: MeasuresBody | None) -> None:
        """Begin with the correction and the instrument of the last measures."""
        if last is not None:
            self.correction.data = last.correction or self.correction.data
            self.instrument.data = last.instrument or self.instrument.data

    def begin(self, last: MeasuresBody | None, chart: str) -> None:
        """Begin a visit as the last measures were taken, on the chart in use."""
        self.measured_like(last)
        self.notation.data = chart


class VisitForm(FlaskForm):
    entry = HiddenField()  # the form's own id
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


class TakeBackForm(FlaskForm):
    """Why an entry is taken back."""

    reason = StringField("Why", [InputRequired(), Length(max=500)])
