"""Each step of the schema that touches rows: what stood there before it, and exactly what stands there after it."""

import sqlite3
from collections.abc import Callable
from typing import Any

import pytest
from sqlite_utils import Database

from followup.records.migrations import steps

NAMES = [step.name for step in steps.pending(Database(memory=True))]
AT = "2027-03-05T10:00:00.000000Z"
LATER = "2027-03-06T10:00:00.000000Z"


class Old(Database):
    """A database as a step finds it."""

    def __init__(self, step: str) -> None:
        super().__init__(memory=True)
        self.step = step
        steps.apply(self, stop_before=step)

    def add(self, table: str, **row: Any) -> None:
        """A row, with something in every other column that must not be empty."""
        usual: dict[str, Any] = {"TEXT": "x", "INTEGER": 0, "REAL": 0.0}
        for column in self[table].columns:
            if column.notnull and column.default_value is None and column.name not in row:
                row[column.name] = AT if column.name.endswith("at") else usual[column.type]
        self[table].insert(row)

    def take_step(self) -> "Old":
        place = NAMES.index(self.step) + 1
        steps.apply(self, **({"stop_before": NAMES[place]} if place < len(NAMES) else {}))
        return self

    def found(self, sql: str) -> list[tuple[Any, ...]]:
        return list(self.execute(sql).fetchall())


def refused(db: Database, sql: str, words: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=words):
        db.execute(sql)


# --- Repairs ---


@pytest.fixture
def incomplete() -> Old:
    """A database whose first steps ran before they were changed: without cancelled visits, phones' own times, and looks."""
    old = Old("m006_repair")
    old.add("visits", id="v")
    old.add("events", id="e")
    old.executescript("DROP TABLE looks; ALTER TABLE visits DROP COLUMN withdrawn; ALTER TABLE events DROP COLUMN device_at")
    return old


def test_what_first_steps_lacked_is_put_right(incomplete: Old) -> None:
    incomplete.take_step()
    assert incomplete.found("SELECT id, withdrawn FROM visits") == [("v", 0)]
    assert incomplete.found("SELECT id, device_at FROM events") == [("e", None)]


@pytest.mark.parametrize("change", ["UPDATE looks SET who = ''", "DELETE FROM looks"])
def test_looks_that_were_lacking_are_append_only(incomplete: Old, change: str) -> None:
    incomplete.take_step().add("looks", id="l")
    refused(incomplete, change, "looks is append-only")


def test_a_repair_leaves_what_is_whole() -> None:
    old = Old("m006_repair")
    old.add("visits", id="v", withdrawn=1)
    old.add("looks", id="l")
    old.take_step()
    assert (old.found("SELECT withdrawn FROM visits"), old.found("SELECT id FROM looks")) == ([(1,)], [("l",)])


# --- Callbacks and tasks ---


@pytest.mark.parametrize(
    ("state", "level", "expected"),
    [("waiting", 0, (0, None)), ("claimed", 2, (2, None)), ("settled", 1, (1, "n"))],
)
def test_a_callback_moved_up_as_often_as_its_level_and_was_settled_by_who_had_it(
    state: str, level: int, expected: tuple[int, str | None]
) -> None:
    old = Old("m007_tasks")
    old.add("callbacks", id="c", how_soon="now", state=state, level=level, claimed_by="n")
    old.take_step()
    assert old.found("SELECT moved_up, settled_by FROM callbacks") == [expected]


def task(old: Old, id: str, **row: Any) -> None:
    old.add("tasks", id=id, **{"callback_id": "c", "kind": "theatre", "done_at": AT, "done_words": "morning", **row})


def done(old: Old, at: str, detail: str, callback_id: str = "c", step: str = "done") -> None:
    old.add("callback_steps", id=f"{len(old.found('SELECT id FROM callback_steps'))}", at=at, detail=detail,
            callback_id=callback_id, step=step)  # fmt: skip


