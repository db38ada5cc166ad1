"""What a phone shows without a signal, made for one phone: rules, forecast, plan, visits, receipts."""

import hashlib
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import Any

from followup.care.errors import translatable as medical
from followup.care.home import sealing
from followup.care.home.pack_parts import (
    AnaestheticRule,
    Asking,
    BubbleDay,
    Drop,
    DropTime,
    EndedEye,
    EyePack,
    Gas,
    HeightRule,
    Pack,
    PosturePlan,
    Receipt,
    SecondLook,
    SymptomRule,
    Visit,
    Wish,
)
from followup.care.reading import state
from followup.care.reading.eye import Eye, load, protocol, rulebook
from followup.care.watch.dangers import dangers
from followup.clinical import bubble, drop_times, forecasts, posture, second_looks, warnings
from followup.config import Clinic
from followup.records import Store, eyes, people
from followup.records.bodies.kinds import stored
from followup.records.generation import generation as generation
from followup.records.values import Device, Event

EVENTS_KEPT = timedelta(days=30)

FORECAST_DAYS_AT_MOST = 150

NO_WORDS = medical("The clinic should hear of this.")  # a clinic's own rule without words for the patient still counts

Translate = Callable[[str], str]


def pack(store: Store, clinic: Clinic, device: Device, now: datetime, translate: Translate = str) -> Pack:
    """The pack of an enrolled phone: every eye of its patient that is still followed, its words through `translate`."""
    both = eyes.of_patient(store, device.patient_id)
    followed = [load(store, eye.id, clinic.tz) for eye in both if eye.is_followed and eye.note]
    book = rulebook(store)
    return Pack(
        made_at=now,
        generation=generation(store),
        zone=clinic.zone,
        patient=both[0].patient.name if both else "",
        used_by=device.used_by,
        clinic=clinic.name,
        place=clinic.place,
        phone=clinic.phone,
        emergency_phone=clinic.emergency_phone,
        language=device.language,
        sealing_key=sealing.public_key(store),
        rules_signed=not protocol(store, "rulebook").is_draft,
        dangers=dangers(book, [eye.operation for eye in followed], translate),
        eyes=[_eye_pack(store, eye, book, now, clinic.tz, translate) for eye in followed],
        ended=[
            EndedEye(
                eye=eye.side,
                ended_on=eye.ended_at.astimezone(clinic.tz).date(),
                caution=load(store, eye.id, clinic.tz).caution(now),
            )
            for eye in both
            if eye.ended_at is not None
        ],
    )


def mark(made: Pack) -> str:
    """A short mark of what the pack says, time of making aside: for conditional requests."""
    said = made.model_dump_json(exclude={"made_at"})
    return hashlib.sha256(said.encode()).hexdigest()[:16]


def _eye_pack(store: Store, eye: Eye, book: warnings.Rulebook, now: datetime, zone: tzinfo, translate: Translate) -> EyePack:
    operation = eye.operation
    looked = eyes.last_look(store, eye.id)
    due_at = _second_looks_due(eye, book, now)
    last_due = {at: max(due) for at, due in due_at.items()}
    seen = eye.seen_visits
    wishes = {w.identity: Wish(at=w.at, words=w.words) for w in state.wishes_of(store, eye.id, eye.visits, seen)}
    settled_at = _settled_at(eye)
    waiting = {c.id for c in eye.callbacks if c.settled_at is None}
    open_signs = [w for w in eye.warnings if w.callback_id in waiting]
    calling_at = {w.raised_at for w in open_signs if "second_look" not in w.values}
    unanswered_at = {w.raised_at for w in open_signs if "second_look" in w.values}
    calling = {
        e.id for e in eye.events if e.kind == "symptoms" and (e.at in calling_at or due_at.get(e.at, set()) & unanswered_at)
    }
    names = {f"carer:{d.id}": d.carer_name for d in people.devices_of(store, eye.patient.id)}
    kept_anyway = calling | {e.id for e in eye.events if e.kind in ("journey", "anaesthetic") and e.at in calling_at}
    recent = [e for e in eye.events if e.device_id and (e.at >= now - EVENTS_KEPT or e.id in kept_anyway)]

    def is_settled(e: Event) -> bool:
        """Whether nobody waits for the answer to what an entry raised; to a check, none of this patient's checks."""
        if e.kind in ("journey", "anaesthetic"):
            return e.at not in calling_at
        told_by = max(e.received_at, last_due.get(e.at, e.received_at))
        return e.kind == "symptoms" and settled_at is not None and told_by < settled_at

    return EyePack(
        operation=eye.id,
        eye=operation.eye,
        operated_on=operation.at.astimezone(zone).date(),
        surgeon=eye.note.surgeon,
        gas=_gas(eye, book, now, zone, translate),
        posture=_posture(eye, zone),
        bubble=_bubble(eye, now, zone),
        symptom_rules=_symptom_rules(book, eye, translate),
        asking=Asking(),
        visits=[
            Visit(
                id=v.identity,
                name=v.name,
                words=translate(v.name),
                target=v.target,
                starts=f"{v.starts:%H:%M}" if v.starts else None,
                starts_at=datetime.combine(v.target, v.starts, zone).astimezone(UTC) if v.starts else None,
                latest=v.latest,
                seen=v.identity in seen,
                wish=wishes.get(v.identity),
            )
            for v in eye.visits
        ],
        drops=[_drop(stretch) for stretch in eye.drop_plan],
        calling=bool(waiting),
        receipts=[
            Receipt(
                id=e.id,
                kind=e.kind,
                at=e.at,
                body=stored(e.body),
                by=e.author.partition(":")[0],
                name=names.get(e.author, ""),
                looked_at=looked is not None and e.received_at <= looked,
                settled=is_settled(e),
                calling=e.id in calling,
            )
            for e in recent
        ],
    )


