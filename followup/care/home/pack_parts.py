"""The parts of a pack, as the phone reads them."""

from datetime import date, datetime, timedelta
from typing import Any

from pydantic import BaseModel

from followup.care.watch.dangers import Danger
from followup.clinical import second_looks, warnings
from followup.clinical.timeline import ANSWER_STANDS, SEVERE_PAIN, TELLING_PAIN


class BubbleDay(BaseModel):
    """Forecast for one date: height of the bubble in percent with its interval, and volume fill."""

    date: date
    fill_percent: int
    meniscus_percent: int
    low_percent: int
    high_percent: int


class SecondLook(BaseModel):
    """What a lone mild sign is asked back, and by how many hours later it must have been looked at again, so often."""

    ask: str
    hours: float
    looks: int


class SymptomRule(BaseModel):
    """A warning rule for symptoms: it holds when at least `count` of its signs and all of `also` were answered.

    With `again_within_hours` it calls only when it holds in so many `looks` in a row, each at most so long after the last.
    `valid_from` and `valid_until` are by the clinic's clock, here and in the tables of `Gas`.
    """

    id: str
    how_soon: warnings.HowSoon
    answers: list[str]
    pain: int | None
    also: list[str]
    count: int
    second_look: SecondLook | None
    again_within_hours: float | None
    looks: int
    words: str
    valid_from: datetime
    valid_until: datetime


class Asking(BaseModel):
    """How the phone tells a lone mild sign, and for how long what was said stands: the core's figures, hours, minutes and pain scores."""

    answers_stand_hours: float = ANSWER_STANDS / timedelta(hours=1)
    asked_back_minutes: float = second_looks.ASKED_BACK_WITHIN / timedelta(minutes=1)
    telling_pain: int = round(TELLING_PAIN.value)
    severe_pain: int = round(SEVERE_PAIN.value)


class HeightRule(BaseModel):
    """A journey that goes up to `from_metres` above the sea (the place of the operation is counted in), or by `climb_metres`."""

    id: str
    how_soon: warnings.HowSoon
    from_metres: float
    climb_metres: float
    words: str
    valid_from: datetime
    valid_until: datetime


class AnaestheticRule(BaseModel):
    """An anaesthetic, a sedation or dental treatment with gas in the eye."""

    id: str
    how_soon: warnings.HowSoon
    words: str
    valid_from: datetime
    valid_until: datetime


class PosturePlan(BaseModel):
    position: str
    hours_a_day: float
    dates: list[date]
    cycle_minutes: int
    break_minutes: int


class Wish(BaseModel):
    """The patient asked for another time, and the clinic has not answered yet."""

    at: datetime
    words: str


class Visit(BaseModel):
    """A visit of the plan, `id` through every change of it; `starts` is its local time (09:40), `starts_at` the moment,
    where the clinic keeps times."""

    id: str
    name: str
    words: str
    target: date
    starts: str | None
    starts_at: datetime | None
    latest: date
    seen: bool
    wish: Wish | None


class DropTime(BaseModel):
    """A local time of a day's drops (08:00); what is taken from `opens` on, until the next one opens, is it."""

    at: str
    opens: str


class Drop(BaseModel):
    """A drop, so many times a day, from one day to another; a taper is several of the same name."""

    name: str
    times_a_day: int
    first: date
    until: date
    times: list[DropTime]


class Receipt(BaseModel):
    """An entry that the clinic has, whether a person has looked since, and whether what it raised is settled.

    `calling` is whether a sign that this check itself raised, at once or for want of a second look, has yet to be settled, so
    that no phone reassures meanwhile; such a one is here however old it is.
    `by` is patient or carer, `name` what the patient calls that carer, where they let them in.
    """

    id: str
    kind: str
    at: datetime
    body: dict[str, Any]
    by: str
    name: str
    looked_at: bool
    settled: bool
    calling: bool


class Gas(BaseModel):
    """What the travel and anaesthetic card says. `caution` ends only with a clinician's record.

    `heights` and `anaesthetics` are the rulebook's, for as long as the caution stands.
    """

    agent: str
    fades: bool
    caution: bool
    clear_of_sight: date | None
    gone_from: date | None
    gone_to: date | None
    published_days: list[int]
    heights: list[HeightRule]
    anaesthetics: list[AnaestheticRule]


class EyePack(BaseModel):
    """One followed eye; `calling` is whether somebody at the clinic has yet to settle something about it."""

    operation: str
    eye: str
    operated_on: date
    surgeon: str
    gas: Gas
    posture: PosturePlan | None
    bubble: list[BubbleDay]
    symptom_rules: list[SymptomRule]
    asking: Asking
    visits: list[Visit]
    drops: list[Drop]
    calling: bool
    receipts: list[Receipt]


class EndedEye(BaseModel):
    """An eye whose follow-up has ended. `caution`: gas may still be in it, and only a clinician can say that it is gone."""

    eye: str
    ended_on: date
    caution: bool


class Pack(BaseModel):
    """Everything the phone shows offline. `generation` is another one after a restore: what was received may be lost then."""

    made_at: datetime
    generation: str
    zone: str
    patient: str
    used_by: str
    clinic: str
    place: str
    phone: str
    emergency_phone: str
    language: str
    rules_signed: bool
    sealing_key: str
    dangers: list[Danger]
    eyes: list[EyePack]
    ended: list[EndedEye]
