"""The forms of the protocols: reading, changing, signing."""

from flask_wtf import FlaskForm
from wtforms import (
    HiddenField,
    TextAreaField,
)
from wtforms.validators import InputRequired


class SignForm(FlaskForm):
    fingerprint = HiddenField(validators=[InputRequired()])


class ProtocolForm(FlaskForm):
    text = TextAreaField("Text", [InputRequired("the protocol cannot be empty")])
