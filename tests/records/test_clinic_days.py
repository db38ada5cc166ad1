"""The clinic's day as lists and reminders see it: where it begins, also on the night of a change to summer time, and pages.

Summer time begins on the last Sunday of March at 1 h UTC and ends on the last Sunday of October: Directive 2000/84/EC,
articles 2 and 3.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from followup.records import Store, call_lists, day_lists, eyes, messages, patients, states
from followup.records.day_lists import Day
from followup.records.states import State
from followup.records.store import new_id
from followup.records.values import CallState, EyeState, VisitState, WishState
from tests.conftest import NOW, ZONE
from tests.records.rows import known, left, operated, person, right

TODAY = date(2027, 3, 5)
TOMORROW, YESTERDAY = TODAY + timedelta(days=1), TODAY - timedelta(days=1)
SPRING, AUTUMN = date(2027, 3, 28), date(2027, 10, 31)  # days of 23 and of 25 hours
ME = call_lists.Reader("me", "Sol Surgeon")


def day(on: date = TODAY, ahead: int = 7) -> Day:
    return Day(on, datetime.combine(on, time(), ZONE), on + timedelta(days=ahead))


def expected(store: Store, on: date = TODAY, **changes: Any) -> str:
    """A visit of a new patient's right eye, as its state has it; returns its identity."""
    patient = person(store, new_id())
    usual = VisitState(
        new_id(), new_id(), right(store, patient).id, on, on, states.NO_HOUR, 3, "Ada Ash", True, False, None, None, ""
    )
    visit = replace(usual, **changes)
    states.put(store, patient.id, State((), (visit,), (), None))
    return visit.identity


def listed(store: Store, kind: str, on: Day, **page: Any) -> list[str]:
    return [v.identity for _, v in day_lists.on_list(store, [kind], on, **page)]


# --- Where a day begins ---


@pytest.mark.parametrize(
    ("on", "begins"), [(SPRING, 23), (SPRING + timedelta(days=1), 22), (AUTUMN, 22), (AUTUMN + timedelta(days=1), 23)]
)
def test_a_day_begins_at_its_own_midnight(on: date, begins: int) -> None:
    at = day(on).row["midnight"]
    assert at == f"{on - timedelta(days=1)}T{begins}:00:00.000000Z"


@pytest.mark.parametrize("on", [TODAY, SPRING, SPRING + timedelta(days=1), AUTUMN, AUTUMN + timedelta(days=1)])
@pytest.mark.parametrize(("seconds", "kind"), [(0, "here"), (-1, "due")])
def test_who_came_since_midnight_is_here(store: Store, on: date, seconds: int, kind: str) -> None:
    came = datetime.combine(on, time(), ZONE).astimezone(UTC) + timedelta(seconds=seconds)
    identity = expected(store, on, here_at=came)
    assert {k: listed(store, k, day(on)) for k in ("here", "due")} == {"here": [], "due": [], kind: [identity]}


@pytest.mark.parametrize("on", [SPRING, AUTUMN])
@pytest.mark.parametrize(("seconds", "seen"), [(0, True), (-1, False)])
def test_who_was_seen_since_midnight_was_seen_today(store: Store, on: date, seconds: int, seen: bool) -> None:
    at = datetime.combine(on, time(), ZONE).astimezone(UTC) + timedelta(seconds=seconds)
    identity = expected(store, on, waited=False, seen_at=at)
    assert listed(store, "seen", day(on)) == ([identity] if seen else [])
    assert day_lists.count_on_list(store, day(on))["seen"] == (int(seen), 0)


@pytest.mark.parametrize("changes", [{}, {"away": True}, {"here_at": NOW - timedelta(days=1)}])
def test_what_lies_beyond_the_days_shown_is_not_on_the_list(store: Store, changes: dict[str, Any]) -> None:
    expected(store, TODAY + timedelta(days=8), **changes)
    assert day_lists.on_list(store, day_lists.LIST_STATES, day()) == []
    assert set(day_lists.count_on_list(store, day()).values()) == {(0, 0)}


