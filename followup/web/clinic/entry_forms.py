"""Forms in which entries by staff are put right, and the form of every kind."""

from collections.abc import Sequence
from datetime import tzinfo
from typing import Any

from flask_babel import format_date
from wtforms import (
    Field,
    FormField,
    SelectField,
    TextAreaField,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import Length

from followup.care.errors import CareError
from followup.care.reading.eye import Eye
from followup.care.reading.measures import EnteredMeasures
from followup.clinical import pressure
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import BARRIERS, MeasuresBody, VisitBody
from followup.records.values import Event
from followup.web.clinic.entry_form import EntryForm, checked
from followup.web.clinic.home_entry_forms import (
    BubbleEntry,
    DropEntry,
    JourneyEntry,
    PostureEntry,
    RequestEntry,
    SymptomsEntry,
    WordsEntry,
)
from followup.web.clinic.visit_forms import EyeMeasuresForm
from followup.web.fields import choices


class MeasuresEntry(EntryForm):
    measures = FormField(EyeMeasuresForm)

    def fill_body(self, body: MeasuresBody, zone: tzinfo) -> None:
        form = self.measures.form
        for name in ("acuity", "pinhole", "notation", "acuity_not", "iop_not", "finger"):
            form[name].data = getattr(body, name) or ""
        for field, value in ((form.iop, body.iop_mmhg), (form.bubble_percent, body.bubble_percent), (form.pain, body.pain)):
            field.data = "" if value is None else f"{value:g}"
        form.findings.data, form.notes.data = list(body.findings), body.notes
        form.measured_like(body)

    def offer(self, both: Sequence[Eye], event: Event) -> None:
        known: Any = self.measures.form.correction
        used = event.body.correction if isinstance(event.body, MeasuresBody) else None
        if used and used not in [choice.value for choice in known.choices]:
            known.choices = [*known.choices, SelectChoice(used, used)]

    def body(self, entry: Event, zone: tzinfo) -> Body:
        form: Any = self.measures.form
        typed = {name: value or "" for name, value in form.data.items()}
        sent = {**typed, "eye": self.chosen_side(), "findings": tuple(form.findings.data or ())}
        try:
            entered = EnteredMeasures.model_validate(sent).body(form.iop.mmhg)
        except ValueError as error:
            raise CareError(str(error)) from error
        if entered is None:
            raise CareError("nothing is left of this entry: withdraw it instead")
        return entered

    def doubts(self) -> list[str]:
        iop = self.measures.form.iop.mmhg
        return [f"is a pressure of {iop:g} mmHg right?"] if iop is not None and pressure.unlikely(iop) else []

    @property
    def parts(self) -> list[Field]:
        return list(self.measures.form)


class VisitEntry(EntryForm):
    """A visit that took place, or for which somebody arrived: the eye is that of the visit."""

    PARTS = ("visit",)
    side = None
    visit = SelectField("Visit", choices=[], validate_choice=False)

    def offer(self, both: Sequence[Eye], event: Event) -> None:
        self._sides = {v.identity: eye.side for eye in both for v in eye.visits}
        self.visit.choices = [
            SelectChoice(v.identity, f"{eye.side} eye: {v.name}, {format_date(v.target, 'EEE d MMM y')}")
            for eye in both
            for v in eye.visits
        ]
        if isinstance(event.body, VisitBody) and (named := event.body.visit_id or "") not in self._sides:
            self.visit.choices = [SelectChoice(named, f"{event.body.visit} (as it stands)"), *self.visit.choices]

    def fill_body(self, body: VisitBody, zone: tzinfo) -> None:
        self.visit.data = body.visit_id or ""

    def body(self, entry: Event, zone: tzinfo) -> Body:
        if isinstance(entry.body, VisitBody) and self.visit.data == (entry.body.visit_id or ""):
            return entry.body
        return checked(entry.kind, {"visit": "", "visit_id": self.visit.data})

    def chosen_side(self) -> str | None:
        return self._sides.get(self.visit.data)


class DidNotComeEntry(EntryForm):
    """What stood in the way; the visit is the one it was said of."""

    PARTS = ("barrier", "words")
    side = None
    barrier = SelectField("What stood in the way", choices=choices(BARRIERS))
    words = TextAreaField("Words", [Length(max=1000)])


class NoGasEntry(EntryForm):
    """Only its time: on the other eye it is asked for anew."""

    side = None


FORMS: dict[str, type[EntryForm]] = {
    "measures": MeasuresEntry,
    "seen": VisitEntry,
    "arrived": VisitEntry,
    "did-not-come": DidNotComeEntry,
    "no-gas-seen": NoGasEntry,
    "tamponade-removed": EntryForm,
    "heard": WordsEntry,
    "symptoms": SymptomsEntry,
    "posture": PostureEntry,
    "bubble-seen": BubbleEntry,
    "journey": JourneyEntry,
    "anaesthetic": WordsEntry,
    "drops": DropEntry,
    "visit-request": RequestEntry,
}
