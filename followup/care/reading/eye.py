"""One eye as the records have it: its operations, visits, events, warnings, and the course the core reads."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from functools import cached_property

from followup.care.desk import Desk
from followup.care.errors import NotFound
from followup.care.reading.attendance import attended
from followup.care.reading.events import fact_in_time
from followup.clinical import acuity, agents, drop_times, forecasts, posture, warnings
from followup.clinical.course import Course, PlannedVisit
from followup.clinical.coverage import Break
from followup.clinical.facts import Anaesthetic, Fact, GasTakenBack, Heard, Journey, Seen, Settled
from followup.clinical.surgery import Operation
from followup.clinical.timeline import Timeline
from followup.protocols import book
from followup.records import Store, events, eyes, protocols, visits, worries
from followup.records.bodies.home import BubbleSeenBody, DropsBody
from followup.records.operation_note import Drop, OperationNote
from followup.records.values import Callback, Event, FollowUp, Note, Patient, Signature, Visit, Warning, saying
from followup.records.values import Eye as KnownEye
from followup.records.watch import readable

# What is entered on one eye's page and is about the person: it counts for both eyes.
ABOUT_THE_PERSON = ("journey", "anaesthetic", "heard", "visit-request", "symptoms", "posture", "bubble-seen", "drops")


@dataclass(frozen=True)
class Eye:
    """Everything known of one eye, read once. An entry that cannot be read is left out, and named to staff.

    `notes` are those of its operations in order, `operations` what the core reads of them; both are empty for an eye that
    was never operated. `set_aside` are entries that cannot be read.
    """

    known: KnownEye
    notes: list[Note]
    operations: tuple[Operation, ...]
    visits: list[Visit]
    events: list[Event]
    warnings: list[Warning]
    callbacks: list[Callback]
    follow_ups: list[FollowUp]
    zone: tzinfo
    facts: tuple[Fact, ...]
    facts_beside: tuple[Fact, ...]
    set_aside: list[Event]

    @property
    def id(self) -> str:
        return self.known.id

    @property
    def side(self) -> str:
        return self.known.side

    @property
    def patient(self) -> Patient:
        return self.known.patient

    @property
    def operated(self) -> bool:
        return bool(self.operations)

    @property
    def operation(self) -> Operation:
        """The latest operation; only of an eye that was operated."""
        assert self.operations, "this eye was never operated"
        return self.operations[-1]

    @property
    def note(self) -> Note:
        """The note of the latest operation; only of an eye that was operated."""
        return self.notes[-1]

    @property
    def stages(self) -> list[tuple[Note, Operation]]:
        """Each operation's note, and what the core reads of it, in order."""
        return list(zip(self.notes, self.operations, strict=True))

    @property
    def agent(self) -> agents.Agent:
        return agents.AGENTS[self.operation.agent]

    @property
    def drops(self) -> tuple[Drop, ...]:
        """What was prescribed after the latest operation."""
        return self.note.body.drops if self.operated else ()

    @property
    def drop_plan(self) -> list[drop_times.Stretch]:
        """The same by day, from that of the operation on."""
        return drop_plan_of(self.note, self.zone) if self.operated else []

    def drops_said_taken(self, today: date) -> list[tuple[str, int, int]]:
        """By drop: its name, how many the patient said were taken on whole days before today, and of how many."""
        told = [(said.name, event.at.astimezone(self.zone)) for event, said in saying(self.events, DropsBody)]
        return drop_times.said_taken(self.drop_plan, told, today)

    @cached_property
    def course(self) -> Course:
        planned = tuple(PlannedVisit(v.name, v.earliest, v.latest, v.identity) for v in self.visits)
        seen = tuple(Seen(at, identity) for identity, at in self.seen_visits.items())
        here = tuple(f for f in self.facts if not isinstance(f, Seen))
        settled = tuple(Settled(c.settled_at, c.worry) for c in self.callbacks if c.settled_at)
        taken_up = [f.at for f in self.follow_ups if f.what == "resumed"]
        anew = [fact for at in taken_up for fact in (Heard(at), Settled(at))]  # silence counts anew, what lasts calls again
        facts = (*here, *self.facts_beside, *seen, *settled, *anew)
        who = self.patient
        return Course(self.side, self.operations, planned, facts, self.zone, who.has_app, who.reached_since)

    def timeline(self, now: datetime) -> Timeline:
        """The stage that stands: since the latest operation, or the whole where there was none."""
        return self.course.timeline(now)

    def forecast(self, now: datetime) -> forecasts.Forecast:
        """The forecast with every level seen up to now; only of an eye that was operated."""
        return self.timeline(now).forecasts[-1][1]

    def no_gas_by(self, now: datetime) -> bool:
        """Whether a clinician has recorded that no gas is left: all that lifts the travel caution."""
        return self.timeline(now).empty_at(now)

    @property
    def no_gas_record(self) -> Event | None:
        """The clinician's latest record that no gas was seen since the latest operation, whether gas was seen since or not."""
        since = self.operation.at
        return next((e for e in reversed(self.events) if e.kind == "no-gas-seen" and e.at >= since), None)

    def caution(self, now: datetime) -> bool:
        """Whether the flying and nitrous oxide caution stands."""
        return self.operated and self.operation.fades and not self.no_gas_by(now)

    def holds_liquid(self, now: datetime) -> bool:
        """Whether oil or a heavy liquid is in the eye."""
        return self.operated and self.operation.liquid and not self.no_gas_by(now)

    @cached_property
    def seen_visits(self) -> dict[str, datetime]:
        """When each visit that took place did, by the visit's identity."""
        return attended(self.visits, [e for e in self.events if e.kind == "seen"], self.zone)

    def watched_at(self, at: datetime) -> bool:
        """Whether a sign of that moment counts: of an eye that was not followed then, only what somebody entered.

        While follow-up is ended that is what came in after the end, so that no new rule goes through its past.
        """
        ended_at = self.known.ended_at
        if ended_at is None and self._followed_at(at):
            return True
        entered = [e.at for e in self.events if ended_at is None or e.received_at >= ended_at]
        return at in entered or any(fact.at == at for fact in self.facts_beside)

    def _followed_at(self, at: datetime) -> bool:
        return next((f.what for f in reversed(self.follow_ups) if f.at <= at), "begun") != "ended"

    @property
    def open_visits(self) -> list[Visit]:
        """Planned visits that have not taken place, by date."""
        return [v for v in self.visits if v.identity not in self.seen_visits]


