"""The form that enrols a phone."""

from flask_babel import lazy_gettext as _
from flask_wtf import FlaskForm
from wtforms import (
    IntegerField,
    RadioField,
    StringField,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import AnyOf, InputRequired


class EnrolForm(FlaskForm):
    code = StringField(_("Code"), [InputRequired(_("Type the code from your card."))])
    birth_year = IntegerField(
        _("Year of birth"),
        [
            InputRequired(_("Type the year of birth, four digits.")),
            AnyOf(range(1900, 2201), _("Type four digits, for example 1951.")),
        ],
    )
    used_by = RadioField(
        _("Who will use this phone?"),
        choices=[SelectChoice("patient", _("The patient")), SelectChoice("carer", _("A carer"))],
        default="patient",
    )
