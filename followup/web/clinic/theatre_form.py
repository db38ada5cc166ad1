"""The form of an eye for theatre."""

from flask_wtf import FlaskForm
from wtforms import StringField
from wtforms.validators import Length, Optional

from followup.care.callbacks.theatre import LONGEST_LIST
from followup.web.fields import DayField


class TheatreForm(FlaskForm):
    """Its day and list, as far as they are known; `why` where it is cancelled."""

    theatre_on = DayField("Day", [Optional()])
    words = StringField("List, and who confirmed it", [Length(max=LONGEST_LIST)])
    why = StringField("Why it is cancelled", [Length(max=500)])
