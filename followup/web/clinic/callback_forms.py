"""The forms on a callback: a call, its end, a decision."""

from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    DateTimeLocalField,
    HiddenField,
    IntegerField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import AnyOf, InputRequired, Length, Optional
from wtforms.widgets import HiddenInput

from followup.care.callbacks.kinds import CHOICES, DECISIONS
from followup.web.fields import choices


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
