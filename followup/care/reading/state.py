"""The current state of each patient: worked out from the facts, and kept so that lists and the clock need not read them all.

Whatever changes a patient's facts marks the state as old in the same transaction (the database's own triggers do that), and
whoever reads states asks for `bring_up_to_date` first: nobody ever reads an old one. A patient whose state cannot be worked
out is named as a fault and stays marked, and the clock looks at their eyes each time.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, time, timedelta, tzinfo
from functools import lru_cache

from followup.care.reading.attendance import attended
from followup.clinical.warnings import HOW_SOON
from followup.protocols import book
from followup.records import Store, events, eyes, messages, states, tasks, visits, watch, worries
from followup.records.bodies.clinic import ArrivedBody, DidNotComeBody
from followup.records.bodies.home import VisitRequestBody
from followup.records.states import State
from followup.records.values import Callback, CallState, Event, Eye, EyeState, Task, Visit, VisitState, WishState, saying

SHAPE = 6  # to be counted up whenever states hold something else than before
AT_A_TIME = 100
NO_URGENCY = len(HOW_SOON)


def bring_up_to_date(store: Store, now: datetime, zone: tzinfo) -> None:
    """Work out anew what changed; takes the write lock only where something did."""
    if states.made_how(store) != _how(zone):
        _all_anew(store, zone)
    failed: set[str] = set()
    changed = False
    while old := [id for id in states.changed(store, AT_A_TIME + len(failed)) if id not in failed]:
        changed = True
        with store.transaction():
            failed |= {id for id in old if not _make(store, id, now, zone)}
    if changed and not failed:
        watch.clear_all(store, "state")


def rebuild(store: Store, now: datetime, zone: tzinfo) -> None:
    """Make every state anew, whether it is old or not; the clock looks at every eye."""
    _all_anew(store, zone)
    bring_up_to_date(store, now, zone)


def _all_anew(store: Store, zone: tzinfo) -> None:
    with store.transaction():
        states.make_all_anew(store, _how(zone))


@lru_cache
def _how(zone: tzinfo) -> str:
    """What states depend on beside the facts: their shape, the zone of the clinic's days, and the rules that ship."""
    return f"{SHAPE} {zone} {book.fingerprint(book.draft_text('rulebook'))}"


def _make(store: Store, patient_id: str, now: datetime, zone: tzinfo) -> bool:
    """Whether it went well; what another process made meanwhile is made once more."""
    standing = states.standing(store, patient_id)
    try:
        found = state_of(store, standing, zone)
    except Exception as error:
        states.keep_old(store, standing)
        watch.note(store, now, "state", f"patient:{standing}", watch.words_of(error))
        return False
    if standing != patient_id:
        states.forget(store, patient_id)
    states.put(store, standing, found)
    return True


def state_of(store: Store, patient_id: str, zone: tzinfo) -> State:
    """What stands now of a patient, worked out from the facts alone."""
    open_ones = worries.open_of_person(store, patient_id)
    found_eyes: list[EyeState] = []
    found_visits: list[VisitState] = []
    wishes: list[WishState] = []
    for eye in eyes.followed_of(store, patient_id):
        of_eye = [c for c in open_ones if c.eye_id == eye.id]
        of_visits = _visits(store, eye, of_eye, zone)
        found_eyes.append(_eye(store, eye, of_eye, of_visits, zone))
        found_visits += (state for _, state in of_visits)
        wishes += wishes_of(store, eye.id, [v for v, _ in of_visits], {s.identity: s.seen_at for _, s in of_visits})
    return State(
        tuple(sorted(found_eyes, key=lambda e: e.eye_id)),
        tuple(sorted(found_visits, key=lambda v: v.identity)),
        tuple(sorted(wishes, key=lambda w: w.event_id)),
        _call(store, patient_id, open_ones) if open_ones else None,
    )


def wishes_of(
    store: Store, eye_id: str, planned: Sequence[Visit], seen_at: Mapping[str, datetime | None]
) -> Iterator[WishState]:
    """Wishes for another time that nobody has answered yet, each visit once, by its newest; `seen_at` by the visit's identity.

    Answered is one whose visit was moved, cancelled or took place since, or that somebody took back with a reason; to look
    at the eye answers nothing.
    """
    asked = events.visit_requests_of(store, eye_id)
    in_book = [*planned, *(visits.cancelled_of_eye(store, eye_id) if asked else ())]
    met: set[str] = set()
    for event, said in saying(asked, VisitRequestBody):
        visit = _meant(event, said, in_book, seen_at)
        answered = visit is not None and (seen_at.get(visit.identity) or _has_moved(store, visit, event.received_at))
        identity = visit.identity if visit else None
        about = {identity or said.visit} | ({said.visit} if identity != said.visit_id else set())
        if not answered and not about & met:
            met |= about
            yield WishState(event.id, eye_id, event.at, said.visit, identity, said.words)


