"""Fields that all forms share: they say what is wrong beside them, and what was typed stays."""

import re
from collections.abc import Mapping
from typing import Any

from flask_wtf import FlaskForm
from wtforms import (
    DateField,
    Field,
    FieldList,
    Form,
    FormField,
    SelectMultipleField,
    StringField,
    ValidationError,
)
from wtforms.fields.choices import SelectChoice
from wtforms.widgets import CheckboxInput, ListWidget

from followup.care.errors import CareError
from followup.care.reading.measures import number
from followup.clinical import acuity, pressure, vision
from followup.clinical.coverage import POSTURES as POSTURE_NAMES
from followup.clinical.errors import ClinicalError
from followup.web.vocabulary import POSTURES

FORM_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
"""The id that a form is given when it is opened; what it says is kept under it."""

NOTATIONS = [
    SelectChoice("", "as written"),
    *(SelectChoice(n, {"logmar": "logMAR"}.get(n, n.capitalize())) for n in vision.NOTATIONS),
]


def choices(words: Mapping[str, str]) -> list[SelectChoice]:
    """What a field offers, each with its words as a sentence begins."""
    return [SelectChoice(code, said[0].upper() + said[1:]) for code, said in words.items()]


def to_choose(words: Mapping[str, str]) -> list[SelectChoice]:
    """The same for what nobody may have chosen for the reader: nothing is chosen at first."""
    return [SelectChoice("", "– choose –"), *choices(words)]


PLAN_POSITIONS = choices({"": "no posturing"} | {p: POSTURES[p] for p in POSTURE_NAMES if p != "face-up"})


class ManyField(SelectMultipleField):
    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


class NumberText(StringField):
    """A number as people type it, with a comma or a point; says plainly what is accepted."""

    def __init__(
        self, *args: Any, low: float = 0, high: float = 100, unit: str = "", whole: bool = False, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.low, self.high, self.unit, self.whole = low, high, unit, whole

    def pre_validate(self, form: Form) -> None:
        if self.number is None:
            return
        if not self.low <= self.number <= self.high:
            raise ValidationError(f"{self.data} is out of range; accepted is {self._accepted}")
        if self.whole and not self.number.is_integer():
            raise ValidationError(f"{self.data} is not a whole number; accepted is {self._accepted}")

    @property
    def number(self) -> float | None:
        try:
            return number(self.data or "")
        except ValueError:
            raise ValidationError(f"“{self.data}” is not a number; accepted is {self._accepted}") from None

    @property
    def _accepted(self) -> str:
        return f"{self.low:g} to {self.high:g}{self.unit}"


class DayField(DateField):
    """A date from the browser's own date field; says what is accepted where it is none."""

    def process_formdata(self, valuelist: list[str]) -> None:
        try:
            super().process_formdata(valuelist)
        except ValueError:
            typed = " ".join(valuelist).strip()
            if not typed:
                self.raw_data: list[Any] = []  # spaces are no answer to whoever asks for one
                return
            raise ValueError(f"“{typed}” is not a date; write day, month and the year with four digits") from None


def filled(field: Field) -> bool:
    """Whether something stands in a field, right or wrong."""
    return bool(field.errors or (field.data.strip() if isinstance(field.data, str) else field.data))


class AcuityText(StringField):
    """A visual acuity as the chart has it; the notation stands in the sibling field named by `notation`."""

    def __init__(self, *args: Any, notation: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.notation_field = notation

    def pre_validate(self, form: Form) -> None:
        if self.data and self.data.strip():
            try:
                chart = form[self.notation_field].data
                acuity.read(acuity.on_chart(self.data, chart), chart if chart in vision.NOTATIONS else None)
            except ClinicalError as error:
                raise ValidationError(str(error)) from error


class PressureText(StringField):
    """A pressure in mmHg, or in kPa where that is written. What was typed is read once."""

    _read: tuple[str, float] | None = None

    def pre_validate(self, form: Form) -> None:
        try:
            self.mmhg  # noqa: B018
        except ClinicalError as error:
            raise ValidationError(str(error)) from error

    @property
    def mmhg(self) -> float | None:
        """The pressure; None where nothing was typed. Raises `ClinicalError`."""
        typed = (self.data or "").strip()
        if typed and (self._read is None or self._read[0] != typed):
            self._read = typed, pressure.read(typed)
        return self._read[1] if typed and self._read else None


def asked_with_position(form: Any, field: Field) -> None:
    """A head position without hours or days would be no plan at all, and be dropped without a word."""
    if form.position.data and not field.errors and not field.number:
        raise ValidationError("write this for the head position, or choose no posturing")


def say_beside(form: Any, error: CareError, otherwise: str | None = None) -> None:
    """Say a fault beside the field that it belongs to, else beside `otherwise`; without one it is an answer of its own."""
    name = error.field if error.field in form else otherwise
    if name is None:
        raise error
    form[name].errors = [*form[name].errors, str(error)]


class SmallForm(FlaskForm):
    """A form with nothing but its button."""


def field_errors(form: FlaskForm) -> list[tuple[Field, str]]:
    """Every message of a form with its field, for the summary on top."""
    found: list[tuple[Field, str]] = []

    def walk(fields: Any) -> None:
        for field in fields:
            if isinstance(field, FormField):
                walk(field.form)
            elif isinstance(field, FieldList):
                walk(field.entries)
            else:
                found.extend((field, str(message)) for message in field.errors)

    walk(form)
    return found
