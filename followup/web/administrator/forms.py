"""Forms about accounts."""

from flask_wtf import FlaskForm
from wtforms import PasswordField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from followup.care.accounts import ROLES
from followup.web.fields import to_choose


class AccountForm(FlaskForm):
    """A new account."""

    name = StringField("Full name", [InputRequired("write the full name"), Length(max=120)])
    role = SelectField("Role", [InputRequired("choose a role")], choices=to_choose({role: role for role in ROLES}))
    email = StringField("E-mail", [InputRequired("write the e-mail address"), Length(max=200)])
    password = PasswordField("First password", [InputRequired("write a password for the beginning")])
