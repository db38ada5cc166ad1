"""Forms for signing in and out, and for how staff want to be reached."""

from flask_wtf import FlaskForm
from wtforms import (
    HiddenField,
    PasswordField,
    RadioField,
    SelectField,
    StringField,
    TimeField,
)
from wtforms.validators import EqualTo, InputRequired, Length

from followup.care.callbacks.going_home import WAYS
from followup.web.fields import ManyField, choices

STAFF_MESSAGES = {
    "now": "new callbacks that need somebody within the hour",
    "escalation": "callbacks that moved up to me because they were not settled in time",
}


class SignInForm(FlaskForm):
    email = StringField("E-mail", [InputRequired("write your e-mail address")])
    password = PasswordField("Password", [InputRequired("write your password")])


class GoingHomeForm(FlaskForm):
    """What becomes of the calls and tasks in somebody's hands. The pressed button says whether they sign out."""

    way = RadioField("What becomes of them", choices=choices(WAYS), validate_choice=False)
    to = SelectField("Who takes it", choices=[], validate_choice=False)
    then = StringField()


class CodeForm(FlaskForm):
    """A code of the minute, or a recovery code."""

    code = StringField("Code", [InputRequired("write the code that the app shows"), Length(max=40)])


class PasskeyForm(FlaskForm):
    """What a browser answers when it was asked for a passkey."""

    token = HiddenField(validators=[InputRequired("")])
    answer = HiddenField(validators=[InputRequired("this needs a browser that runs our scripts")])


class PasskeyNameForm(FlaskForm):
    name = StringField("Name", [InputRequired("give it a name"), Length(max=60)])


class NewPasskeyForm(PasskeyNameForm):
    """A new passkey: its name, and the password once more, so that nobody adds one at a screen left open."""

    password = PasswordField("Password", [InputRequired("write your password")])


class MadePasskeyForm(PasskeyForm):
    """What the device answered, and the name that was chosen before."""

    name = HiddenField(validators=[InputRequired(""), Length(max=60)])


class LonePasswordForm(FlaskForm):
    """The password once more, for what must not be done by whoever finds a screen open."""

    password = PasswordField("Password", [InputRequired("write your password")])


class ForgottenForm(FlaskForm):
    """Whose password was forgotten."""

    email = StringField("E-mail", [InputRequired("write your e-mail address"), Length(max=200)])


class NewPasswordForm(FlaskForm):
    """A password in the place of one that was forgotten."""

    new = PasswordField("New password", [InputRequired("write a new password")])
    again = PasswordField("Once more", [EqualTo("new", "this is not the same as the new password above")])


class PasswordForm(FlaskForm):
    """One's own password, changed."""

    old = PasswordField("Password now", [InputRequired("write the password that you have now")])
    new = PasswordField("New password", [InputRequired("write a new password")])
    again = PasswordField("The new one once more", [EqualTo("new", "this is not the same as the new password above")])


class MessagesForm(FlaskForm):
    """How a member of staff wants to be reached."""

    email = StringField("E-mail (empty for none)", [Length(max=200)])
    kinds = ManyField("Tell me of", choices=choices(STAFF_MESSAGES))
    quiet_from = TimeField("No messages from", [InputRequired("write a time, for example 21:00")])
    quiet_to = TimeField("until (the same time: no quiet hours)", [InputRequired("write a time, for example 07:00")])
