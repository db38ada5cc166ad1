"""What a patient's phone carries: all it needs offline, worked out here so that the phone works out nothing clinical."""

import hashlib
from collections.abc import Callable
from datetime import date, datetime, timedelta, tzinfo
from typing import Any

from pydantic import BaseModel

from followup.care import sealing
from followup.care.eye import Eye, load, protocol, rulebook
from followup.clinical import bubble, posture, tamponade, warnings
from followup.config import Clinic
from followup.records import Store, eyes
from followup.records.store import Row

EVENTS_KEPT = timedelta(days=30)
FORECAST_DAYS_AT_MOST = 150


class BubbleDay(BaseModel):
    """Forecast for one date: height of the bubble in percent with its interval, and volume fill."""

    date: date
    fill_percent: int
    meniscus_percent: int
    low_percent: int
    high_percent: int


class SymptomRule(BaseModel):
    """A warning rule for symptoms: it holds when at least `count` of its signs and all of `also` were answered."""

    id: str
    how_soon: warnings.HowSoon
    answers: list[str]
    pain: int | None
    also: list[str]
    count: int
    words: str
    valid_from: datetime
    valid_until: datetime


class PosturePlan(BaseModel):
    position: str
    hours_a_day: float
    dates: list[date]
    cycle_minutes: int
    break_minutes: int


class Visit(BaseModel):
    name: str
    words: str
    target: date
    latest: date
    seen: bool


class Drop(BaseModel):
    name: str
    times_a_day: int
    until: date


class Receipt(BaseModel):
    """An entry that the clinic has, and whether a person has looked since."""

    id: str
    kind: str
    at: datetime
    body: dict[str, Any]
    by: str
    looked_at: bool


class Gas(BaseModel):
    """What the travel and anaesthetic card says. `caution` ends only with a clinician's record."""

    agent: str
    fades: bool
    caution: bool
    clear_of_sight: date | None
    gone_from: date | None
    gone_to: date | None
    published_days: list[int]


class EyePack(BaseModel):
    operation: str
    eye: str
    operated_on: date
    surgeon: str
    gas: Gas
    posture: PosturePlan | None
    bubble: list[BubbleDay]
    symptom_rules: list[SymptomRule]
    visits: list[Visit]
    drops: list[Drop]
    receipts: list[Receipt]


class Pack(BaseModel):
    """Everything the phone shows offline."""

    made_at: datetime
    zone: str
    patient: str
    used_by: str
    clinic: str
    phone: str
    emergency_phone: str
    language: str
    rules_signed: bool
    sealing_key: str
    eyes: list[EyePack]


Translate = Callable[[str], str]


def pack(store: Store, clinic: Clinic, device: Row, now: datetime, translate: Translate = str) -> Pack:
    """The pack of an enrolled phone: every eye of its patient that is still followed, its words through `translate`."""
    rows = [row for row in eyes.operations_of(store, device["patient_id"]) if row["ended_at"] is None]
    return Pack(
        made_at=now,
        zone=clinic.zone,
        patient=rows[0]["patient_name"] if rows else "",
        used_by=device["used_by"],
        clinic=clinic.name,
        phone=clinic.phone,
        emergency_phone=clinic.emergency_phone,
        language=device["language"],
        sealing_key=sealing.public_key(store),
        rules_signed=not protocol(store, "rulebook").is_draft,
        eyes=[_eye_pack(store, load(store, row["id"], clinic.tz), now, clinic.tz, translate) for row in rows],
    )


def mark(made: Pack) -> str:
    """A short mark of what the pack says, time of making aside: for conditional requests."""
    said = made.model_dump_json(exclude={"made_at"})
    return hashlib.sha256(said.encode()).hexdigest()[:16]


