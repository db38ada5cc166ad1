"""A rulebook and an eye's course to warning signs, each with its values, threshold, source and how soon.

A rule names a check (one of `CHECKS`) and its threshold. A check walks the timeline and yields
`Look`s: a time, and how bad it was then (None for fine). Folding them gives the signs: one when
something starts, another whenever it gets worse, a fresh one after it had been fine again. Each
look uses only what was known at its time, so one pass over a whole course raises what hourly
passes would have raised, at the same times, whatever order the facts arrived in.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any, Literal, NamedTuple, get_args

from followup.clinical import acuity, altitude, pressure, tamponade
from followup.clinical.course import (
    PAIN_RANGE,
    SIGHT_COVERED_FROM,
    SYMPTOM_SIGNS,
    SYMPTOM_TRENDS,
    TRENDS,
    Anaesthetic,
    Course,
    Measures,
    Operation,
    Symptoms,
    Timeline,
    end_of,
)
from followup.clinical.errors import Unknown, one_of
from followup.clinical.evidence import Model

HowSoon = Literal["now", "today", "this-week"]
HOW_SOON: tuple[HowSoon, ...] = get_args(HowSoon)
Eyes = Literal["operated", "fellow"]
EYES: tuple[Eyes, ...] = get_args(Eyes)
Values = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the rulebook. `threshold` holds the numbers its check compares with.

    It applies only to eyes with one of `agents` and one of `risks` (any, where empty), between the
    days `from_day` and `until_day` after surgery; with `eyes = "fellow"` to eyes that were not operated.
    Rules of one `worry` share one callback.
    """

    id: str
    check: str
    worry: str
    how_soon: HowSoon
    words: str
    source: str
    threshold: Mapping[str, Any] = field(default_factory=dict)
    patient_words: str = ""
    ask: tuple[str, ...] = ()
    agents: tuple[str, ...] = ()
    risks: tuple[str, ...] = ()
    from_day: float = 0.0
    until_day: float = 3650.0
    eyes: Eyes = "operated"

    def __post_init__(self) -> None:
        one_of("check", self.check, CHECKS)
        one_of("urgency", self.how_soon, HOW_SOON)
        one_of("kind of eye", self.eyes, EYES)
        if self.eyes == "fellow" and not CHECKS[self.check].fits_fellow:
            raise Unknown(f"rule “{self.id}”: the check “{self.check}” needs an operated eye")
        missing = CHECKS[self.check].needs - set(self.threshold)
        if missing:
            raise Unknown(f"rule “{self.id}”: the check “{self.check}” also needs {', '.join(sorted(missing))}")

    @property
    def always(self) -> bool:
        """Free text reaches a person whatever the day, also where a wrong clock puts it before the operation."""
        return self.check == "words"

    def applies(self, operation: Operation | None) -> bool:
        """Whether this rule looks at an eye after that operation; None for an eye that was not operated."""
        if self.always:
            return True
        if operation is None or self.eyes == "fellow":
            return operation is None and self.eyes == "fellow"
        return (not self.agents or operation.agent in self.agents) and (
            not self.risks or not operation.risks.isdisjoint(self.risks)
        )


@dataclass(frozen=True, slots=True)
class Rulebook:
    """The rules of one version, and the pressure bands that go with them."""

    version: str
    rules: tuple[Rule, ...]
    bands: pressure.Bands = pressure.DEFAULT_BANDS

    def __post_init__(self) -> None:
        names = [rule.id for rule in self.rules]
        if twice := {name for name in names if names.count(name) > 1}:
            raise Unknown(f"two rules share the name “{min(twice)}”")

    def rule(self, id: str) -> Rule:
        return next(r for r in self.rules if r.id == id)


@dataclass(frozen=True, slots=True)
class Sign:
    """A warning sign: which rule, in which eye, when it came up, on which values, against which threshold, how soon to act."""

    eye: str
    rule: str
    worry: str
    how_soon: HowSoon
    raised_at: datetime
    severity: float
    values: Values
    threshold: Mapping[str, Any]
    source: str
    words: str