@pytest.mark.parametrize(("changes", "kind"), [({"here_at": NOW}, "here"), ({"seen_at": NOW, "waited": False}, "seen")])
def test_who_came_weeks_before_the_day_of_their_visit_is_on_todays_list(
    store: Store, changes: dict[str, Any], kind: str
) -> None:
    identity = expected(store, TODAY + timedelta(days=21), **changes)
    assert listed(store, kind, day()) == [identity]
    assert day_lists.count_on_list(store, day())[kind] == (1, 0)


@pytest.mark.parametrize(
    ("changes", "kind"),
    [({"here_at": NOW}, "here"), ({"away": True}, "missed"), ({"seen_at": NOW, "waited": False}, "seen"), ({}, "coming")],
)
def test_the_last_day_shown_is_on_the_list(store: Store, changes: dict[str, Any], kind: str) -> None:
    identity = expected(store, TODAY + timedelta(days=7), **changes)
    assert listed(store, kind, day()) == [identity]
    assert day_lists.count_on_list(store, day())[kind] == (1, 0)


# --- Pages ---


def test_pages_of_a_list_hold_every_visit_once_also_where_nothing_tells_them_apart(store: Store) -> None:
    all_of_them = {expected(store) for _ in range(7)}
    pages = [listed(store, "due", day(), most=3, after=after) for after in (0, 3, 6, 9)]
    assert [len(page) for page in pages] == [3, 3, 1, 0]
    assert {identity for page in pages for identity in page} == all_of_them
    assert listed(store, "due", day()) == sorted(all_of_them)


def test_a_list_of_several_kinds_is_in_one_order_and_says_which_each_is(store: Store) -> None:
    made = [
        expected(store, on, **changes)
        for on, changes in (
            (TOMORROW, {}),
            (TODAY, {"here_at": NOW}),
            (YESTERDAY, {"latest": YESTERDAY}),
            (TODAY, {"hour": "08:00"}),
        )
    ]
    found = day_lists.on_list(store, ("coming", "here", "due", "missed"), day())
    assert [(kind, made.index(v.identity)) for kind, v in found] == [("missed", 2), ("due", 3), ("here", 1), ("coming", 0)]


def test_counts_of_a_list_are_those_of_its_pages(store: Store) -> None:
    for n in range(6):
        expected(store, urgency=n % 4)
    assert day_lists.count_on_list(store, day())["due"] == (6, 5)
    assert len(listed(store, "due", day(), signs=True)) == 5
    assert len(listed(store, "due", day(), signs=True, most=2, after=4)) == 1


def calls(store: Store, *of: dict[str, Any]) -> list[str]:
    """A patient with something open for each; in the order made."""
    made = []
    for changes in of:
        patient = person(store, new_id())
        states.put(store, patient.id, State((), (), (), replace(CallState(1, NOW, "c", 0, False, ()), **changes)))
        made.append(patient.id)
    return made


def test_calls_since_one_instant_stand_by_their_first_callback(store: Store) -> None:
    made = calls(store, {"first": "b"}, {"first": "c"}, {"first": "a"})
    assert [made.index(id) for id in call_lists.calls(store, 9, 0)] == [2, 0, 1]
    assert [made.index(id) for id in call_lists.calls_of_part(store, ME, "colleagues", 9, 0)] == [2, 0, 1]


def test_pages_of_calls_go_on_where_the_one_before_ended(store: Store) -> None:
    made = calls(store, *({"first": f"{n}"} for n in range(5)))
    assert [call_lists.calls(store, 2, after) for after in (0, 2, 4, 6)] == [made[:2], made[2:4], made[4:], []]
    assert call_lists.calls_of_part(store, ME, "colleagues", 2, 3) == made[3:]


def test_nobody_in_hand_and_nothing_open_counts_nothing(store: Store) -> None:
    assert (call_lists.calls(store, 9, 0), call_lists.count_calls(store)) == ([], 0)
    assert call_lists.count_parts(store, ME) == dict.fromkeys(("mine", "moved_up", "colleagues", "decided"), (0, 0))