def test_confirmed_theatre_has_its_day_and_list_from_the_step_that_says_so() -> None:
    old = Old("m034_theatre")
    task(old, "t")
    done(old, LATER, '{"theatre_on": "2027-03-20"}')
    done(old, AT, '{"theatre_on": "2027-03-21"}', callback_id="another")
    done(old, AT, '{"theatre_on": "2027-03-22"}', step="told")
    done(old, AT, '{"theatre_on": "2027-03-09"}')
    old.take_step()
    assert old.found("SELECT theatre_on, theatre_list FROM tasks") == [("2027-03-09", "morning")]


@pytest.mark.parametrize("other", [{"kind": "phone"}, {"done_at": None, "done_words": ""}, {"given_up": 1}])
def test_what_is_no_confirmed_theatre_has_no_day(other: dict[str, Any]) -> None:
    old = Old("m034_theatre")
    task(old, "t", **other)
    done(old, AT, '{"theatre_on": "2027-03-09"}')
    assert old.take_step().found("SELECT theatre_on, theatre_list FROM tasks") == [(None, "")]


def test_confirmed_theatre_without_a_step_keeps_its_list() -> None:
    old = Old("m034_theatre")
    task(old, "t")
    assert old.take_step().found("SELECT theatre_on, theatre_list FROM tasks") == [(None, "morning")]


# --- The book ---


def test_visits_get_the_id_under_which_each_first_stood_in_the_book() -> None:
    old = Old("m008_visit_identities")
    for id, replaces in (("c", "b"), ("b", "a"), ("a", None), ("y", "x"), ("x", None)):
        old.add("visits", id=id, replaces=replaces)
    old.take_step()
    assert old.found("SELECT id, identity FROM visits ORDER BY id") == [
        ("a", "a"), ("b", "a"), ("c", "a"), ("x", "x"), ("y", "x"),
    ]  # fmt: skip
    refused(old, "UPDATE visits SET identity = 'z'", "visits is append-only")


@pytest.mark.parametrize("starts", ["24:00", "9:00", "09:60", "9.30", "09:00:00", ""])
def test_an_appointment_is_a_time_of_day(starts: str) -> None:
    old = Old("m027_book_of_visits").take_step()
    row = {"target": "2027-03-09", "earliest": "2027-03-09", "latest": "2027-03-09", "recorded_at": AT}
    old.add("visits", id="v", starts="23:59", **row)
    with pytest.raises(sqlite3.IntegrityError, match="CHECK constraint"):
        old.add("visits", id="w", starts=starts, **row)


@pytest.mark.parametrize(("day", "closed"), [("2027-02-29", 1), ("09.03.2027", 1), ("2027-03-09", 2)])
def test_a_closure_is_of_a_day_that_is_and_says_closed_or_open(day: str, closed: int) -> None:
    old = Old("m027_book_of_visits").take_step()
    old.add("closures", day="2028-02-29", closed=0)
    with pytest.raises(sqlite3.IntegrityError, match="CHECK constraint"):
        old.add("closures", day=day, closed=closed)


# --- People ---


def test_everybody_keeps_their_role_and_a_third_one_is_possible() -> None:
    old = Old("m029_sessions")
    for id, role in (("n", "nurse"), ("s", "surgeon")):
        old.add("staff", id=id, role=role, email=id)
    old.take_step()
    assert old.found("SELECT id, role FROM staff ORDER BY id") == [("n", "nurse"), ("s", "surgeon")]
    old.add("staff", id="a", email="a", role="administrator")
    with pytest.raises(sqlite3.IntegrityError, match="CHECK constraint"):
        old.add("staff", id="x", email="x", role="doctor")


@pytest.mark.parametrize(
    ("person", "unwanted", "expected"),
    [
        ("patient:p", '["now"]', '["now","drops"]'),
        ("patient:p", "[]", '["drops"]'),
        ("patient:p", "{}", "{}"),
        ("patient:p", "not json", "not json"),
        ("staff:n", '["now"]', '["now"]'),
        ("contact:on-call", "[]", "[]"),
    ],
)
def test_patients_who_chose_before_are_not_reminded_of_drops(person: str, unwanted: str, expected: str) -> None:
    old = Old("m031_carers_and_drops")
    old.add("message_choices", person=person, unwanted=unwanted)
    assert old.take_step().found("SELECT unwanted FROM message_choices") == [(expected,)]


