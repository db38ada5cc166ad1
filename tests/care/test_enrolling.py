"""A phone becomes a patient's with a code from the card: once, in time, and not by guessing. The bounds: common practice, no source."""

from datetime import timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import Refused
from followup.care.home import enrol
from followup.records import Store, people
from followup.records.values import Device
from tests.conftest import NOW, ZONE


@pytest.fixture
def code(store: Store, nurse: Actor, device: Device) -> str:
    return enrol.issue_code(Desk(store, NOW, nurse, ZONE), device.patient_id)


def enrolled(store: Store, code: str, year: int = 1952, caller: str = "test", **later: float) -> str:
    return enrol.enrol(store, NOW + timedelta(**later), code, year, "carer", caller)


def test_a_code_makes_one_phone(store: Store, code: str) -> None:
    assert enrol.device(store, enrolled(store, code))
    with pytest.raises(Refused, match="has been used"):
        enrol.enrolment(store, NOW, code, "test")
    with pytest.raises(Refused, match="has been used"):
        enrolled(store, code)


BROWSER = "what tells this browser from others"
TAPPED = {"birth_year": 1952, "used_by": "carer", "caller": "test", "browser": BROWSER}


def tapped(store: Store, code: str, seconds: float = 0, **other: Any) -> str:
    return enrol.enrol(store, NOW + timedelta(seconds=seconds), code, **TAPPED | other)


@pytest.mark.parametrize("seconds", [0, 1, 600])
def test_a_second_tap_in_the_same_browser_is_told_the_same_again(
    store: Store, code: str, device: Device, seconds: float
) -> None:
    """An answer that was lost on its way, or two taps: the phone is set up, and is one."""
    first = tapped(store, code)
    again = tapped(store, f" {code.lower()} ", seconds)
    made = enrol.device(store, again)
    assert (again, made is not None) == (first, True)
    assert len(people.devices_of(store, device.patient_id)) == 2  # that of the fixture too


@pytest.mark.parametrize(
    "other",
    [
        {"browser": "another"},
        {"browser": ""},
        {"birth_year": 1951},
        {"used_by": "patient"},
        {"seconds": 601},
        {"seconds": 7 * 86400},
    ],
)
def test_whoever_else_types_a_used_code_does_not_get_in(
    store: Store, code: str, device: Device, other: dict[str, Any]
) -> None:
    tapped(store, code)
    with pytest.raises(Refused, match="has been used"):
        tapped(store, code, **other)
    assert len(people.devices_of(store, device.patient_id)) == 2


def test_two_whose_browsers_cannot_be_told_apart_are_not_taken_for_one(store: Store, code: str) -> None:
    tapped(store, code, browser="")
    with pytest.raises(Refused, match="has been used"):
        tapped(store, code, browser="")


def test_a_phone_that_was_locked_out_is_not_let_in_by_a_second_tap(store: Store, nurse: Actor, code: str) -> None:
    made = enrol.device(store, tapped(store, code))
    assert made is not None
    enrol.revoke(Desk(store, NOW, nurse, ZONE), made.id)
    with pytest.raises(Refused, match="has been used"):
        tapped(store, code, 1)


def test_two_taps_at_once_set_one_phone_up(store: Store, code: str, device: Device, monkeypatch: pytest.MonkeyPatch) -> None:
    """The other is taken between the first look at the code and the moment in which the phone is noted."""
    look, told = enrol.enrolment, []

    def looking(*given: Any) -> Any:
        monkeypatch.setattr(enrol, "enrolment", look)
        found = look(*given)
        told.append(tapped(store, code))
        return found

    monkeypatch.setattr(enrol, "enrolment", looking)
    assert [tapped(store, code)] == told
    assert len(people.devices_of(store, device.patient_id)) == 2


def test_what_a_browser_is_told_cannot_be_worked_out_elsewhere(store: Store, nurse: Actor, device: Device) -> None:
    """Another code is another secret, and nothing of what was typed is all that it is made of."""
    desk = Desk(store, NOW, nurse, ZONE)
    made = {tapped(store, enrol.issue_code(desk, device.patient_id)) for _ in range(3)}
    assert (len(made), {len(one) for one in made}) == (3, {43})  # 256 bits


@pytest.mark.parametrize("typed", [" {} ", "{0:.4} {0:.4}", "{0:.4}-{0:.4}"])
def test_a_code_is_read_as_it_stands_on_the_card(store: Store, code: str, typed: str) -> None:
    as_typed = {" {} ": f" {code} ", "{0:.4} {0:.4}": f"{code[:4]} {code[4:]}"}.get(typed, f"{code[:4]}-{code[4:]}".lower())
    assert enrolled(store, as_typed)


def test_a_code_is_good_for_seven_days(store: Store, code: str) -> None:
    assert enrol.enrolment(store, NOW + timedelta(days=6, hours=23), code, "test")
    with pytest.raises(Refused, match="too old"):
        enrolled(store, code, days=7)


def test_five_wrong_years_lock_the_code_even_for_who_knows_better(store: Store, code: str) -> None:
    for left in (4, 3, 2, 1, 0):
        with pytest.raises(Refused, match="year of birth does not fit") as said:
            enrolled(store, code, year=1951)
        assert said.value.values["left"] == left
    with pytest.raises(Refused, match="locked"):
        enrolled(store, code)


def test_twenty_unknown_codes_from_one_address_are_the_last_for_an_hour(store: Store, code: str) -> None:
    for n in range(20):
        with pytest.raises(Refused, match="do not know"):
            enrolled(store, f"AAAAAAA{n}", caller="192.0.2.1")
    with pytest.raises(Refused, match="Wait one hour"):
        enrolled(store, code, caller="192.0.2.1")
    assert enrolled(store, code, caller="192.0.2.2")


def test_a_code_has_no_letters_that_read_like_others(store: Store, nurse: Actor, device: Device) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    written = "".join(enrol.issue_code(desk, device.patient_id) for _ in range(40))
    assert not set(written) & set("0O1Il")