def _meant(
    asked: Event, said: VisitRequestBody, in_book: Sequence[Visit], seen_at: Mapping[str, datetime | None]
) -> Visit | None:
    """The visit that was meant, if it was still to come when the wish came in; where a wish has its name alone, the last such.

    None where it had left the book by then: to take it out was no answer to what was asked later.
    """
    since = asked.received_at
    named = [v for v in in_book if v.identity == said.visit_id]
    known = named or [v for v in in_book if v.name == said.visit and v.entered_at <= since]
    by_then = [v for v in known if not (v.withdrawn and v.recorded_at <= since)]
    to_come = [v for v in by_then if (at := seen_at.get(v.identity)) is None or at > asked.received_at]
    return max(to_come, key=lambda v: v.target, default=None)


def _has_moved(store: Store, visit: Visit, since: datetime) -> bool:
    """Whether it was cancelled, or stands at another day or time than it did then; moved and put back it has not."""
    was: Visit | None = visit
    while was and was.replaces and was.recorded_at > since:
        was = visits.visit(store, was.replaces)
    return visit.withdrawn or was is None or (visit.target, visit.starts) != (was.target, was.starts)


def _visits(store: Store, eye: Eye, open_ones: Sequence[Callback], zone: tzinfo) -> list[tuple[Visit, VisitState]]:
    planned = visits.of_eye(store, eye.id)
    told = events.of_attendance(store, eye.id)
    seen = attended(planned, [e for e in told if e.kind == "seen"], zone)
    here = attended(planned, [e for e in told if e.kind == "arrived"], zone, latest=True)
    arrivals = {said.visit_id: e.id for e, said in saying(told, ArrivedBody)}
    away = {(said.visit_id, said.on) for _, said in saying(told, DidNotComeBody)}
    since = _stage_began(store, eye, zone)
    return [
        (
            v,
            VisitState(
                identity=v.identity,
                visit_id=v.id,
                eye_id=eye.id,
                target=v.target,
                latest=v.latest,
                hour=f"{v.starts:%H:%M}" if v.starts else states.NO_HOUR,
                urgency=HOW_SOON.index(open_ones[0].how_soon) if open_ones else NO_URGENCY,
                name=eye.patient.name,
                waited=v.identity not in seen and v.latest >= since,
                away=(v.identity, v.target) in away,
                seen_at=seen.get(v.identity),
                here_at=here.get(v.identity),
                arrival=arrivals.get(v.identity, ""),
            ),
        )
        for v in planned
    ]


def seen(store: Store, eye_id: str, zone: tzinfo) -> dict[str, datetime]:
    """When each visit of an eye that took place did, by the visit's identity."""
    told = [e for e in events.of_attendance(store, eye_id) if e.kind == "seen"]
    return attended(visits.of_eye(store, eye_id), told, zone)


def _stage_began(store: Store, eye: Eye, zone: tzinfo) -> date:
    """The day of the latest operation or of taking follow-up up again: what was missed before is waited for no more."""
    resumed = [f.at for f in eyes.follow_ups_of(store, eye.id) if f.what == "resumed"]
    times = [*([eye.note.operated_at] if eye.note else []), *resumed]
    return max((at.astimezone(zone).date() for at in times), default=date.min)


def _eye(
    store: Store, eye: Eye, open_ones: Sequence[Callback], of_visits: Sequence[tuple[Visit, VisitState]], zone: tzinfo
) -> EyeState:
    assert eye.note is not None
    worst = open_ones[0] if open_ones else None
    first = next((v for v, state in of_visits if state.waited), None)
    posture_from, posture_until = _posturing(eye, zone)
    return EyeState(
        eye_id=eye.id,
        agent=eye.agent,
        operated_at=eye.note.operated_at,
        posture_from=posture_from,
        posture_until=posture_until,
        drops_until=_drops_until(store, eye),
        next_visit=first.identity if first else None,
        next_earliest=first.earliest if first else None,
        next_target=first.target if first else None,
        next_latest=first.latest if first else None,
        how_soon=worst.how_soon if worst else None,
        worry=worst.worry if worst else "",
        worry_since=worst.opened_at if worst else None,
        worry_due_at=worst.due_at if worst else None,
        reason=_reason(store, worst, len(open_ones)) if worst else "",
        last_heard=events.last_heard_of(store, eye.id),
        last_measures=events.last_measures_of(store, eye.id),
        unplanned_since=None if open_ones or first else _unplanned_since(store, eye, [s for _, s in of_visits]),
    )


