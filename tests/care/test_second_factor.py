"""The second factor: codes as RFC 6238 has them, each once; recovery codes; wrong ones count."""

import base64
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pyotp
import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts, second_factor, signing_in
from followup.care.actors import Actor
from followup.care.errors import CareError, Refused
from followup.care.signing_in import Caller
from followup.records import Store, keys
from tests.conftest import NOW, PASSWORD, Clock, signed_in

SECRET = base64.b32encode(b"12345678901234567890").decode()
HERE = Caller("192.0.2.1")


@pytest.mark.parametrize(
    ("seconds", "code"),
    [(59, "287082"), (1111111109, "081804"), (1234567890, "005924"), (2000000000, "279037")],
)
def test_codes_are_those_of_the_standard(store: Store, nurse: Actor, seconds: int, code: str) -> None:
    """RFC 6238, appendix B: its last six digits with SHA-1."""
    at = datetime.fromtimestamp(seconds, UTC)
    with pytest.raises(CareError, match="not the code"):
        second_factor.set_up(store, at, nurse, SECRET, "000000", PASSWORD)
    assert not second_factor.wanted(store, nurse.id)
    assert len(set(second_factor.set_up(store, at, nurse, SECRET, code, PASSWORD))) == second_factor.RECOVERY_CODES
    assert second_factor.wanted(store, nurse.id)


def code_at(at: datetime) -> str:
    return pyotp.TOTP(SECRET).at(at)


@pytest.fixture
def recovery(store: Store, nurse: Actor) -> list[str]:
    return second_factor.set_up(store, NOW, nurse, SECRET, code_at(NOW), PASSWORD)


def test_a_code_is_taken_once_and_none_from_before_it(store: Store, nurse: Actor, recovery: list[str]) -> None:
    assert not second_factor.passes(store, NOW, nurse.id, code_at(NOW))  # it set the factor up
    later = NOW + timedelta(minutes=2)
    for offset, right in ((-2, False), (2, False), (0, True), (0, False), (-1, False), (1, True)):
        assert second_factor.passes(store, later, nurse.id, code_at(later + timedelta(seconds=30 * offset))) is right, offset


def test_a_recovery_code_is_taken_once_however_it_is_written(store: Store, nurse: Actor, recovery: list[str]) -> None:
    written = f"{recovery[3][:5].lower()} {recovery[3][5:]}"
    assert second_factor.passes(store, NOW, nurse.id, written)
    assert not second_factor.passes(store, NOW, nurse.id, recovery[3])
    assert second_factor.passes(store, NOW, nurse.id, recovery[4])
    held = "\n".join(store.db.conn.iterdump())
    assert not any(code in held for code in recovery)


