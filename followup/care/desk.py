"""The desk at which somebody does something."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from typing import Any

from followup.care.actors import Actor
from followup.records import Store, audit


@dataclass(frozen=True, slots=True)
class Desk:
    """What every act needs: the clinic's records, the time, who acts, and the zone whose days the clinic keeps."""

    store: Store
    now: datetime
    actor: Actor
    zone: tzinfo

    @property
    def today(self) -> date:
        """The clinic's day."""
        return self.now.astimezone(self.zone).date()

    def note(self, what: str, about: str, detail: Any = None) -> None:
        """Put on record that this person did it."""
        audit.note(self.store, self.now, self.actor.signature, what, about, detail)
