"""The forms of the book of visits."""

from datetime import date
from typing import Any

from flask_wtf import FlaskForm
from wtforms import FieldList, Form, FormField, HiddenField, SelectField, StringField, TimeField
from wtforms.validators import InputRequired, Length, Optional

from followup.care.visits.book import LONGEST_WHY
from followup.care.visits.closing import Displaced
from followup.records.bodies.base import VISIT_NAME_LENGTH
from followup.records.bodies.clinic import BARRIERS
from followup.web.fields import DayField, to_choose


class BookForm(FlaskForm):
    """What every change of the book has: questions that were answered with yes."""

    accepted = FieldList(HiddenField())

    def answered(self) -> list[str]:
        return [field.data for field in self.accepted]

    def ask(self, questions: list[str]) -> None:
        """Carry the questions along, for the answer yes."""
        while self.accepted.entries:
            self.accepted.pop_entry()
        for question in questions:
            self.accepted.append_entry(question)


class PressedDay(DayField):
    """A day that is pressed, or else written: the button of a day comes first on the page."""

    def process_formdata(self, valuelist: list[str]) -> None:
        super().process_formdata([value for value in valuelist if value][:1])


class MoveForm(BookForm):
    target = PressedDay("Another day", [InputRequired("choose a day, or write the date")])
    starts = TimeField("Time", [Optional()])


class CancelForm(FlaskForm):
    why = StringField("Why it is cancelled", [Length(max=LONGEST_WHY)])


class AwayForm(FlaskForm):
    barrier = SelectField("What stood in the way", choices=to_choose(BARRIERS), validate_choice=False)
    words = StringField("In words", [Length(max=1000)])


class AddForm(BookForm):
    name = StringField("Visit", [Length(max=VISIT_NAME_LENGTH)], default="review")
    reason = StringField("Reason", [Length(max=LONGEST_WHY)])
    target = PressedDay("Another day", [InputRequired("choose a day, or write the date")])
    starts = TimeField("Time", [Optional()])


class WalkInForm(FlaskForm):
    reason = StringField("Why they come", [Length(max=LONGEST_WHY)])


class NewDayForm(Form):
    identity = HiddenField()
    to = DayField("New day", [Optional()])


class CloseForm(BookForm):
    """A day with the new days of its visits, each proposed and to be changed; without one, a visit stays where it is."""

    why = StringField("Why the clinic is closed", [Length(max=LONGEST_WHY)])
    visits = FieldList(FormField(NewDayForm))

    def propose(self, found: list[Displaced]) -> None:
        for one in found:
            self.visits.append_entry({"identity": one.visit.identity, "to": one.to})

    def moves(self) -> dict[str, date]:
        rows: list[Any] = [row.form for row in self.visits]
        return {f.identity.data: f.to.data for f in rows if f.to.data}
