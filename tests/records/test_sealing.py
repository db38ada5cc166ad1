"""What the chain vouches for: which writes it hears of, what a row's hash is taken of, and how entries hang together.

Hashes are worked out here anew with hashlib: SHA-256 (FIPS 180-4) over JSON with sorted keys and no spaces.
"""

import hashlib
import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.records import Store, audit, people, sealing, visits
from followup.records.values import Device
from tests.conftest import NOW
from tests.records.rows import callback, entry, known, person, right
from tests.records.test_tampering import past_us

LATER = NOW + timedelta(hours=1)
DAY_OF_HEAD = "2027-03-05T10:00:00Z"


def sha256(value: Any) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()).hexdigest()


def last(store: Store) -> dict[str, Any]:
    """The last entry with its hashes and facts as text."""
    return list(audit.everything(store))[-1]


def kept_hash(store: Store, number: int) -> str:
    """The hash that stands in the database, in its own bytes."""
    return bytes(known(store.row("SELECT packed FROM audit WHERE number = :n", {"n": number}))["packed"][:32]).hex()


def recorded(store: Store) -> list[list[str]]:
    """Table and key of each row that the last entry records."""
    return [fact[:2] for fact in json.loads(last(store)["facts"] or "[]")]


def test_a_fact_is_the_hash_of_what_the_row_holds_without_what_is_empty(store: Store, eye_id: str) -> None:
    id = entry(store, eye_id, body={"pain": 3})
    (row,) = store.rows("SELECT * FROM events WHERE id = :id", {"id": id})
    held = {name: value for name, value in row.items() if value not in (None, "")}
    assert "device_id" not in held
    assert list(sealing.of_table(store.db.conn, "events", id)) == [("events", id, sha256(held))]


def test_a_nought_is_something_and_changes_the_hash() -> None:
    assert sealing.canonical("visits", {"id": "v", "withdrawn": 0}) == '{"id":"v","withdrawn":0}'
    assert sealing.canonical("visits", {"id": "v", "why": "", "starts": None}) == '{"id":"v"}'


def test_letters_beyond_ascii_are_kept_as_they_are() -> None:
    assert sealing.canonical("patients", {"name": "Zoë Åkesson"}) == '{"name":"Zoë Åkesson"}'


def test_an_entry_hangs_on_the_one_before_it(store: Store, eye_id: str) -> None:
    audit.note(store, NOW, "test", "first", "x")
    number = last(store)["number"]
    before = kept_hash(store, number)
    audit.note(store, LATER, "test", "second", "y", {"b": 1, "a": 2})
    row = last(store)
    assert (row["previous"], row["detail"]) == (before, '{"a":2,"b":1}')
    parts = {name: row[name] for name in ("at", "who", "action", "subject", "detail")} | {"previous": before}
    assert row["hash"] == kept_hash(store, number + 1) == sha256(parts)


def test_the_facts_of_an_entry_are_in_its_hash_where_it_has_some(store: Store, eye_id: str) -> None:
    entry(store, eye_id)
    row = last(store)
    parts = {name: row[name] for name in row if name not in ("number", "hash")}
    assert [fact[0] for fact in json.loads(parts["facts"])] == ["events"]
    assert row["hash"] == kept_hash(store, row["number"]) == sha256(parts)


def test_the_first_entry_of_all_hangs_on_noughts(store: Store) -> None:
    audit.note(store, NOW, "test", "first", "x")
    (row,) = audit.everything(store)
    parts = {name: row[name] for name in ("at", "who", "action", "subject", "detail")} | {"previous": "0" * 64}
    assert row["previous"] == "0" * 64
    assert row["hash"] == kept_hash(store, 1) == sha256(parts)


def test_of_several_entries_of_one_transaction_the_last_records_the_rows(store: Store, eye_id: str) -> None:
    with store.transaction():
        audit.note(store, NOW, "test", "first", "x")
        id = entry(store, eye_id)
        audit.note(store, NOW, "test", "second", "y")
    first, second = list(audit.everything(store))[-2:]
    assert (first["action"], first["facts"]) == ("first", "")
    assert [fact[:2] for fact in json.loads(second["facts"])] == [["events", id]]


