"""The clock's jobs: what time alone raises, once, caught up after a night switched off; one fault ends nothing else."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from followup import jobs
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.watch import watching
from followup.clinical import schedule
from followup.config import Messages, Settings
from followup.records import Store, events, eyes, watch, worries
from followup.records.store import new_id
from followup.records.times import to_text
from tests.conftest import NOW, OPERATED, Clock, free_port, operation_note, patient_details, until


def test_the_clock_raises_what_nobody_sent(store: Store, settings: Settings, eye_id: str) -> None:
    assert jobs.run(store, settings, "check", NOW)
    raised = {w.rule for w in worries.warnings_of(store, eye_id)}
    assert raised == {"missed-early-visit", "no-posture-entry", "silent-while-posturing"}


def test_a_job_runs_once_in_its_interval_and_the_next_finds_nothing_new(
    store: Store, settings: Settings, eye_id: str
) -> None:
    assert jobs.run(store, settings, "check", NOW)
    assert jobs.run(store, settings, "check", NOW + timedelta(seconds=1)) is None
    assert jobs.run(store, settings, "check", NOW + watching.EVERY["check"]) == 0


def test_a_night_switched_off_is_caught_up_without_a_flood(store: Store, settings: Settings, eye_id: str) -> None:
    jobs.run(store, settings, "check", NOW)
    later = NOW + timedelta(days=3)
    jobs.run(store, settings, "check", later)
    open_ones = worries.open_callbacks(store)
    assert len({(c.eye_id, c.worry) for c in open_ones}) == len(open_ones)
    jobs.run(store, settings, "escalate", later)
    late = {c.id for c in open_ones if c.due_at <= later}
    assert late
    assert {c.id: c.level for c in worries.open_callbacks(store)} == {c.id: int(c.id in late) for c in open_ones}


def without_bounds(store: Store) -> None:
    """As a database from before times had bounds, which still holds rows that none could be written with today."""
    for name in [row["name"] for row in store.rows("SELECT name FROM sqlite_master WHERE name GLOB '*_bounds_*'")]:
        store.execute(f"DROP TRIGGER {name}")


def bad_posture(store: Store, eye_id: str) -> str:
    """A stretch of posturing from the year 1, as a phone's entry once was kept."""
    id = new_id()
    body = {"position": "face-down", "from": "0001-01-01T00:00:00+14:00", "to": "0001-01-01T08:00:00+14:00"}
    events.add(store, id, eye_id, "posture", NOW, body, "patient:x", NOW)
    return id


def unreadable_record(store: Store, eye_id: str) -> None:
    """A record of the operation without its parts, as an eye that nothing can be worked out for."""
    (note,) = eyes.notes_of(store, eye_id)
    row = {
        "id": new_id(),
        "operation_id": note.operation_id,
        "eye": "right",
        "operated_at": to_text(OPERATED),
        "agent": "c2f6",
    }
    told = {"surgeon": "Sol Surgeon", "body": "{}", "recorded_by": "test", "recorded_at": to_text(NOW), "reason": ""}
    store.insert("operation_records", {**row, **told})


def another(store: Store, nurse: Actor, settings: Settings, number: str) -> str:
    at = OPERATED + timedelta(hours=5)
    visits = [schedule.Window("day 1", date(2027, 3, 3), date(2027, 3, 3), date(2027, 3, 3), "pressure")]
    patient = patient_details(number)
    return leaving.discharge(Desk(store, at, nurse, settings.clinic.tz), patient, operation_note(), visits)[0]


def test_one_eye_s_fault_ends_nothing_else_and_is_named_until_it_is_mended(
    store: Store, settings: Settings, nurse: Actor, eye_id: str
) -> None:
    others = [another(store, nurse, settings, "T-2"), another(store, nurse, settings, "T-3")]
    unreadable_record(store, others[0])
    assert jobs.run(store, settings, "check", NOW)
    for id in (eye_id, others[1]):
        assert "missed-early-visit" in {w.rule for w in worries.warnings_of(store, id)}
    assert {(fault.what, fault.about, fault.times) for fault in watch.faults(store)} == {
        ("eye", others[0], 1),
        ("results", others[0], 1),
    }
    assert not any("Pat" in fault.words for fault in watch.faults(store))
    assert {(named.who, named.eye_id) for named in watching.named(store)} == {("Pat Patient, T-2", others[0])}
    jobs.run(store, settings, "check", NOW + timedelta(minutes=15))
    assert {fault.times for fault in watch.faults(store)} == {2}
    (sound,) = eyes.notes_of(store, eye_id)
    (broken,) = eyes.notes_of(store, others[0])
    later = NOW + timedelta(minutes=20)
    eyes.add_note(store, later, broken.operation_id, sound.body, settings.clinic.tz, "test")
    assert jobs.run(store, settings, "check", NOW + timedelta(minutes=30))
    assert watch.faults(store) == []


