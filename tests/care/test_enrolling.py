"""A phone becomes a patient's with a code from the card: once, in time, and not by guessing. The bounds: common practice, no source."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import Refused
from followup.care.home import enrol
from followup.records import Store
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