Look = tuple[datetime, float | None, Values]
"""One look of a check: when, how bad (higher is worse; None is fine), and the values it saw."""

_Checker = Callable[[Timeline, Mapping[str, Any]], Iterable[Look]]


_NOTHING: Values = {}


class Check(NamedTuple):
    """How a check looks, the thresholds it needs, and whether it can look at an eye that was not operated."""

    look: _Checker
    needs: frozenset[str]
    fits_fellow: bool = False


def evaluate(course: Course, rulebook: Rulebook, now: datetime) -> list[Sign]:
    """Every sign that the course has given up to `now`, in the order raised (the most urgent first at one instant)."""
    signs = [
        sign
        for timeline in course.timelines(now)
        for rule in rulebook.rules
        if rule.applies(timeline.operation if timeline.operated else None)
        for sign in _signs(timeline, rule)
    ]
    return in_order(signs)


def found(course: Course, rulebook: Rulebook, now: datetime) -> dict[tuple[str, datetime], Values]:
    """Whatever the rules find in a course, by rule and time, with the values: also where it is no news and gives no sign.

    A warning has its grounds as long as its rule still finds something at its time. (Signs alone do not say so: a second
    high pressure gives a sign only where the first was lower.)
    """
    return {
        (rule.id, at): values
        for timeline in course.timelines(now)
        for rule in rulebook.rules
        if rule.applies(timeline.operation if timeline.operated else None)
        for at, severity, values in CHECKS[rule.check].look(timeline, rule.threshold)
        if severity is not None and _in_days(timeline, rule, at)
    }


def in_order(signs: Iterable[Sign]) -> list[Sign]:
    """By time; the most urgent first at one instant."""
    return sorted(signs, key=lambda s: (s.raised_at, HOW_SOON.index(s.how_soon), s.rule))


def _signs(timeline: Timeline, rule: Rule) -> Iterator[Sign]:
    worst: float | None = None
    raised_at = timeline.now
    for at, severity, values in CHECKS[rule.check].look(timeline, rule.threshold):
        if worst is not None and timeline.settled_between(rule.worry, raised_at, at):
            worst = None
        if severity is None:
            worst = None
        elif (worst is None or severity > worst) and _in_days(timeline, rule, at):
            worst, raised_at = severity, at
            words = rule.words.format_map({**rule.threshold, **values})
            yield Sign(
                timeline.course.eye, rule.id, rule.worry, rule.how_soon, at, severity, values, rule.threshold,
                rule.source, words,
            )  # fmt: skip


def _in_days(timeline: Timeline, rule: Rule, at: datetime) -> bool:
    return rule.always or not timeline.operated or rule.from_day <= timeline.operation.day(at) <= rule.until_day


