"""How values look on a page: dates in the clinic's zone, words for codes, urgency with a shape."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from flask import Flask
from flask_babel import format_decimal, get_locale, gettext
from markupsafe import Markup

from followup.care import accounts
from followup.care.callbacks import going_home
from followup.care.reading.eye import protocol
from followup.care.watch import watching
from followup.clinical.evidence import SOURCES
from followup.records.operation_note import Baseline, Drop, Positioning, Site
from followup.web import context
from followup.web.addresses import Addresses
from followup.web.dates import written
from followup.web.vocabulary import HOW_SOON_SHAPE, RULES, WORDS


def words(code: Any, kind: str) -> str:
    return WORDS[kind].get(code, str(code))


def day(value: date | datetime | str) -> str:
    if isinstance(value, str):
        value = date.fromisoformat(value[:10])
    if isinstance(value, datetime):
        value = value.astimezone(context.zone()).date()
    return _written(value, "EEE d MMM y")


def _written(value: date, pattern: str) -> str:
    locale = get_locale()
    assert locale is not None
    return written(value, pattern, locale)


def _local(value: datetime) -> datetime:
    """On the clinic's clock; a time without its offset is in UTC."""
    return (value if value.tzinfo else value.replace(tzinfo=UTC)).astimezone(context.zone())


def rule_title(id: str) -> str:
    """What a rule is called on a page: `pressure-high` is *Pressure high*."""
    side, _, rest = id.partition("-")
    if side == "fellow" and rest:
        return f"Fellow eye: {rule_title(rest).lower()}"
    return RULES.get(id) or id[:1].upper() + id[1:].replace("-", " ")


def short_day(value: date) -> str:
    """A date without its weekday, for narrow columns."""
    return _written(value, "d MMM y")


def week_day(value: date) -> str:
    """A date of these weeks, with its weekday."""
    return _written(value, "EEE d MMM")


def day_month(value: date) -> str:
    """A date of these weeks, for narrow columns."""
    return _written(value, "d MMM")


def month(value: str) -> str:
    """A month stored as `2026-05`."""
    return _written(date.fromisoformat(f"{value}-01"), "MMM y")


def moment(value: datetime) -> str:
    return _written(_local(value), "EEE d MMM, HH:mm")


def clock(value: datetime) -> str:
    """The local time of day."""
    return _written(_local(value), "HH:mm")


def by_when(value: datetime | str) -> str:
    """A time to keep: the clock alone today, with its day otherwise."""
    if isinstance(value, str):
        value = datetime.fromisoformat(value)
    same_day = value.astimezone(context.zone()).date() == context.today()
    return _written(_local(value), "HH:mm" if same_day else "EEE d MMM, HH:mm")


def ago(value: datetime | None) -> str:
    """How long ago, in the largest whole unit."""
    if value is None:
        return "never"
    said = span(context.now() - value)
    return f"{said} ago" if said else "just now"