def test_parts_are_counted_with_how_many_of_each_are_for_now(store: Store) -> None:
    mine = ("has:me",)
    calls(
        store, {"urgency": 0}, {}, {"urgency": 0, "people": mine}, {"people": mine}, {"people": mine},
        {"level": 1, "urgency": 0}, {"decided": True}, {"decided": True, "urgency": 0, "people": ("has:you",)},
    )  # fmt: skip
    assert call_lists.count_parts(store, ME) == {
        "mine": (3, 1), "moved_up": (1, 1), "colleagues": (2, 1), "decided": (2, 1),
    }  # fmt: skip


def test_a_call_of_several_reasons_to_be_mine_counts_once(store: Store) -> None:
    made = calls(store, {"people": ("has:me", "task:me", "surgeon:Sol Surgeon")})
    assert call_lists.calls_of_part(store, ME, "mine", 9, 0) == made
    assert call_lists.count_parts(store, ME)["mine"] == (1, 0)


# --- Days on which something stands ---


def test_days_with_visits_that_did_not_take_place_are_stepped_through(store: Store) -> None:
    for days in (0, 1, 1, 4, 9, 10):
        expected(store, TODAY + timedelta(days=days))
    expected(store, TODAY + timedelta(days=2), seen_at=NOW, waited=False)
    found = day_lists.days_unseen(store, TODAY, TODAY + timedelta(days=9))
    assert [(d - TODAY).days for d in found] == [1, 4, 9]


@pytest.mark.parametrize(
    ("after", "until"), [(TODAY, TODAY), (TOMORROW, TODAY), (TODAY + timedelta(days=30), date(2028, 1, 1))]
)
def test_between_days_that_hold_nothing_there_is_none(store: Store, after: date, until: date) -> None:
    expected(store, TODAY)
    assert day_lists.days_unseen(store, after, until) == []


def test_what_stands_on_a_day_is_read_by_name(store: Store) -> None:
    made = {name: expected(store, name=name) for name in ("Cleo Clay", "Abe Ash", "Bea Birch")}
    assert [v.identity for v in day_lists.unseen_on(store, [TODAY])] == [
        made[n] for n in ("Abe Ash", "Bea Birch", "Cleo Clay")
    ]


def test_wishes_of_one_instant_stand_the_latest_entry_first_and_empty_ones_nowhere(store: Store) -> None:
    patient = person(store)
    wishes = tuple(WishState(id, right(store, patient).id, NOW, "week 1", None, "") for id in ("a", "c", "b"))
    states.put(store, patient.id, State((), (), wishes, None))
    assert [w.event_id for w in day_lists.wishes(store, -1)] == ["c", "b", "a"]
    assert [w.event_id for w in day_lists.wishes(store, 2)] == ["c", "b"]


# --- Reminders and the clock ---

EYE = EyeState("", "c2f6", NOW, None, None, None, None, None, None, None, None, "", None, None, "", None, None, None)


def with_eye(store: Store, **changes: Any) -> tuple[str, str]:
    patient = person(store, new_id())
    eye = right(store, patient).id
    states.put(store, patient.id, State((replace(EYE, eye_id=eye, **changes),), (), (), None))
    return patient.id, eye


def reachable(store: Store, patient: str, how: str) -> None:
    if how == "e-mail":
        chosen = {"email": "pat@test.invalid", "language": "en", "quiet_from": "", "quiet_to": "", "unwanted": ()}
        messages.keep_choices(store, NOW, f"patient:{patient}", chosen)
    if how == "push":
        messages.subscribe(store, NOW, f"patient:{patient}", "https://push.invalid/x", "p", "a")


@pytest.mark.parametrize(("how", "reminded"), [("e-mail", True), ("push", True), ("nothing", False)])
def test_who_chose_a_way_is_reminded_of_posture(store: Store, how: str, reminded: bool) -> None:
    patient, eye = with_eye(store, posture_from=YESTERDAY, posture_until=TOMORROW)
    reachable(store, patient, how)
    assert [id for id, _ in states.to_remind_of_posture(store, TODAY, "posture:", NOW)] == [eye] * reminded


def test_a_reminder_that_was_made_is_not_made_again_and_of_the_next_time_it_is(store: Store) -> None:
    patient, eye = with_eye(store, posture_from=YESTERDAY, posture_until=TOMORROW)
    reachable(store, patient, "push")
    messages.add(store, NOW, f"posture:{eye}:{NOW.isoformat()}", f"patient:{patient}", "posture", eye, NOW)
    assert states.to_remind_of_posture(store, TODAY, "posture:", NOW) == []
    assert len(states.to_remind_of_posture(store, TODAY, "posture:", NOW + timedelta(hours=1))) == 1


