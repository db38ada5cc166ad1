"""Entries as phones and clinic devices make them, whole or spoilt."""

import random
import uuid
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any

from tests.fuzz import poison

TREND = ("better", "same", "worse")
PHONE_KINDS = ("symptoms", "posture", "bubble-seen", "journey", "anaesthetic", "drops", "visit-request", "withdrawal")
CLINIC_KINDS = ("measures", "arrived", "seen", "no-gas-seen")


def phones(pick: random.Random, now: datetime, eyes: Sequence[str], known: Sequence[str]) -> dict[str, Any]:
    """An entry of a patient's phone about one of these eyes; `known` are entries that it may point back at."""
    made = _entry(pick, now, eyes, pick.choice(PHONE_KINDS)) | {"by": pick.choice(("patient", "carer"))}
    if known and (made["kind"] == "withdrawal" or pick.random() < 0.1):
        made["corrects"] = pick.choice(known)
    return made


def clinics(pick: random.Random, now: datetime, eyes: Sequence[str]) -> dict[str, Any]:
    """An entry of a clinic device without a signal."""
    return _entry(pick, now, eyes, pick.choice(CLINIC_KINDS))


def _entry(pick: random.Random, now: datetime, eyes: Sequence[str], kind: str) -> dict[str, Any]:
    number = f"{pick.getrandbits(128):032x}"
    at = now - timedelta(minutes=pick.randint(0, 3000))
    return {
        "id": str(uuid.UUID(f"{number[:12]}7{number[13:16]}8{number[17:]}")),
        "operation": pick.choice(eyes),
        "kind": kind,
        "at": at.isoformat(),
        "offset_minutes": pick.choice((0, 60)),
        "sequence": pick.randint(1, 100_000),
        "body": _body(pick, kind, at),
    }


def _body(pick: random.Random, kind: str, at: datetime) -> dict[str, Any]:
    if kind == "symptoms":
        trends = {name: pick.choice(TREND) for name in ("vision", "redness", "flashes", "floaters", "other_eye")}
        signs = {name: pick.random() < 0.1 for name in ("discharge", "curtain", "vomiting", "fever", "injury")}
        said = {"pain": pick.randint(0, 10), **trends, **signs, "words": pick.choice(("", "", "it stings"))}
        return {name: said[name] for name in pick.sample(list(said), pick.randint(1, len(said)))}
    if kind == "posture":
        start = at - timedelta(minutes=pick.randint(10, 300))
        return {"position": pick.choice(("face-down", "left-cheek")), "from": start.isoformat(), "to": at.isoformat()}
    if kind == "measures":
        read = {"acuity": "6/60", "correction": "unaided", "iop": "18", "instrument": "applanation", "bubble_percent": "60"}
        return {"eye": pick.choice(("right", "left")), **read}
    bodies: dict[str, dict[str, Any]] = {
        "bubble-seen": {"percent": pick.randint(0, 100)},
        "journey": {"heights_metres": [20, pick.randint(100, 3000)]},
        "anaesthetic": {"words": "a tooth"},
        "drops": {"name": "steroid"},
        "visit-request": {"visit": "week 1", "words": "another day, please"},
        "withdrawal": {"reason": "a slip"},
        "arrived": {"visit": "week 1"},
        "seen": {"visit": "week 1"},
    }
    return bodies.get(kind, {})


def spoilt(pick: random.Random, entry: dict[str, Any]) -> Any:
    """The entry as it is (two in five), or spoilt in up to three places."""
    times = pick.choice((0, 0, 1, 1, 3))
    if not times:
        return entry
    if pick.random() < 0.6:
        return entry | {"body": poison.spoilt(pick, entry["body"], times)}
    return poison.spoilt(pick, entry, times)
