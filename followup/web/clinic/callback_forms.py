"""The forms of a call: what came of it, and a decision."""

from datetime import date
from typing import Any

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
from wtforms.validators import AnyOf, Length, Optional
from wtforms.widgets import HiddenInput

from followup.care.callbacks.kinds import CHOICES, DECISIONS
from followup.care.errors import CareError
from followup.care.visits.in_book import Choice
from followup.web.clinic.book_forms import BookForm
from followup.web.display import week_day
from followup.web.fields import DayField, ManyField, choices


def _day(text: Any) -> date | None:
    return date.fromisoformat(text) if text else None


class AboutForm(BookForm):
    """What a form is about, where a patient has several open callbacks: `asked_about` says that the page offered a choice.

    `on` is the day of an extra visit, with how many are booked on each that is offered.
    """

    on = SelectField("Day, if they come sooner", choices=[], coerce=_day, validate_choice=False)
    about = ManyField("This is about", choices=[], validate_choice=False)
    asked_about = HiddenField()

    def offer(self, days: list[Choice], proposed: date) -> None:
        """Offer these days, with the one proposed chosen unless another was."""
        self.on.choices = [(c.day.isoformat(), f"{week_day(c.day)}, {_booked(c)}") for c in days]
        self.on.data = self.on.data or proposed

    def ids(self, callback_id: str) -> list[str]:
        """The callbacks it is about: those ticked; where there was nothing to tick, the one that was asked for."""
        if self.asked_about.data and not self.about.data:
            raise CareError("say which of these it is about", "about")
        return self.about.data or [callback_id]


def _booked(c: Choice) -> str:
    if not c.places:
        return "clinic closed"
    return f"{c.taken} of {c.places} booked" + (": full" if c.full else "")


class CallForm(AboutForm):
    """A call, what came of it, and what came of what was to do: the pressed button may name a task that is done, or will
    not be.
    """

    reached = RadioField(
        "Who was reached", choices=choices({"patient": "the patient", "carer": "a carer"}), validate_choice=False
    )
    outcome = RadioField("What comes of it", choices=choices(CHOICES), validate_choice=False)
    told = BooleanField("The patient or carer knows of it from this call")
    words = TextAreaField("What was said or done", [Length(max=2000)])
    next_try = DateTimeLocalField("Next try", [Optional()])
    theatre_on = DayField("Theatre on", [Optional()])
    done = HiddenField()
    given_up = HiddenField()


DECISION_WORDS = {"advice": "Advise", "sooner": "Bring forward", "same-day": "Come today", "theatre": "Theatre"}


class DecideForm(AboutForm):
    """The pressed button is the outcome."""

    outcome = StringField(validators=[AnyOf(DECISIONS)])
    words = StringField("A word for the record (optional)", [Length(max=2000)])
    owner = SelectField("Who does it", choices=[], validate_choice=False)
    by = DateTimeLocalField("The patient is told by", [Optional()])
    decided_before = IntegerField(widget=HiddenInput(), validators=[Optional()])