def _unplanned_since(store: Store, eye: Eye, of_visits: Iterable[VisitState]) -> datetime | None:
    """Where no visit is waited for and nothing is open: since what was planned last came, left the book or was settled.

    None where theatre is to come.
    """
    if tasks.theatre_to_come(store, eye.id):
        return None
    ended = [
        *(f.at for f in eyes.follow_ups_of(store, eye.id) if f.what != "ended"),
        *(note.entered_at for note in eyes.notes_of(store, eye.id)),
        *(v.seen_at for v in of_visits),
        *(v.recorded_at for v in visits.cancelled_of_eye(store, eye.id)),
        *(c.settled_at for c in worries.callbacks_of(store, eye.id)),
    ]
    return max((at for at in ended if at), default=eye.followed_since)


def _posturing(eye: Eye, zone: tzinfo) -> tuple[date | None, date | None]:
    assert eye.note is not None
    plan = eye.note.body.posture
    if not plan:
        return None, None
    first = eye.note.operated_at.astimezone(zone).date()
    return first, first + timedelta(days=plan.days)


def _drops_until(store: Store, eye: Eye) -> date | None:
    """The last day of drops, where the patient wants to be reminded of them."""
    assert eye.note is not None
    last = max((drop.until for drop in eye.note.body.drops), default=None)
    return last if last and messages.wants(store, f"patient:{eye.patient.id}", "drops") else None


def _reason(store: Store, worst: Callback, many: int) -> str:
    raised = worries.warnings_of_callback(store, worst.id)
    more = f" And {many - 1} more." if many > 1 else ""
    if not raised:
        return f"What raised this callback cannot be read.{more}"
    return raised[0].words + (" Rests on an entry that was put right." if raised[0].unfounded else "") + more


def _call(store: Store, patient_id: str, open_ones: Sequence[Callback]) -> CallState:
    worst = open_ones[0]
    to_do = [t for of_one in tasks.open_of(store, [c.id for c in open_ones]).values() for t in of_one]
    return CallState(
        urgency=HOW_SOON.index(worst.how_soon),
        since=worst.opened_at,
        first=worst.id,
        level=max(c.level for c in open_ones),
        decided=all(c.state == "to-do" for c in open_ones),
        people=tuple(sorted(set(_people(store, patient_id, open_ones, to_do)))),
    )


def _people(store: Store, patient_id: str, open_ones: Sequence[Callback], to_do: Iterable[Task]) -> Iterator[str]:
    """Who operated on an eye that is worried about (on either, where that one never was), who has what, who is to do what."""
    both = eyes.of_patient(store, patient_id)
    worried = {c.eye_id for c in open_ones}
    for eye in (eye for eye in both if eye.id in worried):
        yield from (f"surgeon:{e.note.surgeon}" for e in ([eye] if eye.note else both) if e.note)
    yield from (f"has:{c.claimed_by}" for c in open_ones if c.state == "claimed")
    yield from (f"task:{t.owner}" for t in to_do if t.owner)


def differences(store: Store, zone: tzinfo) -> list[str]:
    """Where the kept states are not what the facts say; ask when none are old, so that each is a fault."""
    found = [f"the state of {id}, which is no record that stands" for id in states.strays(store)]
    for id in states.patients(store):
        was, stands = _by_name(states.kept(store, id)), _by_name(state_of(store, id, zone))
        wrong = sorted(name for name in was.keys() | stands.keys() if was.get(name) != stands.get(name))
        found += (f"the state of {name} is not what the facts say" for name in wrong)
    return found


def _by_name(state: State) -> dict[str, object]:
    return {
        **{f"eye {eye.eye_id}": eye for eye in state.eyes},
        **{f"visit {visit.identity}": visit for visit in state.visits},
        **{f"wish {wish.event_id}": wish for wish in state.wishes},
        **({f"the call about {state.call.first}": state.call} if state.call else {}),
    }


def midnight(now: datetime, zone: tzinfo) -> datetime:
    """The instant at which the local day of `now` began."""
    return datetime.combine(now.astimezone(zone).date(), time(), zone)