def _eye_pack(store: Store, eye: Eye, now: datetime, zone: tzinfo, translate: Translate) -> EyePack:
    operation = eye.operation
    looked = eyes.last_look(store, eye.operation_id)
    seen = eye.seen_visits
    recent = [e for e in eye.events if e["device_id"] and e["at"] >= now - EVENTS_KEPT]
    return EyePack(
        operation=eye.operation_id,
        eye=operation.eye,
        operated_on=operation.at.astimezone(zone).date(),
        surgeon=eye.row["surgeon"],
        gas=_gas(eye, now, zone),
        posture=_posture(eye, zone),
        bubble=_bubble(eye, now, zone),
        symptom_rules=_symptom_rules(store, eye, translate),
        visits=[
            Visit(name=v["name"], words=translate(v["name"]), target=v["target"], latest=v["latest"], seen=v["name"] in seen)
            for v in eye.visits
        ],
        drops=[Drop.model_validate(drop) for drop in eye.drops],
        receipts=[
            Receipt(
                id=e["id"],
                kind=e["kind"],
                at=e["at"],
                body=e["body"],
                by=e["author"].partition(":")[0],
                looked_at=looked is not None and e["received_at"] <= looked,
            )
            for e in recent
        ],
    )


def _gas(eye: Eye, now: datetime, zone: tzinfo) -> Gas:
    forecast = eye.forecast(now)
    clear, gone = forecast.clear_of_sight, forecast.gone
    return Gas(
        agent=eye.operation.agent,
        fades=eye.operation.fades,
        caution=eye.caution(now),
        clear_of_sight=_date_of(eye, clear.median, zone) if clear else None,
        gone_from=_date_of(eye, gone.low, zone) if gone else None,
        gone_to=_date_of(eye, gone.high, zone) if gone else None,
        published_days=[round(f.value) for f in eye.agent.published_gone],
    )


def _posture(eye: Eye, zone: tzinfo) -> PosturePlan | None:
    plan = eye.operation.plan
    if plan is None:
        return None
    return PosturePlan(
        position=plan.position,
        hours_a_day=plan.hours_a_day,
        dates=posture.plan_days(plan, eye.operation.at, zone),
        cycle_minutes=round(posture.CYCLE_MINUTES.value),
        break_minutes=round(posture.BREAK_MINUTES.value),
    )


def _bubble(eye: Eye, now: datetime, zone: tzinfo) -> list[BubbleDay]:
    """From today until the forecast's late end of the gas."""
    if not eye.operation.fades or eye.no_gas_by(now):
        return []
    forecast = eye.forecast(now)
    gone = forecast.gone
    first = max(0, int(eye.operation.day(now)))
    last = FORECAST_DAYS_AT_MOST if gone is None else min(FORECAST_DAYS_AT_MOST, int(gone.high) + 1)
    return [_bubble_day(eye, forecast, day, zone) for day in range(first, max(first, last) + 1)]


def _bubble_day(eye: Eye, forecast: tamponade.Forecast, day: int, zone: tzinfo) -> BubbleDay:
    level = forecast.at(day)
    low, high = (bubble.meniscus_percent(p) for p in (level.low_percent, level.high_percent))
    return BubbleDay(
        date=_date_of(eye, day, zone),
        fill_percent=round(level.fill_percent),
        meniscus_percent=round(level.meniscus_percent),
        low_percent=round(low),
        high_percent=round(high),
    )


def _symptom_rules(store: Store, eye: Eye, translate: Translate) -> list[SymptomRule]:
    rules = []
    for rule in rulebook(store).rules:
        if rule.check != "symptoms" or not rule.patient_words or not rule.applies(eye.operation):
            continue
        signs = warnings.signs_of(tuple(rule.threshold["signs"]))
        also = warnings.signs_of(tuple(rule.threshold.get("also", ())))
        rules.append(
            SymptomRule(
                id=rule.id,
                how_soon=rule.how_soon,
                answers=sorted(signs.answers),
                pain=signs.pain,
                also=sorted(also.answers),
                count=rule.threshold["count"],
                words=translate(rule.patient_words),
                valid_from=eye.operation.at + timedelta(days=rule.from_day),
                valid_until=eye.operation.at + timedelta(days=rule.until_day),
            )
        )
    return rules


def _date_of(eye: Eye, day: float, zone: tzinfo) -> date:
    return (eye.operation.at + timedelta(days=day)).astimezone(zone).date()