def test_a_moved_visit_is_reminded_of_anew(store: Store) -> None:
    expected(store, TOMORROW, visit_id="second version")
    (patient,) = {row["patient_id"] for row in store.rows("SELECT patient_id FROM visit_states")}
    reachable(store, patient, "e-mail")
    messages.add(store, NOW, "visit:first version", f"patient:{patient}", "visit", "v", NOW)
    assert len(states.to_remind_of_visit(store, TOMORROW, "visit:")) == 1
    messages.add(store, NOW, "visit:second version", f"patient:{patient}", "visit", "v", NOW)
    assert states.to_remind_of_visit(store, TOMORROW, "visit:") == []


def test_drops_that_nobody_wants_to_be_reminded_of_are_never_thought_of(store: Store) -> None:
    with_eye(store, drops_until=None)
    patient, wanted = with_eye(store, drops_until=TODAY)
    reachable(store, patient, "e-mail")
    assert list(states.to_remind_of_drops(store, NOW)) == [wanted]


def test_eyes_are_looked_at_the_longest_overdue_first(store: Store) -> None:
    made = [with_eye(store)[1] for _ in range(3)]
    versions = dict(states.to_look_at(store, NOW))
    hours = dict(zip(made, (2, 0, 1), strict=True))
    states.look_again(store, [(eye, versions[eye], NOW + timedelta(hours=hours[eye])) for eye in made])
    assert [made.index(eye) for eye, _ in states.to_look_at(store, NOW + timedelta(hours=2))] == [1, 2, 0]
    assert [made.index(eye) for eye, _ in states.to_look_at(store, NOW + timedelta(hours=1))] == [1, 2]


@pytest.mark.parametrize("how", ["ended", "never followed"])
def test_a_changed_patient_whose_eye_is_not_followed_is_not_looked_at(store: Store, how: str) -> None:
    eye = right(store, person(store)).id
    if how == "ended":
        operated(store, eye)
        eyes.end(store, NOW, eye, "healed")
    assert states.to_look_at(store, NOW) == []


def test_what_changed_of_a_joined_record_is_looked_at_as_the_eye_that_stands(store: Store) -> None:
    old, kept = person(store, "N-1"), person(store, "N-2")
    operated(store, right(store, old).id)
    patients.join(store, old.id, kept.id)
    assert {eye for eye, _ in states.to_look_at(store, NOW)} == {right(store, kept).id}
    assert states.standing(store, old.id) == kept.id
    assert states.standing(store, "none") == "none"


def test_a_state_forgotten_is_neither_kept_nor_old_and_its_results_are(store: Store) -> None:
    patient, _ = with_eye(store)
    store.execute("DELETE FROM changed_results")
    states.forget(store, patient)
    assert states.kept(store, patient) == State((), (), (), None)
    assert patient not in states.changed(store, 99)
    assert [row["patient_id"] for row in store.rows("SELECT patient_id FROM changed_results")] == [patient]


def test_a_patients_state_is_read_in_one_order_however_it_was_put(store: Store) -> None:
    patient = person(store)
    both = (replace(EYE, eye_id="b"), replace(EYE, eye_id="a"))
    call = CallState(0, NOW, "c", 0, False, ("task:x", "has:x"))
    states.put(store, patient.id, State(both, (), (), call))
    found = states.kept(store, patient.id)
    assert [eye.eye_id for eye in found.eyes] == ["a", "b"]
    assert known(found.call).people == ("has:x", "task:x")


def test_what_another_record_had_until_now_moves_to_the_one_that_stands(store: Store) -> None:
    first, second = person(store, "N-1"), person(store, "N-2")
    eye = replace(EYE, eye_id=left(store, first).id)
    for patient in (first, second):
        states.put(store, patient.id, State((eye,), (), (), None))
    assert (states.kept(store, first.id).eyes, states.kept(store, second.id).eyes) == ((), (eye,))
