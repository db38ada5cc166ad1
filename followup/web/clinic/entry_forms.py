"""Forms in which an entry is put right: what it says, by its kind, with the eye, the time and the reason."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, tzinfo
from typing import Any

from flask_babel import format_date
from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    DateTimeLocalField,
    Field,
    FormField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import InputRequired, Length, Optional

from followup.care.corrections.correcting import LONGEST_REASON
from followup.care.errors import CareError
from followup.care.reading.eye import Eye
from followup.care.reading.measures import EnteredMeasures, number
from followup.clinical import pressure
from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS
from followup.records.bodies.base import Body, Illegible
from followup.records.bodies.clinic import BARRIERS, MeasuresBody, VisitBody
from followup.records.bodies.home import BubbleSeenBody, DropsBody, JourneyBody, PostureBody, SymptomsBody
from followup.records.bodies.kinds import body_of, stored
from followup.records.values import Event
from followup.web.clinic.visit_forms import EyeMeasuresForm
from followup.web.display import POSTURES
from followup.web.fields import NumberText, choices

WHEN = "%Y-%m-%dT%H:%M"
SIDES = choices({"right": "right", "left": "left"})
SYMPTOM_WORDS = {
    "vision": "Sight",
    "redness": "Redness",
    "flashes": "Flashes",
    "floaters": "Floaters",
    "other_eye": "The other eye",
    "discharge": "Matter or pus",
    "curtain": "A dark curtain",
    "vomiting": "Being sick",
    "fever": "Fever",
    "injury": "A knock to the eye",
}


class EntryForm(FlaskForm):
    """What every entry has; a kind adds its own fields, in `PARTS`."""

    PARTS: tuple[str, ...] = ()
    side: RadioField | None = RadioField("Eye", choices=SIDES, validators=[InputRequired("say which eye")])
    at = DateTimeLocalField("When", [InputRequired("write when it was")], format=WHEN)
    reason = StringField("Why it is put right", [Length(max=LONGEST_REASON)])
    sure = BooleanField("Yes, that is right")

    def offer(self, both: Sequence[Eye], event: Event) -> None:
        """What may be chosen, from both eyes of the patient."""

    def fill(self, event: Event, side: str, zone: tzinfo) -> None:
        """Show what stands."""
        if self.side is not None:
            self.side.data = side
        self.at.data = event.at.astimezone(zone).replace(tzinfo=None)
        if not isinstance(event.body, Illegible):
            self.fill_body(event.body, zone)

    def fill_body(self, body: Any, zone: tzinfo) -> None:
        """Show what stands, in a body of the form's kind."""
        for name in self.PARTS:
            self[name].data = getattr(body, name)

    def body(self, entry: Event, zone: tzinfo) -> Body:
        """What is right in the place of that entry. Raises `CareError`."""
        return _checked(entry.kind, {**stored(entry.body), **{name: self[name].data or "" for name in self.PARTS}})

    def chosen_side(self) -> str | None:
        return str(self.side.data) if self.side is not None else None

    def time(self, event: Event, zone: tzinfo) -> datetime | None:
        """The corrected time; None where it was left as it stood (a field has no seconds)."""
        typed: datetime = self.at.data
        stands = event.at.astimezone(zone).replace(tzinfo=None, second=0, microsecond=0)
        return None if typed == stands else typed.replace(tzinfo=zone)

    def doubts(self) -> list[str]:
        """Values that can be but rarely are: a question, not a block."""
        return []

    @property
    def parts(self) -> list[Field]:
        return [self[name] for name in self.PARTS]


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
        return _checked(entry.kind, {"visit": "", "visit_id": self.visit.data})

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


class WordsEntry(EntryForm):
    PARTS: tuple[str, ...] = ("words",)
    words = TextAreaField("Words", [Length(max=2000)])


class RequestEntry(EntryForm):
    PARTS = ("visit", "words")
    words = TextAreaField("Words", [Length(max=1000)])
    visit = StringField("Visit", [InputRequired("write which visit"), Length(max=60)])


class DropEntry(EntryForm):
    PARTS = ("name",)
    name = SelectField("Drop", choices=[])

    def offer(self, both: Sequence[Eye], event: Event) -> None:
        known = [drop.name for eye in both for drop in eye.drops]
        taken = [event.body.name] if isinstance(event.body, DropsBody) else []
        self.name.choices = [(n, n) for n in dict.fromkeys([*known, *taken])]


