"""The results worked out from every eye anew: slow and plain, what the kept ones are compared with."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from statistics import median

from followup.care.learning.results import Asked, Results
from followup.care.reading.eye import Eye, load, rulebook
from followup.clinical import outcomes, success, vision
from followup.clinical.outcomes import ChartPoint, Proportion
from followup.clinical.success import AfterOperation, InTheEnd
from followup.clinical.vision import Acuity
from followup.records import Store, eyes
from followup.records.values import Note


@dataclass(frozen=True, slots=True)
class Course:
    """An eye with an operation that was asked for: how it stands in the end, and its sight before that operation and now."""

    eye: Eye
    end: InTheEnd | None
    before: Acuity | None
    last: Acuity | None

    @property
    def sight(self) -> str | None:
        """better, worse or same beyond test-retest noise; None where one of the two is missing."""
        if self.before is None or self.last is None:
            return None
        change = vision.change(self.before, self.last)
        return change.direction if change.exceeds_noise else "same"


@dataclass(frozen=True, slots=True)
class Operated:
    """One operation that was asked for: its note, what was found until the next, and the course of its eye."""

    note: Note
    after: AfterOperation
    course: Course

    @property
    def eye(self) -> Eye:
        return self.course.eye


def from_scratch(store: Store, now: datetime, zone: tzinfo, asked: Asked | None = None) -> Results:
    """The results of the operations asked for, or of all of the clinic's."""
    operations: list[Operated] = []
    courses: list[Course] = []
    for row in eyes.operated(store):
        eye = load(store, row.id, zone)
        if found := _asked_for(eye, asked or Asked(), now):
            operations += found
            courses.append(found[0].course)
    spike_from = rulebook(store).bands.spike_from
    spiked = [(o, top >= spike_from) for o in operations if (top := o.after.highest_early_mmhg) is not None]
    ends = [seen for o in operations if (seen := o.after.seen_on_its_own) is not None]
    states = [course.end for course in courses if course.end is not None]
    sights = [sight for course in courses if (sight := course.sight) is not None]
    calls = [call for course in courses for call in course.eye.callbacks]
    waits = [(call.claimed_at - call.opened_at) / timedelta(hours=1) for call in calls if call.claimed_at]
    return Results(
        eyes=len(courses),
        operations=len(operations),
        followed=len(ends),
        days_followed=sorted(day for day, _ in ends),
        attached=outcomes.kaplan_meier([day for day, _ in ends], [detached for _, detached in ends]),
        under_liquid=sum(o.after.detached_under_liquid for o in operations),
        once=_share(end.once for end in states),
        finally_attached=_share(end.state == "attached" for end in states),
        liquid_left=_share(end.state == "under-liquid" for end in states),
        better=_share(sight == "better" for sight in sights),
        worse=_share(sight == "worse" for sight in sights),
        spikes=_share(hit for _, hit in spiked),
        attended=_share(taken for course in courses for taken in _attendance(course.eye, now.astimezone(zone).date())),
        in_time=_share(
            call.settled_at is not None and call.moved_up == 0
            for call in calls
            if call.settled_at or call.moved_up or call.due_at < now
        ),
        hours_to_claim=median(waits) if waits else None,
        spikes_by_month=_by_month(spiked, zone),
    )


def _asked_for(eye: Eye, asked: Asked, now: datetime) -> list[Operated]:
    begun = [note for note, operation in eye.stages if operation.at <= now]
    stages = success.after_operations(eye.course, now, eye.known.ended_at)
    found = [(note, after) for note, after in zip(begun, stages, strict=True) if _includes(asked, note, after, eye.zone)]
    if not found:
        return []
    before = found[0][1].operation.baseline_acuity
    course = Course(eye, success.in_the_end(stages), before, success.last_acuity(eye.course, now))
    return [Operated(note, after, course) for note, after in found]


def _includes(asked: Asked, note: Note, after: AfterOperation, zone: tzinfo) -> bool:
    day = after.operation.at.astimezone(zone).date()
    return (
        asked.surgeon in (None, note.surgeon)
        and asked.agent in (None, after.operation.agent)
        and asked.indication in (None, after.operation.indication)
        and (asked.first_day is None or asked.first_day <= day)
        and (asked.last_day is None or day <= asked.last_day)
    )


def _attendance(eye: Eye, today: date) -> list[bool]:
    """Whether each visit whose time is over took place."""
    seen = eye.seen_visits
    return [v.identity in seen for v in eye.visits if v.latest < today]


def _by_month(spiked: Iterable[tuple[Operated, bool]], zone: tzinfo) -> list[ChartPoint]:
    months: dict[str, list[bool]] = defaultdict(list)
    for operated, hit in spiked:
        months[f"{operated.after.operation.at.astimezone(zone):%Y-%m}"].append(hit)
    return outcomes.proportion_chart([(month, sum(hits), len(hits)) for month, hits in sorted(months.items())])


def _share(hits: Iterable[bool]) -> Proportion | None:
    counted = list(hits)
    return outcomes.wilson(sum(counted), len(counted)) if counted else None