def _settled_at(eye: Eye) -> datetime | None:
    """When the last callback about what this patient told in a check, or no more told, was settled; None while one is open."""
    told_at = {e.at for e in eye.events if e.kind == "symptoms"}
    theirs = {w.callback_id for w in eye.warnings if w.raised_at in told_at or "second_look" in w.values}
    told = [c for c in eye.callbacks if c.id in theirs]
    settled = [c.settled_at for c in told if c.settled_at]
    return max(settled, default=None) if len(settled) == len(told) else None


def _second_looks_due(eye: Eye, book: warnings.Rulebook, now: datetime) -> dict[datetime, set[datetime]]:
    """By the time of a check, until when its second looks may come: settled before the last of them, it can still call."""
    asked = second_looks.second_looks(eye.course, book, now)
    return {look.asked_at: {a.due_at for a in asked if a.asked_at == look.asked_at} for look in asked}


def _gas(eye: Eye, book: warnings.Rulebook, now: datetime, zone: tzinfo, translate: Translate) -> Gas:
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
        heights=_heights(book, eye, translate) if eye.caution(now) else [],
        anaesthetics=_anaesthetics(book, eye, translate) if eye.caution(now) else [],
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


def _drop(stretch: drop_times.Stretch) -> Drop:
    times = [DropTime(at=f"{slot.at:%H:%M}", opens=f"{slot.opens:%H:%M}") for slot in drop_times.slots(stretch.times_a_day)]
    return Drop(name=stretch.name, times_a_day=stretch.times_a_day, first=stretch.first, until=stretch.last, times=times)


def _bubble(eye: Eye, now: datetime, zone: tzinfo) -> list[BubbleDay]:
    """From today until the forecast's late end of the gas."""
    if not eye.operation.fades or eye.no_gas_by(now):
        return []
    forecast = eye.forecast(now)
    gone = forecast.gone
    first = max(0, int(eye.operation.day(now)))
    last = FORECAST_DAYS_AT_MOST if gone is None else min(FORECAST_DAYS_AT_MOST, int(gone.high) + 1)
    return [_bubble_day(eye, forecast, day, zone) for day in range(first, max(first, last) + 1)]


def _bubble_day(eye: Eye, forecast: forecasts.Forecast, day: int, zone: tzinfo) -> BubbleDay:
    level = forecast.at(day)
    low, high = (bubble.meniscus_percent(p) for p in (level.low_percent, level.high_percent))
    return BubbleDay(
        date=_date_of(eye, day, zone),
        fill_percent=round(level.fill_percent),
        meniscus_percent=round(level.meniscus_percent),
        low_percent=round(low),
        high_percent=round(high),
    )


def _symptom_rules(book: warnings.Rulebook, eye: Eye, translate: Translate) -> list[SymptomRule]:
    rules = []
    for rule in [*_rules(book, eye, "symptoms"), *_rules(book, eye, "symptoms-again")]:
        signs = warnings.signs_of(rule.signs)
        also = warnings.signs_of(rule.also)
        rules.append(
            SymptomRule(
                answers=sorted(signs.answers),
                pain=signs.pain,
                also=sorted(also.answers),
                count=rule.count,
                second_look=_second_look(rule, translate),
                again_within_hours=rule.threshold.get("within_hours"),
                looks=rule.threshold.get("looks", warnings.LOOKS_IN_A_ROW),
                **_said(rule, eye, translate),
            )
        )
    return rules


def _second_look(rule: warnings.Rule, translate: Translate) -> SecondLook | None:
    look = rule.second_look
    return None if look is None else SecondLook(ask=translate(look.ask), hours=look.hours, looks=look.looks)


def _heights(book: warnings.Rulebook, eye: Eye, translate: Translate) -> list[HeightRule]:
    done_at = eye.operation.height_metres
    climbs = [(rule, rule.number("climb_metres")) for rule in _rules(book, eye, "climb")]
    return [HeightRule(from_metres=done_at + up, climb_metres=up, **_said(rule, eye, translate)) for rule, up in climbs]


def _anaesthetics(book: warnings.Rulebook, eye: Eye, translate: Translate) -> list[AnaestheticRule]:
    return [AnaestheticRule(**_said(rule, eye, translate)) for rule in _rules(book, eye, "anaesthetic")]


def _rules(book: warnings.Rulebook, eye: Eye, check: str) -> list[warnings.Rule]:
    return [rule for rule in book.rules if rule.check == check and rule.applies(eye.operation)]


def _said(rule: warnings.Rule, eye: Eye, translate: Translate) -> dict[str, Any]:
    """What every rule on the phone says, whatever it compares."""
    return {
        "id": rule.id,
        "how_soon": rule.how_soon,
        "words": translate(rule.patient_words or NO_WORDS),
        "valid_from": eye.operation.at + timedelta(days=rule.from_day),
        "valid_until": eye.operation.at + timedelta(days=rule.until_day),
    }


def _date_of(eye: Eye, day: float, zone: tzinfo) -> date:
    return (eye.operation.at + timedelta(days=day)).astimezone(zone).date()
