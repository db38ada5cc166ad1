"""What every form has in which an entry is put right: the eye, the time and the reason."""

from collections.abc import Mapping, Sequence
from datetime import datetime, tzinfo
from typing import Any

from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    DateTimeLocalField,
    Field,
    RadioField,
    StringField,
)
from wtforms.validators import InputRequired, Length

from followup.care.corrections.correcting import LONGEST_REASON
from followup.care.errors import CareError
from followup.care.reading.eye import Eye
from followup.records.bodies.base import Body, Illegible
from followup.records.bodies.kinds import body_of, stored
from followup.records.values import Event
from followup.web.fields import choices

WHEN = "%Y-%m-%dT%H:%M"
SIDES = choices({"right": "right", "left": "left"})


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
        return checked(entry.kind, {**stored(entry.body), **{name: self[name].data or "" for name in self.PARTS}})

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


def checked(kind: str, said: Mapping[str, Any]) -> Body:
    """The body of a kind as it was typed. Raises `CareError`."""
    try:
        return body_of(kind, said)
    except ValueError as error:
        raise CareError(str(error)) from error
