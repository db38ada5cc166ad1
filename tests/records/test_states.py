"""The kept states as rows: whose are old, whom to remind, where the clock must look, and the lists drawn from them."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from followup.records import Store, call_lists, consents, day_lists, eyes, messages, patients, people, states, worries
from followup.records.store import new_id
from followup.records.values import CallState, EyeState, VisitState, WishState
from tests.conftest import NOW, ZONE

TODAY = date(2027, 3, 5)
MIDNIGHT = datetime.combine(TODAY, datetime.min.time(), ZONE)
DAY = day_lists.Day(TODAY, MIDNIGHT, TODAY + timedelta(days=7))
ME = call_lists.Reader("me", "Sol Surgeon")
CALL = CallState(1, NOW, "c", 0, False, ())
VISIT = VisitState("", "", "", TODAY, TODAY, states.NO_HOUR, 3, "Ada Ash", True, False, None, None, "")
EYE = EyeState(
    eye_id="", agent="c2f6", operated_at=NOW, posture_from=None, posture_until=None, drops_until=None, next_visit=None,
    next_earliest=None, next_target=None, next_latest=None, how_soon=None, worry="", worry_since=None, worry_due_at=None,
    reason="", last_heard=None, last_measures=None, unplanned_since=None,
)  # fmt: skip


def person(store: Store) -> tuple[str, str]:
    """(patient, their right eye)."""
    id = patients.add(store, NOW, new_id(), "Ada Ash", date(1950, 1, 2), "", "en")
    return id, eyes.of_patient(store, id)[0].id


def with_visit(store: Store, **changes: Any) -> str:
    """A patient whose state is one visit; returns its identity."""
    patient, eye = person(store)
    visit = replace(VISIT, identity=new_id(), visit_id=new_id(), eye_id=eye, **changes)
    states.put(store, patient, states.State((), (visit,), (), None))
    return visit.identity


def with_call(store: Store, **changes: Any) -> str:
    """A patient with something open; returns the patient."""
    patient, _ = person(store)
    states.put(store, patient, states.State((), (), (), replace(CALL, **changes)))
    return patient


def with_eye(store: Store, **changes: Any) -> tuple[str, str]:
    """A patient whose state is one followed eye; returns both."""
    patient, eye = person(store)
    states.put(store, patient, states.State((replace(EYE, eye_id=eye, **changes),), (), (), None))
    return patient, eye


def test_a_state_is_read_as_it_was_put_and_is_not_old_any_more(store: Store) -> None:
    patient, eye = person(store)
    assert patient in states.changed(store, 99)
    wish = WishState(new_id(), eye, NOW, "week 1", None, "not in the morning")
    whole = states.State(
        (replace(EYE, eye_id=eye, posture_from=TODAY, last_heard=NOW),),
        (replace(VISIT, identity="v", visit_id="v1", eye_id=eye, here_at=NOW),),
        (wish,),
        replace(CALL, people=("has:me", "surgeon:Sol Surgeon")),
    )
    states.put(store, patient, whole)
    assert states.kept(store, patient) == whole
    assert patient not in states.changed(store, 99)
    states.put(store, patient, states.State((), (), (), None))
    assert states.kept(store, patient) == states.State((), (), (), None)


def test_whatever_is_recorded_about_an_eye_makes_its_patients_state_old(store: Store) -> None:
    patient, eye = with_eye(store)
    assert patient not in states.changed(store, 99)
    eyes.begin(store, NOW, eye)
    assert patient in states.changed(store, 99)


def test_a_state_that_could_not_be_made_stays_old_and_is_looked_at(store: Store) -> None:
    patient, eye = with_eye(store)
    version = dict(states.to_look_at(store, NOW))[eye]
    states.look_again(store, [(eye, version, NOW + timedelta(days=1))])
    assert eye not in dict(states.to_look_at(store, NOW))
    states.keep_old(store, patient)
    assert eye in dict(states.to_look_at(store, NOW))


def test_the_clock_looks_again_at_its_time_and_not_at_a_state_made_since(store: Store) -> None:
    patient, eye = with_eye(store)
    version, at = dict(states.to_look_at(store, NOW))[eye], NOW + timedelta(hours=3)
    states.look_again(store, [(eye, version, at)])
    assert states.looks(store)[eye] == at
    assert [eye in dict(states.to_look_at(store, now)) for now in (at - timedelta(seconds=1), at)] == [False, True]
    states.put(store, patient, states.kept(store, patient))
    states.look_again(store, [(eye, version, at)])
    assert states.looks(store)[eye] is None


def test_a_followed_eye_whose_state_was_never_made_is_looked_at(store: Store) -> None:
    _, eye = person(store)
    eyes.begin(store, NOW, eye)
    assert dict(states.to_look_at(store, NOW))[eye] == ""


def test_states_of_records_that_do_not_stand_are_strays(store: Store) -> None:
    patient, _ = with_eye(store)
    other, _ = person(store)
    assert states.strays(store) == []
    patients.join(store, patient, other)
    assert states.strays(store) == [patient]
    assert states.standing(store, patient) == other
    assert patient not in states.patients(store)


def test_all_states_are_old_once_they_are_made_otherwise(store: Store) -> None:
    patient, _ = with_eye(store)
    states.make_all_anew(store, "by another rulebook")
    assert states.made_how(store) == "by another rulebook"
    assert patient in states.changed(store, 99)
    assert len(states.changed(store, 1)) == 1


@pytest.mark.parametrize("has", ["nothing", "a followed eye", "a call", "a kept state"])
def test_of_all_only_who_has_something_to_show_is_made_anew_and_everybodys_results(store: Store, has: str) -> None:
    patient, eye = person(store)
    if has == "a followed eye":
        eyes.begin(store, NOW, eye)
    if has == "a call":
        worries.add_callback(store, eye, "pressure", "today", NOW, NOW)
    if has == "a kept state":
        states.put(store, patient, states.State((), (), (), CALL))
    for table in ("changed_patients", "changed_results"):
        store.execute(f"DELETE FROM {table}")
    states.make_all_anew(store, "by another rulebook")
    assert states.changed(store, 9) == ([] if has == "nothing" else [patient])
    assert [row["patient_id"] for row in store.rows("SELECT patient_id FROM changed_results")] == [patient]


def test_the_states_of_some_eyes(store: Store) -> None:
    _, eye = with_eye(store)
    with_eye(store)
    assert list(states.of_eyes(store, [eye, "none"])) == [eye]
    assert states.of_eyes(store, []) == {}


def chose(store: Store, patient: str, email: str = "p@test.invalid", unwanted: Sequence[str] = ()) -> None:
    """The patient said how to be reached."""
    chosen = {"email": email, "language": "en", "quiet_from": "", "quiet_to": "", "unwanted": unwanted}
    messages.keep_choices(store, NOW, f"patient:{patient}", chosen)


def test_posturing_eyes_are_reminded_between_the_days_and_once(store: Store) -> None:
    patient, eye = with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))
    with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))  # of somebody who chose nothing
    chose(store, patient)

    def reminded(days: int) -> list[str]:
        return [id for id, _ in states.to_remind_of_posture(store, TODAY + timedelta(days=days), "posture:", NOW)]

    assert [reminded(days) for days in range(4)] == [[], [eye], [eye], []]
    messages.add(
        store, NOW, f"posture:{eye}:{NOW.isoformat()}", f"patient:{patient}", "posture", eye, NOW + timedelta(days=1)
    )
    assert reminded(1) == []


def test_nobody_is_looked_at_who_wants_no_reminder_or_cannot_be_reached(store: Store) -> None:
    """Else each of them would be read anew each minute, as long as a reminder is of use."""
    patient, eye = with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))
    visit = with_visit(store)
    other = store.rows("SELECT patient_id FROM visit_states WHERE identity = :id", {"id": visit})[0]["patient_id"]

    def reminded() -> list[str]:
        of_posture = [id for id, _ in states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", NOW)]
        return of_posture + [v.identity for v in states.to_remind_of_visit(store, TODAY, "visit:")]

    for email, unwanted, found in (
        ("", (), []),
        ("p@test.invalid", ("visit", "drops"), [eye]),
        ("p@test.invalid", ("posture",), [visit]),
        ("p@test.invalid", ("posture", "visit"), []),
        ("p@test.invalid", ("drops",), [eye, visit]),
    ):
        for one in (patient, other):
            chose(store, one, email, unwanted)
        assert reminded() == found
    store.execute("UPDATE message_choices SET unwanted = '[\"postu'")
    assert reminded() == [eye, visit]  # whoever goes on with them names what cannot be read


def test_a_phone_that_takes_pushes_is_enough_until_it_is_locked_out(store: Store) -> None:
    patient, eye = with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))
    phone = people.add_device(store, NOW, patient, "a hash", "patient")

    def reminded() -> list[str]:
        return [id for id, _ in states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", NOW)]

    messages.subscribe(store, NOW, f"patient:{patient}", "https://push.test.invalid/1", "key", "secret", phone)
    assert reminded() == [eye]
    messages.end_subscription(store, NOW, "https://push.test.invalid/1")
    assert reminded() == []
    messages.subscribe(store, NOW, f"patient:{patient}", "https://push.test.invalid/1", "key", "secret", phone)
    assert reminded() == [eye]
    people.revoke_device(store, NOW, phone, "nurse:n")
    assert reminded() == []


@pytest.mark.parametrize("way", ["e-mail", "push"])
def test_nobody_is_looked_at_whose_consent_was_taken_back(store: Store, way: str) -> None:
    patient, eye = with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))
    if way == "e-mail":
        chose(store, patient, "p@test.invalid", ())
    else:
        messages.subscribe(store, NOW, f"patient:{patient}", "https://push.test.invalid/1", "key", "secret")

    def says(given: bool, hours: int) -> list[str]:
        consents.add(
            store, NOW + timedelta(hours=hours), patient, "phone", given=given, said_by="patient", words="", by="nurse:n"
        )
        return [id for id, _ in states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", NOW)]

    assert says(True, -1) == [eye]
    assert says(False, 1) == []
    assert says(True, 2) == (
        [] if way == "e-mail" else [eye]
    )  # an address is given anew; a phone that is not locked out stays


def test_hours_that_were_enough_are_looked_at_once_for_each_reminder(store: Store) -> None:
    patient, eye = with_eye(store, posture_from=TODAY, posture_until=TODAY + timedelta(days=3))
    chose(store, patient)
    looked = states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", NOW)
    states.posture_was_enough(store, NOW, looked)
    assert states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", NOW) == []
    later = NOW + timedelta(hours=1)
    assert states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", later) == looked
    states.put(store, patient, states.kept(store, patient))
    states.posture_was_enough(store, later, looked)  # of a version that stands no more
    assert [id for id, _ in states.to_remind_of_posture(store, TODAY + timedelta(days=1), "posture:", later)] == [eye]


def test_drops_are_thought_of_at_their_time(store: Store) -> None:
    patient, eye = with_eye(store, drops_until=TODAY)
    assert states.to_remind_of_drops(store, NOW) == {}  # of somebody who cannot be reached
    chose(store, patient)
    version = states.to_remind_of_drops(store, NOW)[eye]
    states.drops_again(store, [(eye, version, NOW + timedelta(hours=4))])
    assert [eye in states.to_remind_of_drops(store, NOW + timedelta(hours=h)) for h in (3, 4)] == [False, True]
    states.drops_again(store, [(eye, version, None)])
    assert states.to_remind_of_drops(store, NOW + timedelta(days=9)) == {}
    states.put(store, patient, states.kept(store, patient))
    states.drops_again(store, [(eye, version, None)])  # of a version that stands no more
    assert eye in states.to_remind_of_drops(store, NOW)


@pytest.mark.parametrize(
    ("changes", "reminded"), [({}, True), ({"seen_at": NOW}, False), ({"target": TODAY + timedelta(days=1)}, False)]
)
def test_who_is_reminded_of_a_visit(store: Store, changes: dict[str, Any], reminded: bool) -> None:
    identity = with_visit(store, **changes)
    patient = store.rows("SELECT patient_id FROM visit_states WHERE identity = :id", {"id": identity})[0]["patient_id"]
    assert states.to_remind_of_visit(store, TODAY, "visit:") == []
    chose(store, patient)
    assert [v.identity for v in states.to_remind_of_visit(store, TODAY, "visit:")] == ([identity] if reminded else [])


YESTERDAY, TOMORROW = TODAY - timedelta(days=1), TODAY + timedelta(days=1)
ON_LIST: dict[str, tuple[dict[str, Any], str | None]] = {
    "expected today": ({}, "due"),
    "here": ({"here_at": NOW}, "here"),
    "came yesterday and was not seen": ({"here_at": NOW - timedelta(days=1)}, "due"),
    "seen today": ({"waited": False, "seen_at": NOW}, "seen"),
    "seen yesterday": ({"waited": False, "seen_at": NOW - timedelta(days=1)}, None),
    "did not come": ({"away": True}, "missed"),
    "window over": ({"target": YESTERDAY, "latest": YESTERDAY}, "missed"),
    "window still open": ({"target": YESTERDAY, "latest": TOMORROW}, "due"),
    "tomorrow": ({"target": TOMORROW, "latest": TOMORROW}, "coming"),
    "away, of tomorrow": ({"target": TOMORROW, "latest": TOMORROW, "away": True}, "missed"),
    "on the last day shown": ({"target": DAY.until, "latest": DAY.until}, "coming"),
    "beyond": ({"target": DAY.until + timedelta(days=1), "latest": DAY.until + timedelta(days=1)}, None),
    "not waited for": ({"waited": False}, None),
}


@pytest.mark.parametrize(("changes", "kind"), ON_LIST.values(), ids=ON_LIST.keys())
def test_where_a_visit_stands_on_the_list_of_a_day(store: Store, changes: dict[str, Any], kind: str | None) -> None:
    identity = with_visit(store, **changes)
    listed = day_lists.on_list(store, day_lists.LIST_STATES, DAY)
    assert [(k, v.identity) for k, v in listed] == ([(kind, identity)] if kind else [])
    assert day_lists.count_on_list(store, DAY) == {k: (int(k == kind), 0) for k in day_lists.LIST_STATES}


def test_the_list_is_in_the_order_expected(store: Store) -> None:
    without_hour, worse = with_visit(store, name="Z"), with_visit(store, urgency=0, name="Z")
    at_nine, by_name = with_visit(store, hour="09:00", name="Z"), with_visit(store, name="A")
    yesterday = with_visit(store, target=YESTERDAY, name="Z")
    order = [yesterday, at_nine, worse, by_name, without_hour]
    assert [v.identity for _, v in day_lists.on_list(store, ["due"], DAY)] == order
    assert [v.identity for _, v in day_lists.on_list(store, ["due"], DAY, most=2, after=1)] == order[1:3]


def test_visits_with_a_worry_are_counted_and_shown_alone(store: Store) -> None:
    worry = with_visit(store, urgency=2)
    with_visit(store, urgency=3)
    assert [v.identity for _, v in day_lists.on_list(store, ["due"], DAY, signs=True)] == [worry]
    assert day_lists.count_on_list(store, DAY)["due"] == (2, 1)


def test_what_stands_on_some_days_and_has_not_taken_place(store: Store) -> None:
    today, tomorrow = with_visit(store), with_visit(store, target=TOMORROW)
    with_visit(store, seen_at=NOW, waited=False)
    assert [v.identity for v in day_lists.unseen_on(store, [TOMORROW, TODAY])] == [today, tomorrow]
    assert day_lists.unseen_on(store, []) == []


def test_the_newest_wish_comes_first(store: Store) -> None:
    patient, eye = person(store)
    old, new = (WishState(new_id(), eye, NOW + timedelta(hours=n), "week 1", None, "") for n in range(2))
    states.put(store, patient, states.State((), (), (old, new), None))
    assert day_lists.wishes(store, -1) == [new, old]
    assert day_lists.wishes(store, 1) == [new]


def test_calls_stand_by_how_soon_and_since_when(store: Store) -> None:
    later, today = with_call(store, since=NOW + timedelta(hours=1)), with_call(store)
    now = with_call(store, urgency=0, since=NOW + timedelta(hours=2))
    assert call_lists.calls(store, 9, 0) == [now, today, later]
    assert call_lists.calls(store, 1, 1) == [today]
    assert call_lists.count_calls(store) == 3


PARTS: dict[str, tuple[dict[str, Any], str]] = {
    "nobody's": ({}, "colleagues"),
    "of my operation": ({"people": ("surgeon:Sol Surgeon",)}, "mine"),
    "in my hands": ({"people": ("has:me",)}, "mine"),
    "mine to do": ({"people": ("task:me",), "decided": True}, "mine"),
    "another's": ({"people": ("has:you", "surgeon:Sue Surgeon")}, "colleagues"),
    "moved up": ({"level": 2}, "moved_up"),
    "moved up and mine": ({"level": 2, "people": ("surgeon:Sol Surgeon",)}, "mine"),
    "moved up and decided": ({"level": 1, "decided": True}, "moved_up"),
    "decided": ({"decided": True}, "decided"),
    "of my operation, decided": ({"decided": True, "people": ("surgeon:Sol Surgeon",)}, "decided"),
}


@pytest.mark.parametrize(("changes", "part"), PARTS.values(), ids=PARTS.keys())
@pytest.mark.parametrize("urgency", [0, 1])
def test_each_call_stands_in_one_part_of_a_surgeons_list(
    store: Store, changes: dict[str, Any], part: str, urgency: int
) -> None:
    patient = with_call(store, urgency=urgency, **changes)
    held = {p: call_lists.calls_of_part(store, ME, p, 9, 0) for p in ("mine", "moved_up", "colleagues", "decided")}
    assert held == {p: [patient] if p == part else [] for p in held}
    counted = call_lists.count_parts(store, ME)
    assert counted == {p: (int(p == part), int(p == part and urgency == 0)) for p in held}


def test_eyes_with_nothing_planned_are_listed_the_longest_first(store: Store) -> None:
    since = [NOW - timedelta(days=n) for n in (3, 9, 1)]
    ids = [with_eye(store, unplanned_since=at)[1] for at in since]
    with_eye(store)
    in_order = [(ids[n], since[n]) for n in (1, 0, 2)]
    assert day_lists.count_unplanned(store) == 3
    assert day_lists.unplanned(store, -1, 0) == in_order
    assert day_lists.unplanned(store, 2, 1) == in_order[1:]