def _while_it_lasts(timeline: Timeline, first: datetime, every: timedelta, until: datetime) -> Iterator[datetime]:
    """The first look at something that only time brings, and the next regular one after each settlement while it lasts."""
    if first > until:
        return
    yield first
    for settled in timeline.settlements:
        if settled.at >= first:
            again = first + ((settled.at - first) // every + 1) * every
            if again <= until:
                yield again


# --- Symptoms ---


class Signs(NamedTuple):
    """Conditions on one symptom check: answers given (`vision=worse`, `discharge`) and pain of at least a score."""

    answers: frozenset[str]
    pain: int | None


@lru_cache(maxsize=1024)
def signs_of(conditions: tuple[str, ...]) -> Signs:
    """Read the conditions of a rule; raises `Unknown` for a symptom that nobody is asked about."""
    answers = set()
    pain = None
    for text in conditions:
        name, at_least, level = text.partition(">=")
        if at_least:
            one_of("symptom with a score", name, ("pain",))
            pain = int(level)
            continue
        name, equals, trend = text.partition("=")
        one_of("symptom", name, SYMPTOM_TRENDS if equals else SYMPTOM_SIGNS)
        if equals:
            one_of(f"answer for {name}", trend, TRENDS)
        answers.add(text)
    return Signs(frozenset(answers), pain)


def _symptoms(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """At least `count` of the `signs` at once, and all of `also`; worse with more signs and more pain."""
    signs = signs_of(tuple(threshold["signs"]))
    also = signs_of(tuple(threshold.get("also", ())))
    count = threshold["count"]
    painful = signs.pain or PAIN_RANGE[1] + 1
    was_fine = True
    for at, pain, said, told in timeline.answers:
        present = signs.answers & said
        number = len(present) + (pain >= painful)
        if number < count or not also.answers <= said:
            if not was_fine:
                yield (at, None, _NOTHING)
            was_fine = True
            continue
        was_fine = False
        fields = sorted(answer.partition("=")[0] for answer in present | also.answers)
        yield (at, number * 11 + pain, {"pain": told.pain, **{name: getattr(told, name) for name in fields}})


def _words(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Whatever the patient wrote, each time: what it means only a person can say."""
    written: list[Symptoms | Anaesthetic] = [*timeline.symptoms, *timeline.anaesthetics]
    for told in sorted(written, key=lambda f: f.at):
        if said := told.words.strip():
            yield (told.at, 1.0, {"said": said})
            yield (told.at, None, _NOTHING)


# --- Measures ---


def _iop_at_least(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Pressure at or above `mmhg`; with `pain`, only if pain is at least that; with `finding`, only beside it."""
    for m in timeline.measures:
        if m.iop_mmhg is not None:
            bad = m.iop_mmhg >= threshold["mmhg"] and _beside(m, threshold)
            yield (m.at, m.iop_mmhg, _pressure_values(m)) if bad else (m.at, None, _NOTHING)


def _pressure_values(m: Measures) -> Values:
    return {"iop_mmhg": m.iop_mmhg, "instrument": m.instrument, "pain": m.pain}


def _beside(m: Measures, threshold: Mapping[str, Any]) -> bool:
    pain_needed = threshold.get("pain")
    finding = threshold.get("finding")
    return (pain_needed is None or (m.pain or 0) >= pain_needed) and (finding is None or finding in m.findings)


def _iop_rise(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Pressure at least `rise_mmhg` over the eye's own baseline and at least `mmhg`."""
    baseline = timeline.baseline_iop_mmhg
    for m in timeline.measures:
        risen = None if m.iop_mmhg is None else pressure.rise(m.iop_mmhg, baseline)
        if m.iop_mmhg is not None and risen is not None:
            bad = risen >= threshold["rise_mmhg"] and m.iop_mmhg >= threshold["mmhg"]
            values = {**_pressure_values(m), "baseline_mmhg": baseline, "risen_mmhg": risen} if bad else _NOTHING
            yield (m.at, m.iop_mmhg if bad else None, values)


def _iop_at_most(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for m in timeline.measures:
        if m.iop_mmhg is not None:
            bad = m.iop_mmhg <= threshold["mmhg"] and _beside(m, threshold)
            yield (m.at, -m.iop_mmhg, _pressure_values(m)) if bad else (m.at, None, _NOTHING)


def _steroid_response(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A rise of `rise_mmhg` over baseline, to at least `mmhg`, after `days` on steroid drops that have not long ended."""
    op = timeline.operation
    if op.steroid_drops_until is None or op.baseline_iop_mmhg is None:
        return
    ended = op.steroid_drops_until + timedelta(days=threshold.get("days_after_drops", 0))
    for m in timeline.measures:
        if m.iop_mmhg is None or m.at > ended:
            continue
        on_drops = min(m.at, op.steroid_drops_until) - op.at
        response = pressure.steroid_response(
            m.iop_mmhg, op.baseline_iop_mmhg, on_drops, threshold["rise_mmhg"], threshold["days"]
        )
        bad = response.pattern and m.iop_mmhg >= threshold["mmhg"]
        values = {
            "iop_mmhg": m.iop_mmhg,
            "baseline_mmhg": op.baseline_iop_mmhg,
            "risen_mmhg": response.rise_mmhg,
            "days_on_drops": round(response.days_on_drops, 1),
            "level_scheme": response.level,
            "rise_scheme": response.rise,
        }
        yield (m.at, response.rise_mmhg if bad else None, values)


def _finding(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    name = threshold["finding"]
    for m in timeline.measures:
        bad = name in m.findings and _beside(m, threshold)
        yield (m.at, float(m.pain or 0) if bad else None, {"finding": name})


def _pain_in_clinic(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for m in timeline.measures:
        if m.pain is not None:
            yield (m.at, float(m.pain) if m.pain >= threshold["pain"] else None, {"pain_score": m.pain})


def _vision_category(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Vision down to `category` or beyond, where it was better before surgery; gas does not excuse it.

    Of a fellow eye nothing is known before its first reading: once a callback about that was settled, it is no news.
    """
    rank = 1 + acuity.CATEGORIES.index(threshold["category"])
    known = timeline.baseline_acuity
    if known is not None and known.rank >= rank:
        return
    told: Measures | None = None
    for m in timeline.measures:
        if m.acuity is None or _known_blind(timeline, told, m):
            continue
        bad = m.acuity.rank >= rank
        told = m if bad else told
        yield (m.at, float(m.acuity.rank) if bad else None, {"acuity": m.acuity.typed})


def _known_blind(timeline: Timeline, told: Measures | None, now: Measures) -> bool:
    """Whether a fellow eye sees no worse than when that was told and settled."""
    if timeline.operated or told is None or told.acuity is None or now.acuity is None:
        return False
    return now.acuity.rank <= told.acuity.rank and any(told.at <= s.at < now.at for s in timeline.settlements)


def _vision_drop(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A loss of `logmar` from the best comparable reading, by rank where a category is involved.

    With gas over the line of sight nothing is judged. Comparable is what was read with the same correction
    and through the same: oil with oil, gas below the line of sight with the same. An eye that has become
    clear must not fall below what it saw past the gas, nor below the reading before surgery.
    """
    best: dict[tuple[str, str | None], acuity.Acuity] = {}
    before = timeline.baseline_acuity
    for m, seen, through in timeline.views:
        if through == "gas over sight":
            continue
        references = [best.get((through, m.correction))]
        if through == "clear":
            references += [best.get(("gas below sight", m.correction)), before]
        reference = _best_of(references)
        own = references[0]
        if own is None or own.worse_than(seen):
            best[through, m.correction] = seen
        if reference is None or not seen.worse_than(reference):
            yield (m.at, None, _NOTHING)
            continue
        bad = acuity.change(reference, seen, threshold["logmar"]).exceeds_noise
        values = {"acuity": seen.typed, "best_before": reference.typed}
        yield (m.at, seen.logmar + seen.rank * 10 if bad else None, values)


def _best_of(readings: Iterable[acuity.Acuity | None]) -> acuity.Acuity | None:
    best: acuity.Acuity | None = None
    for reading in readings:
        if reading is not None and (best is None or best.worse_than(reading)):
            best = reading
    return best


# --- The bubble ---


def _bubble_off_forecast(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A level seen in clinic further than `sd` from the forecast of that moment, on the side named by `direction`."""
    if not timeline.operation.fades:
        return
    sign = 1 if threshold["direction"] == "more" else -1
    for at, level in timeline.sightings:
        if level.observer != "clinic" or timeline.empty_at(at):
            continue
        before = timeline.forecast_before(at)
        off = sign * before.contradiction(level)
        if off <= threshold["sd"]:
            yield (at, None, _NOTHING)
        else:
            expected = before.at(level.day)
            values = {
                "seen_height_percent": level.meniscus_percent,
                "expected_height_percent": round(expected.meniscus_percent),
                "off_by_sd": round(off, 1),
            }
            yield (at, round(off, 3), values)


def _bubble_full(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A level of at least `height_percent` together with a pressure of at least `mmhg`: too much gas."""
    for m in timeline.measures:
        if m.bubble_percent is not None and m.iop_mmhg is not None and timeline.operation.fades:
            bad = m.bubble_percent >= threshold["height_percent"] and m.iop_mmhg >= threshold["mmhg"]
            values = {"seen_height_percent": m.bubble_percent, "iop_mmhg": m.iop_mmhg}
            yield (m.at, m.iop_mmhg if bad else None, values)


def _climb(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A journey that climbs at least `climb_metres` while no clinician has recorded that the gas is gone."""
    op = timeline.operation
    if not op.fades:
        return
    for journey in timeline.journeys:
        worst = altitude.journey(journey.heights_metres, op.height_metres)
        bad = worst.climb_metres >= threshold["climb_metres"] and not timeline.empty_at(journey.at)
        values = {"climbed_metres": worst.climb_metres, "to_metres": worst.to_metres, "expansion": round(worst.expansion, 2)}
        yield (journey.at, worst.expansion if bad else None, values)


def _gas_seen_again(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Gas seen, by whomever, after a clinician had recorded that none was left."""
    was_empty = False
    for at, empty in timeline.emptied:
        if was_empty and not empty and timeline.operation.fades:
            yield (at, 1.0, {"agent": timeline.operation.agent})
            yield (at, None, _NOTHING)
        was_empty = empty


def _anaesthetic(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    for told in timeline.anaesthetics:
        bad = timeline.operation.fades and not timeline.empty_at(told.at)
        yield (told.at, 1.0 if bad else None, {"agent": timeline.operation.agent})


def _removal_overdue(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Oil still in the eye `days` after surgery, and four weeks after each time that this was settled."""
    op = timeline.operation
    if not op.liquid:
        return
    due = op.at + timedelta(days=threshold["days"])
    for at in _while_it_lasts(timeline, due, _OVERDUE_AGAIN, timeline.now):
        if not timeline.empty_at(at):
            yield (at, 1.0, {"agent": op.agent, "days_in_eye": round(op.day(at))})


_OVERDUE_AGAIN = timedelta(days=28)  # common practice, no source


# --- Posture, visits, silence ---


def _posture_missed(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A whole plan day with something logged but under `share` of its target hours."""
    for day, at in _finished_plan_days(timeline):
        if day.hours > 0:
            values = {"date": day.day.isoformat(), "hours": round(day.hours, 1), "target_hours": day.target_hours}
            yield (at, 1 - day.share if day.share < threshold["share"] else None, values)


def _no_posture_entry(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A whole plan day with nothing logged in the planned position."""
    for day, at in _finished_plan_days(timeline):
        bad = day.hours == 0 and day.target_hours > 0
        yield (at, 1.0 if bad else None, {"date": day.day.isoformat()})


def _finished_plan_days(timeline: Timeline) -> Iterator[tuple[Any, datetime]]:
    for day in timeline.hours_in_plan[1:]:
        at = end_of(day.day, timeline.zone)
        if at <= timeline.now:
            yield day, at


def _missed_visit(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """A planned visit not seen by the end of its latest day, from `latest_from_day` to before `latest_until_day`."""
    op = timeline.operation
    for visit in sorted(timeline.visits, key=lambda v: (v.latest, v.name)):
        over = end_of(visit.latest, timeline.zone)
        seen_at = timeline.seen.get(visit.id or visit.name)
        due_day = (visit.latest - op.at.astimezone(timeline.zone).date()).days
        if over > timeline.now or not threshold["latest_from_day"] <= due_day < threshold["latest_until_day"]:
            continue
        if seen_at is None or seen_at >= over:
            yield (over, 1.0, {"visit": visit.name, "latest": visit.latest.isoformat()})
            yield (over, None, _NOTHING)


def _silence(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterator[Look]:
    """Nothing from the patient for `hours`; with `while_posturing`, only in the days of the posture plan."""
    op = timeline.operation
    posturing_days = op.plan.days if op.plan else 0
    every = timedelta(hours=threshold["hours"])
    for last, silent_hours in timeline.silences:
        if silent_hours < threshold["hours"]:
            continue
        until = last + timedelta(hours=silent_hours)
        for due in _while_it_lasts(timeline, last + every, every, until):
            if not threshold.get("while_posturing") or op.day(due) <= posturing_days:
                hours = round((due - last) / timedelta(hours=1))
                yield (due, 1.0, {"last_heard": last.isoformat(), "silent_hours": hours})
        yield (until, None, _NOTHING)


CHECKS: dict[str, Check] = {
    "symptoms": Check(_symptoms, frozenset({"signs", "count"}), fits_fellow=True),
    "words": Check(_words, frozenset(), fits_fellow=True),
    "iop-at-least": Check(_iop_at_least, frozenset({"mmhg"}), fits_fellow=True),
    "iop-rise": Check(_iop_rise, frozenset({"mmhg", "rise_mmhg"})),
    "iop-at-most": Check(_iop_at_most, frozenset({"mmhg"}), fits_fellow=True),
    "steroid-response": Check(_steroid_response, frozenset({"mmhg", "rise_mmhg", "days"})),
    "finding": Check(_finding, frozenset({"finding"}), fits_fellow=True),
    "pain-in-clinic": Check(_pain_in_clinic, frozenset({"pain"}), fits_fellow=True),
    "vision-category": Check(_vision_category, frozenset({"category"}), fits_fellow=True),
    "vision-drop": Check(_vision_drop, frozenset({"logmar"}), fits_fellow=True),
    "bubble-off-forecast": Check(_bubble_off_forecast, frozenset({"direction", "sd"})),
    "bubble-full": Check(_bubble_full, frozenset({"height_percent", "mmhg"})),
    "gas-seen-again": Check(_gas_seen_again, frozenset()),
    "climb": Check(_climb, frozenset({"climb_metres"})),
    "anaesthetic": Check(_anaesthetic, frozenset()),
    "removal-overdue": Check(_removal_overdue, frozenset({"days"})),
    "posture-missed": Check(_posture_missed, frozenset({"share"})),
    "no-posture-entry": Check(_no_posture_entry, frozenset()),
    "missed-visit": Check(_missed_visit, frozenset({"latest_from_day", "latest_until_day"})),
    "silence": Check(_silence, frozenset({"hours"})),
}

MODEL = Model(
    "Warning signs",
    (
        "Each rule of the signed rulebook looks at every fact with what was known at that time, and says which values it saw, "
        "against which threshold, from which source, and how soon somebody must act.",
        "A sign is raised when it starts, again when it gets worse, and afresh after it had been well in between. "
        "Once its callback was settled, the first look that still finds it raises it afresh. "
        "It is never withdrawn. The order in which entries arrive does not matter.",
        "An eye that was not operated is watched by rules of its own: pressure, lost sight, infection, inflammation.",
        "While gas covers the line of sight poor vision is expected: only lost light perception counts then. "
        "Readings past a low bubble, through oil and with nothing in the eye are each compared with their own kind; "
        "a clear eye must not see less than it did past the gas, or before surgery.",
        "Infection does not need pain: about one in five had none.",
        "What the patient writes in their own words is not judged: it always opens a callback.",
    ),
    ("The rules support decisions and take none. Local protocol and licensed judgement come first.",),
    (SIGHT_COVERED_FROM, acuity.NOISE_CLINIC, pressure.SPIKE_FROM, pressure.SEVERE_FROM, tamponade.CONTRADICTS_BEYOND),
)