def test_with_a_secret_outside_the_app_s_secret_is_wrapped_and_survives_another(
    store: Store, nurse: Actor, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    for file in (first, second):
        file.write_text(file.name * 20, encoding="utf-8")
    monkeypatch.setenv(keys.KEY_FILE, str(first))
    second_factor.set_up(store, NOW, nurse, SECRET, code_at(NOW), PASSWORD)
    assert SECRET not in "\n".join(store.db.conn.iterdump())
    monkeypatch.setenv(keys.KEY_FILE, str(second))
    monkeypatch.setenv(keys.FORMER_KEY_FILE, str(first))
    keys.rotate(store, NOW, {})
    monkeypatch.delenv(keys.FORMER_KEY_FILE)
    later = NOW + timedelta(minutes=2)
    assert second_factor.passes(store, later, nurse.id, code_at(later))


def test_wrong_codes_are_counted(store: Store, nurse: Actor, recovery: list[str]) -> None:
    half = signing_in.half(store, NOW, nurse, "nurse@test.invalid")
    told = []
    for _ in range(8):
        with pytest.raises(Refused) as refused:
            signing_in.second_step(store, NOW, half, "000000", HERE)
        told.append(str(refused.value))
    assert [t.startswith("too many") for t in told] == [False] * 5 + [True] * 3


EMAIL = "nurse@test.invalid"


@pytest.mark.parametrize("where", ["elsewhere", "the same address"])
@pytest.mark.parametrize("what", ["passwords", "codes"])
def test_nobody_is_locked_out_of_the_second_step_by_the_guesses_of_others(
    store: Store, nurse: Actor, recovery: list[str], where: str, what: str
) -> None:
    """A hospital may reach us from one address: the browser on which somebody signed in before is counted by itself."""
    own = Caller(HERE.address, signing_in.mark(store, NOW, EMAIL))
    half = signing_in.half(store, NOW, nurse, EMAIL)
    tried: dict[str, Callable[[int, Caller], object]] = {
        "codes": lambda _, caller: signing_in.second_step(store, NOW, half, "000000", caller),
        "passwords": lambda n, caller: signing_in.sign_in(store, NOW, f"p{n % 30}@test.invalid", "wrong guess", caller),
    }
    for n in range(70):
        with pytest.raises(Refused):
            tried[what](n, Caller(f"203.0.113.{n}") if where == "elsewhere" else HERE)
    assert signing_in.second_step(store, NOW, half, recovery[0], own)[0].id == nurse.id


def test_a_marked_browser_is_slowed_down_at_the_second_step_too(store: Store, nurse: Actor, recovery: list[str]) -> None:
    own = Caller(HERE.address, signing_in.mark(store, NOW, EMAIL))
    half = signing_in.half(store, NOW, nurse, EMAIL)
    told = []
    for code in ("000000",) * 5 + (recovery[0],):
        with pytest.raises(Refused) as refused:
            signing_in.second_step(store, NOW, half, code, own)
        told.append(str(refused.value))
    assert [t.startswith("too many") for t in told] == [False] * 5 + [True]
    assert signing_in.sign_in(store, NOW, EMAIL, PASSWORD, own).id == nurse.id  # codes and passwords are counted apart


def test_the_mark_of_another_account_is_none_at_the_second_step(store: Store, nurse: Actor, recovery: list[str]) -> None:
    half = signing_in.half(store, NOW, nurse, EMAIL)
    told = set()
    for n in range(6):
        strange = signing_in.mark(store, NOW, "surgeon@test.invalid" if n % 2 else f"second {EMAIL}")
        with pytest.raises(Refused) as refused:
            signing_in.second_step(store, NOW, half, "000000", Caller(HERE.address, strange))
        told.add(str(refused.value))
    assert any(t.startswith("too many") for t in told)


@pytest.mark.parametrize("code", ["", "½", "\ud800", "٣٤٥٦٧٨", "0" * 5000])
def test_what_is_no_code_at_all_is_wrong(store: Store, nurse: Actor, recovery: list[str], code: str) -> None:
    assert not second_factor.passes(store, NOW, nurse.id, code)


def test_half_a_sign_in_is_none_and_lasts_minutes(store: Store, nurse: Actor, recovery: list[str]) -> None:
    for half in ("", "forged"):
        with pytest.raises(Refused, match="took too long"):
            signing_in.second_step(store, NOW, half, recovery[0], HERE)


def test_the_whole_way_in_the_browser(
    app: Flask, as_nurse: FlaskClient, store: Store, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(second_factor, "new_secret", lambda: SECRET)
    assert SECRET in as_nurse.get("/my-account/second-factor").text
    with as_nurse.session_transaction() as kept:
        assert SECRET not in str(dict(kept))
    assert as_nurse.post("/my-account/second-factor", data={"code": "000000", "password": PASSWORD}).status_code == 400
    wrong = as_nurse.post("/my-account/second-factor", data={"code": code_at(clock.now), "password": "wrong"})
    assert (wrong.status_code, "not your password now" in wrong.text) == (400, True)
    page = as_nurse.post("/my-account/second-factor", data={"code": code_at(clock.now), "password": PASSWORD})
    assert page.text.count('class="code"') == second_factor.RECOVERY_CODES
    other = app.test_client()
    answer = other.post("/sign-in?next=/clinic/callbacks", data={"email": "nurse@test.invalid", "password": PASSWORD})
    assert answer.headers["Location"] == "/sign-in/code?next=/clinic/callbacks"
    assert other.get("/clinic/").status_code == 302  # half a sign-in opens nothing
    clock.pass_(minutes=2)
    address = answer.headers["Location"]
    assert other.post(address, data={"code": "000000"}).status_code == 403
    done = other.post(address, data={"code": code_at(clock.now)})
    assert (done.status_code, done.headers["Location"]) == (302, "/clinic/callbacks")
    assert other.get("/clinic/").status_code == 200
    assert as_nurse.post("/my-account/no-second-factor", data={"password": "wrong"}).status_code == 400
    as_nurse.post("/my-account/no-second-factor", data={"password": PASSWORD})
    assert signed_in(app, "nurse@test.invalid").get("/clinic/").status_code == 200


def test_an_ended_account_passes_no_more(store: Store, nurse: Actor, recovery: list[str]) -> None:
    accounts.end(store, NOW, nurse.id)
    assert not second_factor.passes(store, NOW, nurse.id, recovery[0])
