"""The forms of a patient without the app: how they are reached, and a day of the paper diary."""

from flask_wtf import FlaskForm
from pydantic import ValidationError
from wtforms import Field, RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length

from followup.care.errors import CareError
from followup.care.patients.reaching import WAYS
from followup.records.bodies.base import first_message
from followup.records.bodies.home import SymptomsBody
from followup.web.fields import DayField, NumberText, choices

TREND = choices({"": "not said", "better": "better", "same": "same", "worse": "worse"})
YES_OR_NO = choices({"": "not said", "no": "no", "yes": "yes"})


class ReachForm(FlaskForm):
    reached_by = RadioField(
        "How we stay in touch", choices=choices(WAYS), validators=[InputRequired("say how the patient is reached")]
    )
    carer_phone = StringField("A carer’s phone", [Length(max=40)])


class DiaryForm(FlaskForm):
    """One day of the diary. What the paper does not say stays unsaid."""

    day = DayField("Day", [InputRequired("write the day of the diary")])
    pain = NumberText("Pain, 0 to 10", low=0, high=10, whole=True)
    vision = SelectField("Sight", choices=TREND, default="")
    redness = SelectField("Redness", choices=TREND, default="")
    floaters = SelectField("Floaters", choices=TREND, default="")
    flashes = SelectField("Flashes", choices=TREND, default="")
    discharge = SelectField("Matter or pus", choices=YES_OR_NO, default="")
    curtain = SelectField("Curtain or shadow", choices=YES_OR_NO, default="")
    vomiting = SelectField("Being sick", choices=YES_OR_NO, default="")
    fever = SelectField("Fever", choices=YES_OR_NO, default="")
    injury = SelectField("Knock to the eye", choices=YES_OR_NO, default="")
    posture_hours = NumberText("Hours in the head position", low=0, high=24, unit=" hours")
    words = TextAreaField("In the patient’s own words", [Length(max=1000)])

    @property
    def signs(self) -> list[Field]:
        """The fields that are chosen from a list."""
        return [field for field in self if isinstance(field, SelectField)]

    def answers(self) -> SymptomsBody | None:
        """The answers as an eye check has them, without unsaid ones; None where nothing was said. Raises `CareError`."""
        said = {field.name: {"yes": True, "no": False}.get(field.data, field.data) for field in self.signs if field.data}
        if self.pain.number is not None:
            said |= {"pain": int(self.pain.number)}
        if words := (self.words.data or "").strip():
            said |= {"words": words}
        try:
            return SymptomsBody.model_validate(said) if said else None
        except ValidationError as error:
            raise CareError(first_message(error)) from error
