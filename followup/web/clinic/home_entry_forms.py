"""Forms in which entries from home are put right, by their kind."""

from collections.abc import Sequence
from datetime import UTC, datetime, tzinfo
from typing import Any

from wtforms import (
    DateTimeLocalField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length, Optional

from followup.care.errors import CareError
from followup.care.reading.eye import Eye
from followup.care.reading.measures import number
from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS
from followup.records.bodies.base import Body
from followup.records.bodies.home import BubbleSeenBody, DropsBody, JourneyBody, PostureBody, SymptomsBody, VisitRequestBody
from followup.records.values import Event
from followup.web.clinic.entry_form import WHEN, EntryForm, checked
from followup.web.fields import NumberText, choices
from followup.web.vocabulary import POSTURES

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


class WordsEntry(EntryForm):
    PARTS: tuple[str, ...] = ("words",)
    words = TextAreaField("Words", [Length(max=2000)])


class RequestEntry(EntryForm):
    PARTS = ("visit", "words")
    words = TextAreaField("Words", [Length(max=1000)])
    visit = StringField("Visit", [InputRequired("write which visit"), Length(max=60)])

    def body(self, entry: Event, zone: tzinfo) -> Body:
        """Another name means another visit, whichever it is."""
        right = super().body(entry, zone)
        stands = isinstance(entry.body, VisitRequestBody) and self.visit.data == entry.body.visit
        return right if stands else right.model_copy(update={"visit_id": None})


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
        return checked(entry.kind, {"percent": self.percent.number})


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
        return checked(entry.kind, {"heights_metres": heights})


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
        return checked(entry.kind, {"position": self.position.data, **times})


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
        return checked(entry.kind, {**told, "cannot_tell": untold, "words": (self.words.data or "").strip()})


for _name in SYMPTOM_TRENDS:
    _trends = choices({"": "not asked", "better": "better", "same": "the same", "worse": "worse"})
    setattr(SymptomsEntry, _name, SelectField(SYMPTOM_WORDS[_name], choices=_trends))
for _name in SYMPTOM_SIGNS:
    _answers = choices({"": "not asked", "yes": "yes", "no": "no"})
    setattr(SymptomsEntry, _name, SelectField(SYMPTOM_WORDS[_name], choices=_answers))


def _local(at: datetime | None, zone: tzinfo) -> datetime | None:
    return at.astimezone(zone).replace(tzinfo=None) if at else None


def _typed(local: datetime | None, stands: datetime | None, zone: tzinfo) -> datetime | None:
    """A local time from a field, which has no seconds: left as it stood, it is the one that stands."""
    shown = _local(stands, zone)
    if local is None or (shown is not None and local == shown.replace(second=0, microsecond=0)):
        return None if local is None else stands
    return local.replace(tzinfo=zone).astimezone(UTC)