def test_phones_and_codes_from_before_name_no_carer() -> None:
    old = Old("m031_carers_and_drops")
    old.add("devices", id="d")
    old.add("enrolments", id="e")
    old.take_step()
    assert old.found("SELECT carer_name FROM devices UNION ALL SELECT carer_name FROM enrolments") == [("",), ("",)]


def test_nobody_said_yet_how_a_patient_from_before_is_reached() -> None:
    old = Old("m026_one_call")
    old.add("patients", id="p", born_on="1950-01-02")
    old.take_step()
    assert old.found("SELECT reached_by, reached_since, carer_phone FROM patients") == [("", None, "")]
    refused(old, "UPDATE patients SET reached_by = 'letter'", "CHECK constraint")


def staff(db: Old, id: str, subject: str | None, left_at: str | None = None) -> None:
    db.add("staff", id=id, email=id, directory_subject=subject, left_at=left_at)


def test_a_directory_means_one_member_of_staff_and_whoever_left_frees_the_name() -> None:
    db = Old("m035_passkeys").take_step()
    staff(db, "a", "one", left_at=AT)
    staff(db, "b", "one")
    staff(db, "c", None)
    staff(db, "d", None)
    with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
        staff(db, "e", "one")


def test_a_passkey_is_of_one_account_and_counts_from_nothing_up() -> None:
    db = Old("m035_passkeys").take_step()
    db.add("passkeys", id="a", credential_id="k", sign_count=0)
    for row in ({"credential_id": "k", "sign_count": 0}, {"credential_id": "l", "sign_count": -1}):
        with pytest.raises(sqlite3.IntegrityError):
            db.add("passkeys", id="b", **row)


@pytest.mark.parametrize("given", [2, -1])
def test_consent_is_given_or_taken_back_and_nothing_else(given: int) -> None:
    db = Old("m032_rights").take_step()
    with pytest.raises(sqlite3.IntegrityError, match="CHECK constraint"):
        db.add("consents", id="c", given=given)


@pytest.mark.parametrize("change", ["UPDATE consents SET given = 0", "DELETE FROM consents"])
def test_what_was_said_about_consent_stands(change: str) -> None:
    db = Old("m032_rights").take_step()
    db.add("consents", id="c", given=1)
    refused(db, change, "consents is append-only")


# --- What stands now ---


@pytest.mark.parametrize(
    ("step", "table"), [("m028_current_state", "changed_patients"), ("m033_kept_results", "changed_results")]
)
def test_after_the_step_everything_is_to_be_worked_out(step: str, table: str) -> None:
    old = Old(step)
    for id in "pq":
        old.add("patients", id=id, number=id, born_on="1950-01-02")
    assert old.take_step().found(f"SELECT patient_id FROM {table} ORDER BY 1") == [("p",), ("q",)]


@pytest.fixture
def marked() -> Callable[[str], list[tuple[Any, ...]]]:
    """Which patients one statement makes old, in a database whose states are all new."""
    db = Old("m036_reminded_by_time").take_step()
    for id in "pq":
        db.add("patients", id=id, number=id, born_on="1950-01-02")
        db.add("eyes", id=f"{id}-eye", patient_id=id, side="right")
        db.add("callbacks", id=f"{id}-call", eye_id=f"{id}-eye", how_soon="now", state="waiting")
        db.add("message_choices", person=f"patient:{id}", unwanted="[]")
    db.add("message_choices", person="staff:n", unwanted="[]")
    db.execute("DELETE FROM changed_patients")

    def after(statement: str) -> list[tuple[Any, ...]]:
        db.execute(statement)
        return db.found("SELECT patient_id FROM changed_patients ORDER BY 1")

    return after


