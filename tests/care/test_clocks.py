"""Clocks that disagree, travel, and the night the clocks change: every entry keeps its true time."""

from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest

from followup.care.home import receive
from followup.care.reading.eye import load
from followup.clinical import posture
from followup.config import Settings
from followup.records import Store, events, worries
from followup.records.store import new_id
from followup.records.values import Device
from tests.conftest import NOW


def event(eye_id: str, kind: str, at: datetime, body: dict[str, Any], offset: int = 60) -> dict[str, Any]:
    return {
        "id": new_id(),
        "operation": eye_id,
        "kind": kind,
        "at": at.isoformat(),
        "offset_minutes": offset,
        "sequence": 1,
        "body": body,
    }


@pytest.mark.parametrize("hours", [-9, -2, 3, 11])
def test_a_phone_whose_clock_is_hours_off_is_put_right_and_its_own_time_is_kept(
    store: Store, device: Device, eye_id: str, settings: Settings, hours: int
) -> None:
    off = timedelta(hours=hours)
    happened = NOW - timedelta(hours=4)
    block = {
        "position": "face-down",
        "from": (happened - timedelta(hours=2) + off).isoformat(),
        "to": (happened + off).isoformat(),
    }
    sent = event(eye_id, "posture", happened + off, block)
    result = receive.receive(store, NOW, device, [sent], settings.clinic.tz, sent_at=NOW + off)
    assert [r.status for r in result] == ["received"]
    kept = events.of_eye(store, eye_id)[0]
    assert kept.at == happened
    assert kept.body.end == happened
    (own_time,) = store.rows("SELECT device_at FROM events")
    assert own_time["device_at"].startswith((happened + off).strftime("%Y-%m-%dT%H:%M"))


def test_the_time_on_the_way_is_no_clock_error(store: Store, device: Device, eye_id: str, settings: Settings) -> None:
    sent = event(eye_id, "symptoms", NOW - timedelta(hours=1), {"pain": 1})
    receive.receive(store, NOW, device, [sent], settings.clinic.tz, sent_at=NOW - timedelta(seconds=100))
    assert events.of_eye(store, eye_id)[0].at == NOW - timedelta(hours=1)


def test_hours_logged_while_travelling_count_on_the_clinics_days(
    store: Store, device: Device, eye_id: str, settings: Settings
) -> None:
    # Logged in a zone eight hours ahead: the instants count, wherever the phone was.
    away = timezone(timedelta(hours=9))
    start = datetime(2027, 3, 5, 5, 0, tzinfo=away)
    body = {"position": "face-down", "from": start.isoformat(), "to": (start + timedelta(hours=3)).isoformat()}
    receive.receive(store, NOW, device, [event(eye_id, "posture", start, body, 540)], settings.clinic.tz, sent_at=NOW)
    blocks = [p.block for p in load(store, eye_id, settings.clinic.tz).timeline(NOW).postured]
    assert posture.hours_by_day(blocks, settings.clinic.tz, NOW) == {date(2027, 3, 4): pytest.approx(3.0)}


def test_the_night_the_clocks_go_forward_has_its_true_hours(
    store: Store, device: Device, eye_id: str, settings: Settings
) -> None:
    # Time-zone database: in Vienna 28 March 2027 has 23 hours; 00:00 to 08:00 on the wall are seven hours.
    now = datetime(2027, 3, 28, 12, tzinfo=UTC)
    wall = (datetime(2027, 3, 28, 0, tzinfo=settings.clinic.tz), datetime(2027, 3, 28, 8, tzinfo=settings.clinic.tz))
    body = {"position": "face-down", "from": wall[0].isoformat(), "to": wall[1].isoformat()}
    receive.receive(store, now, device, [event(eye_id, "posture", wall[1], body)], settings.clinic.tz, sent_at=now)
    blocks = [p.block for p in load(store, eye_id, settings.clinic.tz).timeline(now).postured]
    assert posture.hours_by_day(blocks, settings.clinic.tz, now) == {date(2027, 3, 28): pytest.approx(7.0)}


YEAR, DAY, HOUR, MINUTE = timedelta(days=365), timedelta(days=1), timedelta(hours=1), timedelta(minutes=1)


