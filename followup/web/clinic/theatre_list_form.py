"""The form by which a theatre list is taken in."""

from flask_wtf import FlaskForm
from flask_wtf.file import FileField
from wtforms import Field, HiddenField, RadioField, ValidationError

from followup.web.fields import choices

ORDERS = {"": "not said: refuse such dates", "day-first": "3 April", "month-first": "March 4"}


class TheatreListForm(FlaskForm):
    """A file, or what of it was shown a moment ago (`content`, `source`)."""

    file = FileField("Table (CSV)")
    dates = RadioField("What 3/4/1952 means in it", choices=choices(ORDERS), default="", validate_choice=True)
    content = HiddenField()
    source = HiddenField()

    def validate_file(self, field: Field) -> None:
        if not field.data and not self.content.data:
            raise ValidationError("choose a file")
