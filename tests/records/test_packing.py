"""What the chain packs comes back as it was, and nothing else is taken for it."""

import hashlib
import json
import uuid

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.care import trail
from followup.records import Store, audit, backup, export, packing, sealing
from followup.records.packing import Fact
from tests.conftest import NOW
from tests.records.test_tampering import lived, past_us

__all__ = ["lived"]

hashes = st.binary(min_size=32, max_size=32).map(bytes.hex)
keys = st.one_of(
    st.uuids().map(str), st.uuids().map(lambda id: str(id).upper()), st.integers().map(str), hashes,
    st.text(st.characters(), max_size=300), st.uuids().map(lambda id: id.hex), st.uuids().map(lambda id: f"{id}\n"),
)  # fmt: skip
facts = st.lists(st.tuples(st.sampled_from(sorted(sealing.SEALED)), keys, hashes), max_size=6)


@given(hashes, facts)
def test_what_is_packed_comes_back_as_it_was(hash: str, told: list[Fact]) -> None:
    held = packing.packed(hash, told)
    assert packing.unpacked(held) == (hash, told)
    entry = {"at": "x", "who": "x", "action": "x", "subject": "x", "detail": "null"}
    kept, own = sealing.linked(entry, "0" * 64, told)
    opened = sealing.opened(kept, "0" * 64)
    assert opened.pop("hash") == own == sealing.entry_hash(opened)
    assert opened == {**entry, "previous": "0" * 64, "facts": json.dumps(told) if told else ""}


@given(hashes, facts, st.data())
def test_what_ends_too_early_is_refused(hash: str, told: list[Fact], data: st.DataObject) -> None:
    held = packing.packed(hash, told)
    whole = {len(packing.packed(hash, told[:n])) for n in range(len(told) + 1)}
    end = data.draw(st.integers(0, len(held) - 1))
    if end in whole:
        assert packing.unpacked(held[:end]) == (hash, told[: sorted(whole).index(end)])
    else:
        with pytest.raises(ValueError, match="too early"):
            packing.unpacked(held[:end])


def test_a_row_of_the_usual_kind_takes_the_bytes_that_are_said() -> None:
    """The layout is a promise: SHA-256 has 32 bytes (FIPS 180-4), a UUID 16 (RFC 9562)."""
    hash, id = hashlib.sha256(b"").digest(), uuid.UUID(int=7)
    held = packing.packed(hash.hex(), [("events", str(id), hash.hex()), ("closures", "7", hash.hex())])
    assert held == hash + b"\x06events" + id.bytes + hash + b"\x88closures\x00\x017" + hash


TAMPERED = {
    "a bit of its hash": "packed = CAST(x'00' || substr(packed, 2) AS BLOB)",
    "a bit of a fact": "packed = CAST(substr(packed, 1, length(packed) - 1) || x'00' AS BLOB)",
    "a fact taken out": "packed = substr(packed, 1, 32)",
    "a fact put in": "packed = CAST(packed || substr(packed, 33) AS BLOB)",
    "its end": "packed = substr(packed, 1, length(packed) - 5)",
    "all of it": "packed = x''",
    "none of ours": "packed = x'ff00ff'",
    "nothing": "packed = NULL",
    "a hash beside it": "hash = 'x'",
    "the entry before, beside it": "previous = 'x'",
    "facts beside it": "facts = '[]'",
}


@pytest.mark.parametrize("what", TAMPERED)
def test_a_packed_entry_that_was_changed_breaks_the_chain_there(lived: Store, what: str) -> None:
    number = max(number for number, told in sealing.recordings(lived.db.conn) if told)
    past_us(lived, f"UPDATE audit SET {TAMPERED[what]} WHERE number = {number}")
    assert backup.faults(lived)[0] == f"the audit chain breaks at entry {number}"


def test_entries_from_before_stand_as_they_are_and_new_ones_go_on_after_them(lived: Store) -> None:
    """A chain in the former writing, as it is in every clinic that upgrades."""
    former = list(audit.everything(lived))
    names = ", ".join(former[0])
    rows = [", ".join(str(v) if n == "number" else quoted(v) for n, v in entry.items()) for entry in former]
    past_us(lived, "DELETE FROM audit", *(f"INSERT INTO audit ({names}) VALUES ({row})" for row in rows))
    assert backup.faults(lived) == []
    assert audit.head(lived) == (former[-1]["number"], former[-1]["hash"])
    audit.note(lived, NOW, "nurse:x", "something", "x")
    assert backup.faults(lived) == []
    assert list(audit.everything(lived))[:-1] == former
    assert lived.rows("SELECT count(*) AS n FROM audit WHERE packed IS NULL")[0]["n"] == len(former)
    past_us(lived, "UPDATE audit SET who = 'nurse:y' WHERE number = 2")
    assert backup.faults(lived)[0] == "the audit chain breaks at entry 2"


def quoted(value: str) -> str:
    return "'" + value.replace("'", "''") + "'"


def test_whoever_takes_the_chain_out_gets_text(lived: Store) -> None:
    entries = list(export.rows(lived, "audit"))
    assert len(entries) == audit.head(lived)[0] > 1
    for entry in entries:
        assert "packed" not in entry
        assert len(entry["hash"]) == len(entry["previous"]) == 64
    assert "packed" not in export.columns(lived, "audit")
    table = [dict(zip(trail.COLUMNS, row, strict=True)) for row in trail.table(lived)]
    assert [row["previous"] for row in table[1:]] == [row["hash"] for row in table[:-1]]
    assert any(json.loads(row["facts"])[0][0] == "events" for row in table if row["facts"])