def visit_of_today(open_visits: list[Visit], today: date) -> Visit | None:
    """The open visit that somebody who comes today comes for: one whose window holds today, the nearest of several."""
    fitting = [v for v in open_visits if v.holds(today)]
    return min(fitting, key=lambda v: abs((v.target - today).days), default=None)


def drop_plan_of(note: Note, zone: tzinfo) -> list[drop_times.Stretch]:
    """What a note prescribes by day, from that of its operation on."""
    prescribed = [(drop.name, step.times_a_day, step.until) for drop in note.body.drops for step in drop.every_step]
    return drop_times.stretches(prescribed, note.operated_at.astimezone(zone).date())


def operation_of(
    note: OperationNote, zone: tzinfo, side: str | None = None, entered_at: datetime | None = None
) -> Operation:
    """The clinical operation of a note, on the eye it names or on that of `side`. Raises `ClinicalError`."""
    before, plan = note.baseline, note.posture
    return Operation(
        eye=side or note.eye,
        at=note.operated_at,
        agent=note.agent,
        percent=note.percent,
        fill_percent=note.fill_percent,
        lens=note.lens,
        indication=note.indication,
        breaks=tuple(Break(site.clock, site.reach) for site in note.breaks),
        risks=frozenset(note.risks),
        steroid_drops_until=note.steroid_end(zone),
        baseline_acuity=acuity.read(before.acuity, before.notation) if before.acuity else None,
        baseline_iop_mmhg=before.iop_mmhg,
        plan=posture.Plan(plan.position, plan.hours_a_day, plan.days) if plan else None,
        height_metres=note.height_metres,
        entered_at=entered_at,
    )


def load(store: Store, eye_id: str, zone: tzinfo) -> Eye:
    """Read an eye; raises `NotFound`."""
    known = eyes.eye(store, eye_id)
    if known is None:
        raise NotFound("there is no such eye in the records")
    notes = eyes.notes_of(store, known.id)
    read, facts, set_aside = _read(store, events.of_eye(store, known.id))
    if any(event.kind == "no-gas-seen" for event in read):
        facts = (*facts, *_gas_taken_back(store, known.id))
    _, beside, _ = _read(store, events.beside(store, known.id, known.patient.id, ABOUT_THE_PERSON))
    return Eye(
        known,
        notes,
        tuple(operation_of(n.body, zone, known.side, n.entered_at) for n in notes),
        visits.of_eye(store, known.id),
        read,
        worries.warnings_of(store, known.id),
        worries.callbacks_of(store, known.id),
        eyes.follow_ups_of(store, known.id),
        zone,
        facts,
        tuple(f if isinstance(f, Journey | Anaesthetic) else Heard(f.at) for f in beside),
        set_aside,
    )


def _read(store: Store, found: list[Event]) -> tuple[list[Event], tuple[Fact, ...], list[Event]]:
    """The events that can be read, what they say, and those that cannot: each is noted, and none takes the eye down."""
    read = readable(store, "events", found, lambda event: (event, fact_in_time(event)))
    known = {event.id for event, _ in read}
    facts = tuple(fact for _, fact in read if fact is not None)
    return [event for event, _ in read], facts, [event for event in found if event.id not in known]


def _gas_taken_back(store: Store, eye_id: str) -> list[GasTakenBack]:
    """What was once said of gas revokes *no gas seen* for good: only the clinic lifts the caution again."""
    said = saying(events.levels_taken_back(store, eye_id), BubbleSeenBody)
    return [GasTakenBack(event.at) for event, body in said if body.percent > 0]


@dataclass(frozen=True)
class Protocol:
    """The text of one part that is in force, and who signed it (None for a draft)."""

    part: str
    text: str
    fingerprint: str
    signature: Signature | None

    @property
    def is_draft(self) -> bool:
        return self.signature is None


def protocol(store: Store, part: str) -> Protocol:
    """The clinic's own latest text of a part, else the draft that ships."""
    text = protocols.latest_text(store, part) or book.draft_text(part)
    mark = book.fingerprint(text)
    return Protocol(part, text, mark, protocols.signature(store, part, mark))


def rulebook(store: Store) -> warnings.Rulebook:
    return book.rulebook(protocol(store, "rulebook").text)


def looked_at(desk: Desk, eye_id: str) -> None:
    """Put on record who opened an eye's page."""
    with desk.store.transaction():
        eyes.add_look(desk.store, desk.now, eye_id, desk.actor.signature)
        desk.note("eye looked at", eye_id)