def test_a_row_written_twice_in_a_transaction_is_recorded_once_as_it_stands_then(store: Store, eye_id: str) -> None:
    call = callback(store, eye_id)
    with store.transaction():
        for level in (1, 2):
            store.execute("UPDATE callbacks SET level = :level WHERE id = :id", {"level": level, "id": call.id})
        audit.note(store, NOW, "test", "moved up", call.id)
    (fact,) = json.loads(last(store)["facts"])
    assert tuple(fact) == next(sealing.of_table(store.db.conn, "callbacks", call.id))


def test_rows_that_nobody_noted_are_recorded_as_such(store: Store, eye_id: str) -> None:
    id = entry(store, eye_id)
    assert (last(store)["who"], last(store)["action"], last(store)["subject"]) == ("followup", "recorded", "events")
    assert recorded(store) == [["events", id]]


def test_what_the_chain_does_not_vouch_for_makes_no_entry(store: Store, nurse: Actor) -> None:
    before = audit.head(store)
    store.insert("settings", {"key": "x", "value": "y"})
    people.count_try(store, NOW, "sign-in", "somebody")
    assert audit.head(store) == before


def test_when_a_phone_was_heard_changes_nothing_that_is_sealed(store: Store, device: Device) -> None:
    before, fact = audit.head(store), next(sealing.of_table(store.db.conn, "devices", device.id))
    people.device_heard(store, LATER, device.id)
    assert audit.head(store) == before
    assert next(sealing.of_table(store.db.conn, "devices", device.id)) == fact


def test_the_last_step_of_a_second_factor_is_not_sealed_and_the_secret_is(store: Store, nurse: Actor) -> None:
    people.set_second_factor(store, nurse.id, "wrapped", 1, [])
    assert recorded(store) == [["staff", nurse.id]]
    before = audit.head(store)
    assert people.use_step(store, nurse.id, 2)
    assert audit.head(store) == before


def test_a_locked_out_phone_is_recorded(store: Store, device: Device) -> None:
    people.revoke_device(store, NOW, device.id, "nurse:n")
    assert recorded(store) == [["devices", device.id]]


def test_rows_without_a_short_key_are_known_by_what_they_hold(store: Store, eye_id: str) -> None:
    row = {"id": "one", "device_id": None, "text": "{}"}
    expected = hashlib.sha256(b"one//{}").hexdigest()
    assert sealing.key_of_refused(row) == expected
    store.insert("refused_events", {**row, "eye_id": eye_id, "reason": "odd", "received_at": "x"})
    assert recorded(store) == [["refused_events", expected]]


def test_numbered_rows_are_known_by_their_number(store: Store) -> None:
    for day in (5, 6):
        visits.close(store, NOW, NOW.date().replace(day=day), "training", "nurse:n")
    assert recorded(store) == [["closures", "2"]]


def test_a_change_that_must_be_told_is_known_by_its_visit(store: Store, eye_id: str) -> None:
    (visit, *_) = visits.of_eye(store, eye_id)
    visits.must_tell(store, NOW, visit.id)
    assert recorded(store) == [["visits_to_tell", visit.id]]


def test_everything_that_stands_is_a_fact_once(store: Store, eye_id: str) -> None:
    facts = [fact[:2] for fact in sealing.everything(store.db.conn)]
    assert len(facts) == len(set(facts))
    for table in ("patients", "eyes", "operations", "visits", "consents", "staff"):
        count = known(store.row(f"SELECT count(*) AS n FROM {table}"))["n"]
        assert sum(name == table for name, _ in facts) == count > 0


def test_a_database_nobody_wrote_past_has_no_row_that_does_not_fit(store: Store, eye_id: str) -> None:
    assert audit.unfit(store, sealing.everything(store.db.conn)) == set()
    eye = right(store, person(store)).id
    past_us(store, f"UPDATE eyes SET end_reason = 'x' WHERE id = '{eye}'")
    assert audit.unfit(store, sealing.everything(store.db.conn)) == {("eyes", eye)}


# --- Reading the chain ---


@pytest.fixture
def long(store: Store, monkeypatch: pytest.MonkeyPatch) -> Store:
    """A chain of seven entries, of which three are shown at a time."""
    monkeypatch.setattr(audit, "SHOWN", 3)
    for n in range(7):
        audit.note(store, NOW + timedelta(minutes=n), "test", f"act {n + 1}", "x")
    return store