@pytest.mark.parametrize("on_phone", [-10 * YEAR, -3 * DAY, -3 * HOUR, timedelta(0), 3 * HOUR, 10 * YEAR])
@pytest.mark.parametrize("changed", ["never", "before the entry", "after the entry"])
@pytest.mark.parametrize("later", [timedelta(0), -10 * YEAR, -5 * HOUR, 5 * HOUR, 10 * YEAR])
def test_a_clock_that_was_changed_while_an_entry_waited_moves_no_time(
    store: Store, device: Device, eye_id: str, settings: Settings, on_phone: timedelta, changed: str, later: timedelta
) -> None:
    # The clinic was heard an hour ago; the entry was made half an hour ago, and is sent now.
    heard_at, happened = NOW - HOUR, NOW - 30 * MINUTE
    at_entry = later if changed == "before the entry" else on_phone
    at_sending = on_phone if changed == "never" else later
    heard = {"clinic_at": heard_at.isoformat(), "device_at": (heard_at + on_phone).isoformat()}
    body = {
        "position": "face-down",
        "from": (happened - HOUR + at_entry).isoformat(),
        "to": (happened + at_entry).isoformat(),
    }
    sent = {**event(eye_id, "posture", happened + at_entry, body), "heard": heard}
    (result,) = receive.receive(store, NOW, device, [sent], settings.clinic.tz, sent_at=NOW + at_sending)
    assert result.status == "received"
    (kept,) = events.of_eye(store, eye_id)
    assert (kept.at, kept.body.start, kept.body.end) == (happened, happened - HOUR, happened)


@pytest.mark.parametrize("meanwhile", [-10 * YEAR, -2 * HOUR, 2 * HOUR, 10 * YEAR])
def test_a_clock_changed_and_changed_back_gives_the_time_at_which_the_entry_came(
    store: Store, device: Device, eye_id: str, settings: Settings, meanwhile: timedelta
) -> None:
    heard = {name: (NOW - HOUR).isoformat() for name in ("clinic_at", "device_at")}
    sent = {**event(eye_id, "symptoms", NOW - 30 * MINUTE + meanwhile, {"pain": 9}), "heard": heard}
    (result,) = receive.receive(store, NOW, device, [sent], settings.clinic.tz, sent_at=NOW)
    assert result.status == "received"
    assert events.of_eye(store, eye_id)[0].at == NOW
    (own_time,) = store.rows("SELECT device_at FROM events")
    assert own_time["device_at"].startswith((NOW - 30 * MINUTE + meanwhile).strftime("%Y-%m-%dT%H:%M"))


def test_a_danger_from_a_clock_that_is_a_little_ahead_calls_at_once(
    store: Store, device: Device, eye_id: str, settings: Settings
) -> None:
    ahead = NOW + timedelta(seconds=90)
    receive.receive(store, NOW, device, [event(eye_id, "symptoms", ahead, {"pain": 9})], settings.clinic.tz, sent_at=ahead)
    assert "now" in [c.how_soon for c in worries.open_callbacks(store)]
    assert events.of_eye(store, eye_id)[0].at == NOW


LATER = (NOW + HOUR).isoformat()


@pytest.mark.parametrize(
    "heard",
    [
        *(None, "soon", 7, [], {}, {"clinic_at": NOW.isoformat()}, {"clinic_at": 5, "device_at": None}),
        {"clinic_at": LATER, "device_at": LATER},
        {"clinic_at": "2027-03-05T10:00:00", "device_at": NOW.isoformat()},
    ],
)
def test_what_a_phone_cannot_have_heard_counts_as_absent(
    store: Store, device: Device, eye_id: str, settings: Settings, heard: Any
) -> None:
    sent = {**event(eye_id, "symptoms", NOW - 3 * DAY, {"pain": 1}), "heard": heard}
    (result,) = receive.receive(store, NOW, device, [sent], settings.clinic.tz, sent_at=NOW)
    assert result.status == "received"
    assert events.of_eye(store, eye_id)[0].at == NOW - 3 * DAY


OLD_CLIENT = {
    "id": "0195a5c0-1111-7000-8000-000000000001", "kind": "symptoms", "at": "2027-03-05T09:00:00+01:00", "offset_minutes": 60,
    "sequence": 7, "by": "patient", "corrects": None, "body": {"pain": 2, "vision": "same"},
}  # fmt: skip


def test_events_of_the_first_clients_are_taken_as_they_were(
    store: Store, device: Device, eye_id: str, settings: Settings
) -> None:
    # What version 1 of the phone's pages sent, word for word; it stays here when the models change.
    result = receive.receive(store, NOW, device, [{**OLD_CLIENT, "operation": eye_id}], settings.clinic.tz)
    assert result[0].status == "received"