class BubbleEntry(EntryForm):
    PARTS = ("percent",)
    percent = NumberText("Share of the view below the line, %", [InputRequired("write the level")], unit=" %")

    def fill_body(self, body: BubbleSeenBody, zone: tzinfo) -> None:
        self.percent.data = f"{body.percent:g}"

    def body(self, entry: Event, zone: tzinfo) -> Body:
        return _checked(entry.kind, {"percent": self.percent.number})


class JourneyEntry(EntryForm):
    PARTS = ("heights_metres",)
    heights_metres = StringField("Heights in metres, in order", [InputRequired("write the heights")])

    def fill_body(self, body: JourneyBody, zone: tzinfo) -> None:
        self.heights_metres.data = "; ".join(f"{height:g}" for height in body.heights_metres)

    def body(self, entry: Event, zone: tzinfo) -> Body:
        try:
            heights = [number(part) for part in self.heights_metres.data.split(";") if part.strip()]
        except ValueError as error:
            raise CareError(f"{error}; write heights as 300; 1200; 450", "heights_metres") from error
        return _checked(entry.kind, {"heights_metres": heights})


class PostureEntry(EntryForm):
    PARTS = ("position", "start", "end")
    position = SelectField("Head position", choices=choices(POSTURES))
    start = DateTimeLocalField("From", [InputRequired("write when it began")], format=WHEN)
    end = DateTimeLocalField("To (empty: still running)", [Optional()], format=WHEN)

    def fill_body(self, body: PostureBody, zone: tzinfo) -> None:
        self.position.data = body.position
        self.start.data, self.end.data = _local(body.start, zone), _local(body.end, zone)

    def body(self, entry: Event, zone: tzinfo) -> Body:
        start, end = (entry.body.start, entry.body.end) if isinstance(entry.body, PostureBody) else (None, None)
        times = {"start": _typed(self.start.data, start, zone), "end": _typed(self.end.data, end, zone)}
        return _checked(entry.kind, {"position": self.position.data, **times})


class SymptomsEntry(EntryForm):
    PARTS = ("pain", *SYMPTOM_TRENDS, *SYMPTOM_SIGNS, "words")
    pain = NumberText("Pain, 0–10", low=0, high=10, whole=True)
    words = TextAreaField("In the patient’s own words", [Length(max=1000)])

    def fill_body(self, body: SymptomsBody, zone: tzinfo) -> None:
        self.pain.data = "" if body.pain is None else f"{body.pain:g}"
        self.words.data = body.words
        for name in SYMPTOM_TRENDS:
            self[name].data = getattr(body, name) or ""
        for name in SYMPTOM_SIGNS:
            said = getattr(body, name)
            self[name].data = "" if said is None else "yes" if said else "no"

    def body(self, entry: Event, zone: tzinfo) -> Body:
        said: dict[str, Any] = {"pain": None if self.pain.number is None else int(self.pain.number)}
        said |= {name: self[name].data or None for name in SYMPTOM_TRENDS}
        said |= {name: {"yes": True, "no": False}.get(self[name].data) for name in SYMPTOM_SIGNS}
        told = {name: value for name, value in said.items() if value is not None}
        unsure = entry.body.cannot_tell if isinstance(entry.body, SymptomsBody) else ()
        untold = [name for name in unsure if name not in told]
        return _checked(entry.kind, {**told, "cannot_tell": untold, "words": (self.words.data or "").strip()})


for _name in SYMPTOM_TRENDS:
    _trends = choices({"": "not asked", "better": "better", "same": "the same", "worse": "worse"})
    setattr(SymptomsEntry, _name, SelectField(SYMPTOM_WORDS[_name], choices=_trends))
for _name in SYMPTOM_SIGNS:
    _answers = choices({"": "not asked", "yes": "yes", "no": "no"})
    setattr(SymptomsEntry, _name, SelectField(SYMPTOM_WORDS[_name], choices=_answers))

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


def _checked(kind: str, said: Mapping[str, Any]) -> Body:
    try:
        return body_of(kind, said)
    except ValueError as error:
        raise CareError(str(error)) from error


def _local(at: datetime | None, zone: tzinfo) -> datetime | None:
    return at.astimezone(zone).replace(tzinfo=None) if at else None


def _typed(local: datetime | None, stands: datetime | None, zone: tzinfo) -> datetime | None:
    """A local time from a field, which has no seconds: left as it stood, it is the one that stands."""
    shown = _local(stands, zone)
    if local is None or (shown is not None and local == shown.replace(second=0, microsecond=0)):
        return None if local is None else stands
    return local.replace(tzinfo=zone).astimezone(UTC)
