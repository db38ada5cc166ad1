"""The forms of a patient's page: ending follow-up, taking it up, joining two records."""

from flask_wtf import FlaskForm
from wtforms import HiddenField, RadioField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length

from followup.care.patients.consenting import SAID_BY
from followup.care.patients.following import REASONS
from followup.web.fields import ManyField, choices

WHICH = {"one": "this record’s", "other": "the other record’s"}


class EndForm(FlaskForm):
    """Why follow-up ends; `closes` names the callbacks that are closed with it, `withdraws` the theatre that is withdrawn."""

    reason = RadioField("Why", choices=choices(REASONS), validators=[InputRequired("say why follow-up ends")])
    words = TextAreaField("Words for the record", [Length(max=2000)])
    closes = ManyField("Closed with this reason", choices=[], validate_choice=False)
    withdraws = ManyField("Withdrawn with this reason", choices=[], validate_choice=False)


class ConsentForm(FlaskForm):
    """Consent to the phone pages, given or taken back."""

    given = RadioField(
        "What was said",
        choices=choices({"yes": "consent is given", "no": "consent is taken back: every phone is locked out"}),
        validators=[InputRequired("say whether consent is given or taken back")],
    )
    said_by = RadioField("Who said so", choices=choices(SAID_BY), validators=[InputRequired("say who said so")])
    words = StringField("Who spoke for the patient, and other words for the record", [Length(max=500)])


class TakeUpForm(FlaskForm):
    words = StringField("Why it is taken up again", [InputRequired("say why follow-up is taken up again"), Length(max=500)])


class JoinForm(FlaskForm):
    """Which number and which particulars stand. An answer counts for exactly what was shown (`mark`)."""

    number = RadioField("Which number stands", choices=choices(WHICH), validators=[InputRequired("say which number stands")])
    particulars = RadioField(
        "Whose name, birth date, phone and language are right",
        choices=choices(WHICH),
        validators=[InputRequired("say whose particulars are right")],
    )
    same_day = HiddenField()
    mark = HiddenField()
