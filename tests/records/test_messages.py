"""Messages as rows: lined up once, tried in turn, never sent twice; and where a person may be reached."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.records import Store, messages
from followup.records.values import Device
from tests.conftest import NOW, ZONE

LATER = NOW + timedelta(minutes=5)
CHOSEN = {"email": "pat@test.invalid", "language": "de", "quiet_from": "22:00", "quiet_to": "07:00"}


def lined_up(store: Store, key: str = "a", person: str = "patient:1", minutes: int = 0) -> None:
    at = NOW + timedelta(minutes=minutes)
    assert messages.add(store, at, key, person, "visit", key, at + timedelta(days=1))


def keys(found: list[messages.Message]) -> list[str]:
    return [m.key for m in found]


def test_what_somebody_chose_takes_the_place_of_what_they_chose_before(store: Store) -> None:
    assert messages.choices(store, "patient:1") is None
    messages.keep_choices(store, NOW, "patient:1", {**CHOSEN, "unwanted": {"visit", "drops"}})
    messages.keep_choices(store, LATER, "patient:1", {**CHOSEN, "email": "", "unwanted": {"visit", "drops"}})
    kept = messages.choices(store, "patient:1")
    assert kept is not None
    assert (kept.email, kept.language, kept.unwanted) == ("", "de", ["drops", "visit"])
    assert messages.choices(store, "patient:2") is None


def test_a_browser_belongs_to_whoever_used_it_last(store: Store) -> None:
    for person in ("staff:1", "staff:2"):
        messages.subscribe(store, NOW, person, "https://push.invalid/x", "key", "auth")
    assert messages.subscriptions(store, "staff:1") == []
    assert [s.endpoint for s in messages.subscriptions(store, "staff:2")] == ["https://push.invalid/x"]


def test_an_ended_subscription_reaches_nobody_until_it_is_made_anew(store: Store) -> None:
    messages.subscribe(store, NOW, "staff:1", "https://push.invalid/x", "key", "auth")
    messages.end_subscription(store, NOW, "https://push.invalid/x")
    assert messages.subscriptions(store, "staff:1") == []
    messages.subscribe(store, NOW, "staff:1", "https://push.invalid/x", "key 2", "auth")
    assert [s.p256dh for s in messages.subscriptions(store, "staff:1")] == ["key 2"]


def test_a_phone_that_is_locked_out_is_not_reached(store: Store, device: Device, nurse: Actor) -> None:
    messages.subscribe(store, NOW, "patient:1", "https://push.invalid/x", "key", "auth", device.id)
    assert len(messages.subscriptions(store, "patient:1")) == 1
    enrol.revoke(Desk(store, NOW, nurse, ZONE), device.id)
    assert messages.subscriptions(store, "patient:1") == []


def test_messages_wait_by_person_and_age_from_their_time_on(store: Store) -> None:
    for key, person, minutes in (("c", "patient:2", 0), ("b", "patient:1", 2), ("a", "patient:1", 1), ("d", "patient:1", 9)):
        lined_up(store, key, person, minutes)
    assert keys(messages.waiting(store, LATER)) == ["a", "b", "c"]


def test_which_messages_were_made_already_also_of_very_many(store: Store) -> None:
    many = [f"k{n}" for n in range(messages.AT_A_TIME + 5)]
    for key in (many[0], many[-1]):
        lined_up(store, key)
    assert messages.made_already(store, many) == {many[0], many[-1]}
    assert messages.made_already(store, []) == set()


def test_a_message_that_failed_waits_for_its_next_try_and_is_shown(store: Store) -> None:
    lined_up(store)
    assert messages.troubled(store) == []
    messages.take(store, NOW, "a")
    messages.try_later(store, "a", LATER, "no answer")
    assert messages.waiting(store, NOW) == []
    (again,) = messages.waiting(store, LATER)
    assert (again.tries, again.detail, keys(messages.troubled(store))) == (1, "no answer", ["a"])


def test_what_a_dead_process_was_sending_waits_again(store: Store) -> None:
    for key in ("old", "new"):
        lined_up(store, key)
    messages.take(store, NOW, "old")
    messages.take(store, LATER, "new")
    assert messages.give_back_stuck(store, LATER) == 1
    assert keys(messages.waiting(store, LATER)) == ["old"]


@pytest.mark.parametrize("state", ["sent", "dropped"])
def test_a_message_that_ended_waits_no_more(store: Store, state: str) -> None:
    lined_up(store)
    messages.take(store, NOW, "a")
    messages.end(store, LATER, "a", state, "by mail")
    assert messages.waiting(store, LATER) == []
    (known,) = messages.of_person(store, "patient:1")
    assert (known.state, known.ended_at, known.detail) == (state, LATER, "by mail")


def test_the_latest_messages_of_a_person_come_first(store: Store) -> None:
    for minutes in range(4):
        lined_up(store, f"m{minutes}", minutes=minutes)
    lined_up(store, "another's", "patient:2")
    assert keys(messages.of_person(store, "patient:1", limit=3)) == ["m3", "m2", "m1"]
