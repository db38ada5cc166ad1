"""One call for a patient as its page shows it, with all that a caller needs."""

from dataclasses import dataclass
from itertools import groupby

from followup.care.callbacks.asking import without_repeats
from followup.care.callbacks.deciding import can_undo, made_for
from followup.care.callbacks.holding import callers, has_in_hand, known_callback, open_of_patient, who_may
from followup.care.callbacks.kinds import usual_decision
from followup.care.callbacks.lines import one_for_each_decision
from followup.care.desk import Desk
from followup.care.reading.eye import Eye, load, rulebook
from followup.care.reading.person import both_eyes, last_reading
from followup.clinical.warnings import HOW_SOON
from followup.records import Store, worries
from followup.records.values import Callback, Event, Patient, Staff, Step, Task, Warning


@dataclass(frozen=True)
class Worry:
    """One callback of a call: why, what was done, what is to do; `rest` are warnings that say less of the same moment."""

    callback: Callback
    side: str
    warnings: list[Warning]
    rest: list[Warning]
    steps: list[Step]
    in_hand: bool


@dataclass(frozen=True)
class Reading:
    """What was measured last on an eye."""

    acuity: Event | None
    iop_mmhg: Event | None


@dataclass(frozen=True)
class Call:
    """One call for a patient: the callback asked for, every open worry of both eyes the worst first, what the rules ask, once,
    and what the reader may do. `callers` are the names, by staff id, of others who are about to call.
    """

    callback: Callback
    eye: Eye
    patient: Patient
    eyes: list[Eye]
    readings: dict[str, Reading]
    worries: list[Worry]
    asks: list[str]
    tasks: list[Task]
    decisions: int
    mine: bool
    callers: dict[str, str]
    undoable: bool
    owners: list[Staff]

    @property
    def open(self) -> list[Worry]:
        return [one for one in self.worries if one.callback.state != "settled"]

    @property
    def undecided(self) -> list[Worry]:
        """What the reader has in hand and nobody has decided: an outcome may be given for these."""
        return [one for one in self.open if one.in_hand and one.callback.state == "claimed"]

    @property
    def worst(self) -> Callback:
        return self.worries[0].callback

    @property
    def usual(self) -> tuple[Callback, str] | None:
        """What is mostly decided about what is open, and for which worry: that which brings the eye in soonest."""
        weights = ("advice", "sooner", "same-day")
        about = [(one.callback, usual_decision(one.callback.worry, one.callback.how_soon)) for one in self.open]
        return max(about, key=lambda pair: weights.index(pair[1]), default=None)

    @property
    def waiting(self) -> bool:
        return any(one.callback.state == "waiting" for one in self.open)

    @property
    def warnings(self) -> list[Warning]:
        return [w for one in self.worries for w in (*one.warnings, *one.rest)]

    @property
    def proposed(self) -> list[str]:
        """What an outcome is proposed for: the worries of the eye of the worst one, since what helps one eye may not the other."""
        return [one.callback.id for one in self.open if one.callback.eye_id == self.worst.eye_id]


def call(desk: Desk, callback_id: str) -> Call:
    """The call of that callback's patient; of a settled one alone where nothing else is open. Raises `NotFound`."""
    store = desk.store
    found = known_callback(store, callback_id)
    open_ones = open_of_patient(store, found)
    shown = open_ones if found.state != "settled" else [found, *open_ones]
    eye = load(store, found.eye_id, desk.zone)
    both = both_eyes(store, eye.patient.id, desk.zone)
    made = made_for(store, open_ones)
    sides = {one.id: one.side for one in both}
    told = [_worry(desk, c, sides[c.eye_id]) for c in shown]
    return Call(
        callback=found,
        eye=eye,
        patient=eye.patient,
        eyes=both,
        readings={one.id: Reading(last_reading(one, "acuity"), last_reading(one, "iop_mmhg")) for one in both},
        worries=told,
        asks=_asks(store, told),
        tasks=one_for_each_decision(t for t in made if t.done_at is None),
        decisions=len(made),
        mine=any(one.in_hand for one in told),
        callers=callers(desk, open_ones),
        undoable=can_undo(desk, found),
        owners=who_may(store),
    )


def _worry(desk: Desk, found: Callback, side: str) -> Worry:
    raised = worries.warnings_of_callback(desk.store, found.id)
    by_moment = [
        list(same) for _, same in groupby(sorted(raised, key=lambda w: w.raised_at, reverse=True), lambda w: w.raised_at)
    ]
    worst = [min(same, key=lambda w: HOW_SOON.index(w.how_soon)) for same in by_moment]
    told = sorted(worst, key=lambda w: HOW_SOON.index(w.how_soon))
    steps = worries.steps_of(desk.store, found.id)
    return Worry(found, side, told, [w for w in raised if w not in worst], steps, has_in_hand(desk, found))


def _asks(store: Store, told: list[Worry]) -> list[str]:
    """What the rules of everything open ask, each question once."""
    rules = {rule.id: rule for rule in rulebook(store).rules}
    raised = [w for one in told if one.callback.state != "settled" for w in (*one.warnings, *one.rest)]
    return without_repeats(question for w in raised if w.rule in rules for question in rules[w.rule].ask)
