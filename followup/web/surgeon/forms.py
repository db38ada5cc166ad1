"""The surgeon's forms: which operations to count; protocols to read, change and sign."""

from flask_wtf import FlaskForm
from wtforms import Form, HiddenField, SelectField, TextAreaField, ValidationError
from wtforms.validators import InputRequired, Optional

from followup.care.learning.results import Asked
from followup.clinical.agents import AGENTS
from followup.clinical.surgery import INDICATIONS
from followup.web.fields import DayField, choices


class AskedForm(Form):
    """Which operations; it stands in the address, so it has no token."""

    surgeon = SelectField("Operations of", validate_choice=False, default="")
    indication = SelectField("Indication", choices=choices({"": "any", **INDICATIONS}), default="")
    agent = SelectField(
        "Left in the eye", choices=choices({"": "anything"} | {n: a.words for n, a in AGENTS.items()}), default=""
    )
    first_day = DayField("Operated from", [Optional()])
    last_day = DayField("Operated until", [Optional()])

    def validate_last_day(self, field: DayField) -> None:
        if self.first_day.data and field.data and field.data < self.first_day.data:
            raise ValidationError("the last day comes before the first")

    def asked(self) -> Asked:
        return Asked(
            self.surgeon.data or None,
            self.agent.data or None,
            self.indication.data or None,
            self.first_day.data,
            self.last_day.data,
        )


class SignForm(FlaskForm):
    fingerprint = HiddenField(validators=[InputRequired()])


class ProtocolForm(FlaskForm):
    text = TextAreaField("Text", [InputRequired("the protocol cannot be empty")])
