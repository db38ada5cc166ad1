"""Signs, callbacks, their steps and tasks."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from followup.clinical.warnings import HowSoon


@dataclass(frozen=True, slots=True)
class Warning:
    """A sign that came up; `unfounded` where what it rested on was put right later."""

    id: str
    eye_id: str
    callback_id: str
    rule: str
    worry: str
    how_soon: HowSoon
    raised_at: datetime
    severity: float
    values: dict[str, Any]
    threshold: dict[str, Any]
    source: str
    words: str
    rulebook: str
    recorded_at: datetime
    unfounded: bool


@dataclass(frozen=True, slots=True)
class Callback:
    """Somebody has to be spoken to. `state` is waiting, claimed, to-do or settled; `free` is whether somebody is to take it."""

    id: str
    eye_id: str
    worry: str
    how_soon: HowSoon
    opened_at: datetime
    due_at: datetime
    state: str
    claimed_by: str | None
    claimed_by_name: str | None
    claimed_at: datetime | None
    settled_at: datetime | None
    settled_by: str | None
    outcome: str | None
    level: int
    moved_up: int
    next_try_at: datetime | None
    free: bool


@dataclass(frozen=True, slots=True)
class Reason:
    """What a warning says, and whether it rests on an entry that was put right."""

    words: str
    unfounded: bool


@dataclass(frozen=True, slots=True)
class Step:
    """What was done about a callback."""

    id: str
    callback_id: str
    at: datetime
    who: str
    step: str
    detail: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Taken:
    """A callback that somebody took over."""

    callback_id: str
    eye_id: str
    worry: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Task:
    """What was decided about a callback and stays to be done; `owner` None: nobody has it yet.

    What one decision made for several callbacks of a patient has one `decision` (None in older records). `seen_at` is when
    the eye was last looked at in clinic since.
    """

    id: str
    callback_id: str
    eye_id: str
    kind: str
    words: str
    visit_id: str | None
    visit_on: date | None
    owner: str | None
    owner_name: str | None
    due_at: datetime
    made_by: str
    made_by_name: str
    made_at: datetime
    told_at: datetime | None
    done_at: datetime | None
    done_by: str | None
    done_words: str
    given_up: bool
    decision: str | None
    seen_at: datetime | None = None
    theatre_on: date | None = None
    theatre_list: str = ""
