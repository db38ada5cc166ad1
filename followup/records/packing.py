"""What an audit entry keeps of hashes, in few bytes: its own, and those of the rows that it records.

32 bytes are the SHA-256 of the entry. For each row follow: a byte with the length of its table's name, and 128 more where
its key is no UUID; the name; the key (16 bytes, or two of its length and so many of UTF-8); 32 bytes of the row's SHA-256.
"""

import re
from collections.abc import Sequence

Fact = tuple[str, str, str]
"""Table, key, and hash of what the row holds."""
LONG = 32
_UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_TEXT = 128


def packed(hash: str, facts: Sequence[Fact]) -> bytes:
    """The hash of an entry and its facts. Hashes are SHA-256 in lower case; names of tables have less than 128 bytes."""
    parts = [bytes.fromhex(hash)]
    for table, key, of_row in facts:
        name = table.encode()
        if _UUID.fullmatch(key):
            parts += [bytes([len(name)]), name, bytes.fromhex(key.replace("-", ""))]
        else:
            text = key.encode("utf-8", "surrogatepass")
            parts += [bytes([len(name) | _TEXT]), name, len(text).to_bytes(2, "big"), text]
        parts.append(bytes.fromhex(of_row))
    return b"".join(parts)


def hash_of(held: bytes) -> str:
    """The hash of an entry alone."""
    return held[:LONG].hex()


def unpacked(held: bytes) -> tuple[str, list[Fact]]:
    """The hash of an entry and its facts, as they were packed. Raises ValueError for what was not packed here."""
    at, facts = LONG, list[Fact]()
    while at < len(held):
        start = at + 1
        at = start + (held[start - 1] & ~_TEXT)
        table = held[start:at].decode()
        if held[start - 1] & _TEXT:
            start = at + 2
            at = start + int.from_bytes(held[at:start], "big")
            key = held[start:at].decode("utf-8", "surrogatepass")
        else:
            digits = held[at : at + 16].hex()
            key = "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))
            at += 16
        facts.append((table, key, held[at : at + LONG].hex()))
        at += LONG
    if at != len(held):
        raise ValueError("it ends too early")
    return hash_of(held), facts
