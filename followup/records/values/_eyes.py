"""Eyes, their operations, visits and follow-up."""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from followup.clinical.warnings import HowSoon
from followup.records.operation_note import OperationNote
from followup.records.values._people import Patient

SIDES = ("right", "left")


@dataclass(frozen=True, slots=True)
class ListedOperation:
    """An operation as a theatre list has it; `body` holds what else the list says, by the discharge form's fields."""

    id: str
    number: str
    name: str
    operated_on: date
    eye: str
    body: dict[str, Any]
    source: str
    listed_by: str
    listed_at: datetime


@dataclass(frozen=True, slots=True)
class Note:
    """One record of an operation: the operation note as it was written then, by whom, and why it was changed.

    `entered_at` is when the operation itself came into the records, where that was asked for.
    """

    id: str
    operation_id: str
    body: OperationNote
    recorded_by: str
    recorded_at: datetime
    reason: str
    entered_at: datetime | None = None

    @property
    def eye(self) -> str:
        return self.body.eye

    @property
    def operated_at(self) -> datetime:
        return self.body.operated_at

    @property
    def agent(self) -> str:
        return self.body.agent

    @property
    def surgeon(self) -> str:
        return self.body.surgeon


@dataclass(frozen=True, slots=True)
class Eye:
    """One of a patient's two eyes. `note` is that of its latest operation; None where it was never operated.

    Followed from `followed_since` on (None: never), until `ended_at` for `end_reason`.
    """

    id: str
    side: str
    patient: Patient
    note: Note | None
    followed_since: datetime | None
    ended_at: datetime | None
    end_reason: str | None

    @property
    def is_followed(self) -> bool:
        return self.followed_since is not None and self.ended_at is None

    @property
    def agent(self) -> str:
        """What was left in the eye by its latest operation."""
        return self.note.agent if self.note else "none"


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Follow-up of an eye began, ended or was taken up again."""

    id: str
    eye_id: str
    at: datetime
    what: str
    reason: str
    words: str
    recorded_by: str


@dataclass(frozen=True, slots=True)
class Visit:
    """An entry of the clinic's book as it stands: `id` of this version, `identity` through every change of it.

    `starts` is the appointment's local time, where the clinic keeps times; `why` is why this version was made.
    """

    id: str
    identity: str
    eye_id: str
    name: str
    target: date
    earliest: date
    latest: date
    reason: str
    recorded_by: str
    recorded_at: datetime
    replaces: str | None
    withdrawn: bool
    starts: time | None
    why: str
    entered_at: datetime

    def holds(self, day: date) -> bool:
        """Whether its window holds that day."""
        return self.earliest <= day <= self.latest


@dataclass(frozen=True, slots=True)
class Change:
    """A visit as it was before and as it stands now; `changed` is withdrawn where it was cancelled."""

    before: Visit
    changed: Visit


@dataclass(frozen=True, slots=True)
class Closure:
    """A day on which the clinic sees nobody, closed by somebody who said why."""

    day: date
    why: str
    recorded_by: str
    recorded_at: datetime


@dataclass(frozen=True, slots=True)
class EyeState:
    """What stands now of a followed eye. `how_soon` to `reason` are of its worst open worry; None and empty without one.

    `next_visit` is the identity of the first visit that is waited for. Posturing days lie after the local day
    `posture_from` and before `posture_until`. `drops_until` is the last day of its drops, None where nobody wants to be
    reminded of any. `last_measures` is the entry's id. `unplanned_since` is None while a visit is waited for, a callback is
    open, or theatre is to come.
    """

    eye_id: str
    agent: str
    operated_at: datetime
    posture_from: date | None
    posture_until: date | None
    drops_until: date | None
    next_visit: str | None
    next_earliest: date | None
    next_target: date | None
    next_latest: date | None
    how_soon: HowSoon | None
    worry: str
    worry_since: datetime | None
    worry_due_at: datetime | None
    reason: str
    last_heard: datetime | None
    last_measures: str | None
    unplanned_since: datetime | None


@dataclass(frozen=True, slots=True)
class NextVisit:
    """The first visit of an eye that is waited for."""

    identity: str
    name: str
    target: date
    earliest: date
    latest: date


@dataclass(frozen=True, slots=True)
class FollowedEye:
    """Whose a followed eye is, what is in it, and its next visit; None where none is waited for."""

    eye_id: str
    side: str
    name: str
    number: str
    agent: str
    operated_at: datetime
    visit: NextVisit | None


@dataclass(frozen=True, slots=True)
class VisitState:
    """What stands now of a visit of a followed eye; `visit_id` is its version in the book.

    `waited`: it has not taken place and did not run out before the latest operation or the taking up of follow-up.
    `away`: its patient did not come on its day. `here_at` is when they last came, said by the entry `arrival`.
    `hour` and `urgency` are as lists sort by them; `name` is the patient's.
    """

    identity: str
    visit_id: str
    eye_id: str
    target: date
    latest: date
    hour: str
    urgency: int
    name: str
    waited: bool
    away: bool
    seen_at: datetime | None
    here_at: datetime | None
    arrival: str


@dataclass(frozen=True, slots=True)
class WishState:
    """What a patient asked about a visit, in entry `event_id`, and nobody has answered.

    `identity` is the visit's, None where the book has none of that name.
    """

    event_id: str
    eye_id: str
    at: datetime
    visit: str
    identity: str | None
    words: str


@dataclass(frozen=True, slots=True)
class CallState:
    """The call of a patient with open callbacks: its worst one's urgency (0 is now), since when, and which (`first`).

    `level` is the highest of all, `decided` whether all wait only for what is to be done. `people` are who has to do with
    it: `surgeon:<name>` who operated, `has:<staff id>` who has it in hand, `task:<staff id>` who is to do something.
    """

    urgency: int
    since: datetime
    first: str
    level: int
    decided: bool
    people: tuple[str, ...]