def span(value: timedelta) -> str:
    """How long, in the largest whole unit; empty below a minute."""
    minutes = int(value.total_seconds() // 60)
    for size, unit in ((1440, "day"), (60, "hour"), (1, "minute")):
        if (n := minutes // size) >= 1:
            return f"{n} {unit}{'s' if n > 1 else ''}"
    return ""


def local_day(value: datetime) -> date:
    return value.astimezone(context.zone()).date()


def who(signature: str) -> str:
    """Who wrote something, by the name under it."""
    return accounts.name_of(context.store(), signature)


def number(value: float, digits: int = 0) -> str:
    return str(format_decimal(round(value, digits)))


def citation(source: str) -> str:
    """A source in full; an old warning may name one by a key that is no more."""
    return SOURCES.get(source, source)


_NAMES = {"iop": "pressure", "count": "at least", "also": "with one of"}
_CODED = ("agent", "finding", "instrument")
_UNITS = {"mmhg": "mmHg", "percent": "%", "hours": "hours", "metres": "m", "sd": "SD"}


def pairs(values: dict[str, Any]) -> str:
    """Values of a warning, or the thresholds of a rule, as text: `pressure 34 mmHg, instrument applanation`."""
    return ", ".join(_pair(key, value) for key, value in values.items() if value is not None)


def _pair(key: str, value: Any) -> str:
    name, _, unit = key.rpartition("_")
    named = _NAMES.get(key, key.replace("_", " "))
    match value:
        case True:
            return named
        case False:
            return f"no {named}"
        case int() | float() if unit in _UNITS:
            return " ".join(filter(None, (_NAMES.get(name, name.replace("_", " ")), f"{value:g}", _UNITS[unit])))
        case list() | tuple():
            return f"{named} {', '.join(_sign(str(one)) for one in value)}"
        case float():
            return f"{named} {value:g}"
        case _:
            return f"{named} {words(value, key) if key in _CODED else _date_words(value)}"


def _sign(code: str) -> str:
    """A sign as a rule writes it: `pain>=4` is pain 4 or more, `vision=worse` vision worse."""
    name, least, value = code.partition(">=")
    return f"{name} {value} or more" if least else code.replace("=", " ").replace("_", " ")


def _date_words(value: Any) -> Any:
    """A stored date or time as the pages write it; anything else as it is."""
    try:
        at = datetime.fromisoformat(value)
    except (TypeError, ValueError):
        return value
    return day(value) if len(value) == len("2026-01-31") else moment(at)


def note_part(value: Any, key: str) -> str:
    """One part of an operation note in words."""
    kind = {"steps": "step", "risks": "risk", "eye": "eye", "agent": "agent", "indication": "indication"}.get(key)
    if key.startswith("visit "):
        return day(value)
    match value:
        case None | "" | ():
            return "none"
        case tuple():
            return ("; " if key == "drops" else ", ").join(note_part(part, key) for part in value)
        case Drop():
            return drop_words(value)
        case Site():
            return f"{value.clock:g} o’clock {value.reach}"
        case Positioning():
            return f"{words(value.position, 'posture')}, {value.hours_a_day:g} hours a day, {value.days} days"
        case Baseline():
            return pairs(dict(value)) or "none"
        case datetime():
            return moment(value)
        case date():
            return day(value)
        case float():
            return number(value, 1)
    return words(value, kind) if kind else str(value)


def drop_words(drop: Drop) -> str:
    """A drop of a note in a line, with the steps of a taper."""
    steps = (f"{_times(step.times_a_day)} a day until {day(step.until)}" for step in drop.every_step)
    return f"{drop.name}, {', then '.join(steps)}"


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def beside(field: Any, hint: str, given: dict[str, Any]) -> dict[str, Any]:
    """Attributes that tie a field to its hint and its error for a screen reader."""
    told = [f"{field.id}-error"] * bool(field.errors) + [f"{field.id}-hint"] * bool(hint)
    described = {"aria-describedby": " ".join(told)} if told else {}
    return {**given, **described, **({"aria-invalid": "true"} if field.errors else {})}


def phone(value: str) -> Markup:
    """A phone number to read: its groups stand from left to right in every language."""
    return Markup('<bdi dir="ltr">{}</bdi>').format(value)


def tel(value: str) -> str:
    """The address that dials a phone number."""
    return "tel:" + "".join(value.split())


def speaking() -> dict[str, Any]:
    """The languages there are, the one this page speaks, and its direction."""
    locale = get_locale()
    assert locale is not None
    return {"languages": context.LANGUAGES, "language": str(locale), "direction": locale.text_direction}


def watch() -> dict[str, Any]:
    """For the strips on the staff's pages: the jobs that stand still, and how many faults there are."""
    return {"late": watching.late(context.store(), context.now()), "faults": watching.count(context.store())}


def holds_anything() -> bool:
    """Whether the reader has calls or tasks in hand, and is asked about them at sign-out."""
    staff = context.staff()
    return staff is not None and going_home.holds_anything(context.store(), staff.id)


def unsigned() -> dict[str, Any]:
    """Which parts of the protocol nobody has signed, for staff."""
    parts = ("rulebook", "reviews", "postures")
    return {"unsigned": [p for p in parts if protocol(context.store(), p).is_draft]} if context.staff() else {}


def register(app: Flask) -> None:
    filters = {"words": words, "day": day, "moment": moment, "by_when": by_when, "ago": ago, "span": span, "number": number}
    filters |= {
        "short_day": short_day,
        "day_month": day_month,
        "month": month,
        "week_day": week_day,
        "clock": clock,
        "note_part": note_part,
        "drop_words": drop_words,
        "local_day": local_day,
        "who": who,
        "rule_title": rule_title,
    }
    app.jinja_env.filters.update(filters, citation=citation, pairs=pairs, phone=phone, tel=tel)

    app.jinja_env.globals.update(
        url_for=Addresses(app), beside=beside, medical=gettext, watch=watch, holds_anything=holds_anything
    )

    @app.context_processor
    def everywhere() -> dict[str, Any]:
        return {
            "clinic": context.settings().clinic,
            "demo": context.settings().server.demo,
            "staff": context.staff(),
            "now": context.now(),
            "shapes": HOW_SOON_SHAPE,
        }