@pytest.mark.parametrize(
    ("statement", "patients"),
    [
        ("UPDATE callbacks SET level = 1 WHERE id = 'p-call'", ["p"]),
        ("UPDATE callbacks SET level = 1", ["p", "q"]),
        ("DELETE FROM callbacks WHERE id = 'q-call'", ["q"]),
        ("UPDATE callbacks SET eye_id = 'q-eye', worry = 'y' WHERE id = 'p-call'", ["p", "q"]),
        ("UPDATE eyes SET ended_at = 'x' WHERE id = 'p-eye'", ["p"]),
        ("UPDATE patients SET name = 'y' WHERE id = 'q'", ["q"]),
        ("UPDATE message_choices SET unwanted = '[\"drops\"]' WHERE person = 'patient:p'", ["p"]),
        ("UPDATE message_choices SET person = 'patient:r' WHERE person = 'patient:p'", ["p", "r"]),
        ("DELETE FROM message_choices WHERE person = 'patient:p'", ["p"]),
        ("UPDATE message_choices SET unwanted = '[]' WHERE person = 'staff:n'", []),
        ("UPDATE devices SET used_by = 'x'", []),
    ],
)
def test_whoever_a_statement_is_about_is_old_and_nobody_else(
    marked: Callable[[str], list[tuple[Any, ...]]], statement: str, patients: list[str]
) -> None:
    assert marked(statement) == [(patient,) for patient in patients]


def test_after_the_step_what_waits_is_kept_and_what_is_over_is_not() -> None:
    old = Old("m042_only_what_waits")
    for id in ("waits", "aside", "done"):
        old.add("listed_operations", id=id, operated_on="2027-03-04", put_aside_at=AT if id == "aside" else None)
    old.add("operations", id="done", eye_id="e", created_at=LATER)
    old.add("operation_records", id="n", operation_id="done", operated_at=AT, body="{}")
    for id, ended in (("e", None), ("f", None), ("g", AT)):
        old.add("eyes", id=id, patient_id=f"p-{id}", side="right", ended_at=ended)
    for id, eye, given_up in (("operated", "e", 0), ("to-come", "f", 0), ("ended", "g", 0), ("given-up", "f", 1)):
        old.add("tasks", id=id, callback_id="c", eye_id=eye, kind="theatre", given_up=given_up, made_at=AT)
    old.add("tasks", id="phone", callback_id="c", eye_id="f", kind="phone", made_at=AT)
    days = {"earliest": "2027-03-04", "latest": "2027-03-30", "recorded_at": AT}
    for n in ("told", "untold", "changed"):
        old.add("visits", id=n, identity=n, eye_id="f", target="2027-03-20", **days)
        old.add("visits", id=f"{n}-2", identity=n, eye_id="f", replaces=n, target="2027-03-10", **days)
        old.add("visits_to_tell", visit_id=f"{n}-2", told_at=AT if n == "told" else None)
    old.add("visits", id="changed-3", identity="changed", eye_id="f", replaces="changed-2", target="2027-03-12", **days)
    old.take_step()
    assert old.found("SELECT * FROM listed_waiting") == [("waits", "2027-03-04")]
    assert old.found("SELECT * FROM changes_untold") == [("untold-2", "2027-03-10", "2027-03-20")]
    assert old.found("SELECT * FROM theatre_to_come") == [("to-come",)]


def test_another_rulebook_has_the_clock_look_at_every_eye() -> None:
    db = Old("m036_reminded_by_time").take_step()
    db.add("eye_states", eye_id="e", look_at=LATER)
    db.add("protocol_texts", id="t")
    assert db.found("SELECT look_at FROM eye_states") == [("",)]


def test_pages_that_were_opened_and_audit_entries_from_before_hold_no_facts() -> None:
    old = Old("m030_sealed_facts")
    old.add("audit", number=1)
    old.take_step().add("pages_opened", id="p")
    assert old.found("SELECT facts FROM audit") == [("",)]
    refused(old, "DELETE FROM pages_opened", "pages_opened is append-only")