def test_an_entry_off_the_calendar_is_left_out_and_named_and_its_eye_is_still_judged(
    store: Store, settings: Settings, eye_id: str
) -> None:
    bad = bad_posture(store, eye_id)
    assert jobs.run(store, settings, "check", NOW)
    assert "missed-early-visit" in {w.rule for w in worries.warnings_of(store, eye_id)}
    (fault,) = watch.faults(store)
    assert (fault.what, fault.about) == ("row", f"events {bad}")


def test_a_clock_set_back_stops_nothing(store: Store, settings: Settings, eye_id: str) -> None:
    ahead = NOW + timedelta(hours=6)
    for name in watching.EVERY:
        assert jobs.run(store, settings, name, ahead) is not None
        assert jobs.run(store, settings, name, NOW) is not None
        assert jobs.run(store, settings, name, NOW + timedelta(seconds=10)) is None


def test_the_process_goes_on_when_its_clock_is_set_back(
    store: Store, settings: Settings, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(jobs, "TICK_SECONDS", 0.05)
    clock.pass_(hours=6)
    running = jobs.Running(store, settings, clock)

    def all_started_at(at: datetime) -> bool:
        return {row.started_at for row in watch.runs(store).values()} == {at} and len(watch.runs(store)) == len(jobs.JOBS)

    until(lambda: all_started_at(clock.now), "every job ran")
    clock.pass_(hours=-6)
    until(lambda: all_started_at(clock.now), "every job ran after the clock was set back")
    running.stop()


def test_a_scheduler_left_hours_ahead_is_told_of_the_jump(
    store: Store, settings: Settings, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As after the machine's clock was set back six hours: the next askings lie six hours ahead."""
    running = jobs.Running(store, settings, clock)
    until(lambda: len(watch.runs(store)) == len(jobs.JOBS), "every job ran")
    for job in running._scheduler.get_jobs():
        job.modify(next_run_time=datetime.now(UTC) + timedelta(hours=6))
    before = watch.runs(store)
    clock.pass_(days=2)
    assert running.keep_time()
    assert watch.runs(store) == before
    ahead = jobs._ahead()
    monkeypatch.setattr(jobs, "_ahead", lambda: ahead - 6 * 3600)
    assert running.keep_time()
    until(lambda: {row.started_at for row in watch.runs(store).values()} == {clock.now}, "every job was asked for")
    running.stop()


def test_a_job_that_fails_is_named_and_the_next_run_clears_it(
    store: Store, settings: Settings, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    folder = tmp_path / "kept"
    folder.write_text("a file stands where the backups should go")
    settings = settings.model_copy(update={"server": settings.server.model_copy(update={"backups": folder})})
    assert jobs.run(store, settings, "backup", NOW) is None
    (fault,) = watch.faults(store)
    assert (fault.what, fault.about) == ("job", "backup")
    assert watch.runs(store)["backup"].result.startswith("failed: FileExistsError")
    assert watching.stopped(store, NOW).count("clock") == 1
    folder.unlink()
    with caplog.at_level("INFO"):
        assert jobs.run(store, settings, "backup", NOW + timedelta(days=1)) == 1
    assert watch.faults(store) == []
    assert "job backup done: 1" in caplog.text


def cut_off(store: Store, settings: Settings, monkeypatch: pytest.MonkeyPatch, at: datetime) -> None:
    """The day's backup begins, and its process dies with it."""

    def dies(*_: object) -> int:
        raise SystemExit

    with monkeypatch.context() as dying:
        dying.setitem(jobs.JOBS, "backup", dies)
        with pytest.raises(SystemExit):
            jobs.run(store, settings, "backup", at)


def test_what_a_clock_had_begun_when_it_died_is_done_by_the_next_one_at_once(
    store: Store, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    cut_off(store, settings, monkeypatch, NOW)
    later = NOW + timedelta(seconds=10)
    assert jobs.run(store, settings, "backup", later) is None
    jobs.take_up(store, later)
    assert watch.faults(store) == []
    assert jobs.run(store, settings, "backup", later) == 0
    assert jobs.run(store, settings, "backup", later + timedelta(hours=1)) is None


def test_a_job_that_ends_its_process_again_and_again_is_named_and_waits_for_its_time(
    store: Store, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in watching.EVERY:
        jobs.run(store, settings, name, NOW - watching.EVERY[name])
        jobs.run(store, settings, name, NOW)
    assert watching.stopped(store, NOW) == []
    at = NOW + timedelta(days=1)
    for n, times in enumerate((0, 1, 2)):
        cut_off(store, settings, monkeypatch, at)
        at += timedelta(seconds=10)
        jobs.take_up(store, at)
        assert [(f.what, f.about, f.times) for f in watch.faults(store)] == [("job", "backup", times)] * bool(n)
        at += timedelta(seconds=1)
        if n:
            assert jobs.run(store, settings, "backup", at) is None
            at += timedelta(days=1)
    for name in watching.EVERY:
        jobs.run(store, settings, name, at)
    assert (watch.faults(store), watching.stopped(store, at)) == ([], [])


def test_a_backup_that_failed_is_tried_again_each_hour_until_one_is_made(
    store: Store, settings: Settings, tmp_path: Path
) -> None:
    folder = tmp_path / "kept"
    folder.write_text("a file stands where the backups should go")
    settings = settings.model_copy(update={"server": settings.server.model_copy(update={"backups": folder})})
    for hours in (0, 1, 2):
        assert jobs.run(store, settings, "backup", NOW + timedelta(hours=hours)) is None
        assert [fault.times for fault in watch.faults(store)] == [hours + 1]
        assert jobs.run(store, settings, "backup", NOW + timedelta(hours=hours, minutes=59)) is None
        assert [fault.times for fault in watch.faults(store)] == [hours + 1]  # not tried before its time
    folder.unlink()
    assert jobs.run(store, settings, "backup", NOW + timedelta(hours=3)) == 1
    assert watch.faults(store) == []
    assert jobs.run(store, settings, "backup", NOW + timedelta(hours=4)) is None
    assert jobs.run(store, settings, "backup", NOW + timedelta(days=1, hours=3)) == 1


def test_a_backup_that_was_cut_off_twice_is_tried_again_after_an_hour(
    store: Store, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    for seconds in (0, 10):
        cut_off(store, settings, monkeypatch, NOW + timedelta(seconds=seconds))
        jobs.take_up(store, NOW + timedelta(seconds=seconds + 5))
    assert jobs.run(store, settings, "backup", NOW + timedelta(minutes=59)) is None
    assert [fault.about for fault in watch.faults(store)] == ["backup"]
    assert jobs.run(store, settings, "backup", NOW + timedelta(hours=1, seconds=10)) == 0
    assert watch.faults(store) == []


def test_a_head_that_cannot_be_mailed_makes_no_further_copies(store: Store, settings: Settings, tmp_path: Path) -> None:
    clinic = settings.clinic.model_copy(update={"audit_email": "records@test.invalid"})
    nobody = Messages(smtp_host="127.0.0.1", smtp_port=free_port(), smtp_security="none", sender="clinic@test.invalid")
    server = settings.server.model_copy(update={"backups": tmp_path / "kept"})
    chosen = settings.model_copy(update={"clinic": clinic, "messages": nobody, "server": server})
    for hours in range(3):
        for name in jobs.JOBS:
            jobs.run(store, chosen, name, NOW + timedelta(hours=hours))
    assert len(list((tmp_path / "kept").glob("*.db"))) == 1
    assert [(fault.what, fault.about, fault.times) for fault in watch.faults(store)] == [("job", "audit-mail", 3)]


def test_the_process_of_the_clock_takes_up_what_was_cut_off(
    store: Store, settings: Settings, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    cut_off(store, settings, monkeypatch, clock.now)
    clock.pass_(seconds=10)
    running = jobs.Running(store, settings, clock)
    until(lambda: watch.runs(store)["backup"].result == "done: 0", "the backup was done by this one")
    running.stop()


def test_a_clock_that_stands_still_is_seen_after_three_intervals(store: Store, settings: Settings) -> None:
    never = watching.late(store, NOW)
    assert never is not None
    assert never.last is None
    for name in watching.EVERY:
        jobs.run(store, settings, name, NOW)
    assert watching.late(store, NOW + timedelta(minutes=3)) is None
    late = watching.late(store, NOW + timedelta(minutes=16))
    assert late is not None
    assert (late.jobs, late.last) == (("escalate", "messages"), NOW)
    assert late.means == "callbacks are not moving up, nobody is reminded"
    ahead = watching.late(store, NOW - timedelta(hours=6))
    assert ahead is not None
    assert ahead.last is None