@pytest.mark.parametrize(
    ("before", "numbers"),
    [(None, [7, 6, 5]), (5, [4, 3, 2]), (2, [1]), (1, []), (0, [7, 6, 5]), (-4, []), (10**30, [7, 6, 5])],
)
def test_the_chain_is_read_page_by_page_whatever_the_address_says(
    long: Store, before: int | None, numbers: list[int]
) -> None:
    assert [e.number for e in audit.latest(long, before)] == numbers


def test_all_of_the_chain_is_read_in_its_order(long: Store) -> None:
    assert [row["number"] for row in audit.everything(long)] == list(range(1, 8))
    assert [row["action"] for row in audit.of_subject(long, "x")] == [f"act {n}" for n in range(1, 8)]
    assert audit.of_subject(long, "y") == []


def test_the_head_of_an_empty_chain_is_noughts(store: Store) -> None:
    assert audit.head(store) == (0, "0" * 64)


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ("", False),
        (" \n", False),
        ("2027-03-05T10:0", True),
        ("2027-03-05T10:00:00Z 7 abc", True),
        (f"2027-03-05T10:00:00Z 7 {'f' * 64} 01a2", True),
        (f"2027-03-05T10:00:00Z ² {'f' * 64}", True),
        ("\xff\xfe", True),
    ],
)
def test_a_line_that_was_cut_off_is_named_and_takes_no_other_with_it(
    long: Store, tmp_path: Path, wrong: str, named: bool
) -> None:
    audit.keep_head(long, tmp_path, NOW)
    with (tmp_path / audit.HEADS).open("ab") as file:
        file.write(wrong.encode("latin-1" if "\xff" in wrong else "utf-8"))
    audit.keep_head(long, tmp_path, LATER)
    assert [head.at for head in audit.heads_kept(tmp_path)] == [DAY_OF_HEAD, "2027-03-05T11:00:00Z"]
    assert [line.partition(" of ")[0] for line in audit.heads_unread(tmp_path)] == ["line 2"] * named


def test_heads_are_kept_line_by_line_with_their_life_and_begin_anew_after_a_restore(long: Store, tmp_path: Path) -> None:
    assert audit.heads_kept(tmp_path) == []
    hash, life = kept_hash(long, 7), kept_hash(long, 1)
    assert audit.keep_head(long, tmp_path, NOW) == f"{DAY_OF_HEAD} 7 {hash} {life}"
    audit.keep_head(long, tmp_path, LATER)
    kept = [audit.Head(DAY_OF_HEAD, 7, hash, life), audit.Head("2027-03-05T11:00:00Z", 7, hash, life)]
    assert audit.heads_kept(tmp_path) == kept
    with (tmp_path / audit.HEADS).open("a", encoding="utf-8") as file:
        file.write(f"{DAY_OF_HEAD} 9 {'f' * 64} {life}\n")
    assert audit.missing_heads(long, audit.heads_kept(tmp_path)) != []
    audit.keep_head(long, tmp_path, LATER, restored=True)
    assert audit.heads_kept(tmp_path)[3:] == [audit.Head("2027-03-05T11:00:00Z", 7, hash, life, restored=True)]
    assert audit.missing_heads(long, audit.heads_kept(tmp_path)) == []


@pytest.mark.parametrize("says_whose", [True, False])
@pytest.mark.parametrize(
    ("number", "hash", "told"),
    [
        (7, None, None),
        (3, None, None),
        (0, "0" * 64, None),
        (8, "f" * 64, "which was cut: it ends at 7"),
        (3, "f" * 64, "which was written anew"),
    ],
)
def test_a_head_that_left_is_looked_for_in_the_chain(
    long: Store, number: int, hash: str | None, told: str | None, says_whose: bool
) -> None:
    stands, life = hash or kept_hash(long, number), kept_hash(long, 1) if says_whose else ""
    faults = audit.missing_heads(long, [audit.Head(DAY_OF_HEAD, number, stands, life)])
    assert faults == (
        [f"audit entry {number}, noted outside on {DAY_OF_HEAD}, is not in the chain any more, {told}"] if told else []
    )
