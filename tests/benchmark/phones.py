"""Phones that send after a day without a signal. What they send is made beforehand: phones do that on processors of their own."""

import json
from contextlib import closing
from datetime import UTC, datetime, timedelta
from http.client import HTTPConnection
from typing import NamedTuple
from urllib.parse import urlsplit

from demo_db import build
from followup.records.bodies.kinds import stored
from followup.records.store import new_id

ENTRIES = 20


class Phone(NamedTuple):
    """The secret that it keeps, and the eye that its entries are about."""

    token: str
    eye_id: str


def a_days_entries(phone: Phone) -> bytes:
    now = datetime.now(UTC)
    sent = [
        {
            "id": new_id(),
            "operation": phone.eye_id,
            "kind": "symptoms",
            "at": (now - timedelta(hours=24 - n)).isoformat(),
            "offset_minutes": 60,
            "sequence": n + 1,
            "by": "patient",
            "body": stored(build.CALM),
        }
        for n in range(ENTRIES)
    ]
    return json.dumps({"events": sent}).encode()


def send(address: str, phone: Phone, entries: bytes, host: str = "") -> int:
    """How many entries were received: all of them, by a clinic that may be just being opened."""
    headers = {"Content-Type": "application/json", "Cookie": f"device={phone.token}", **({"Host": host} if host else {})}
    status, told = 503, b""
    while status == 503:
        with closing(HTTPConnection(urlsplit(address).netloc, timeout=120)) as line:
            line.request("POST", "/api/v1/events", entries, headers)
            answer = line.getresponse()
            status, told = answer.status, answer.read()
    assert status == 200, status
    results = json.loads(told)["results"]
    assert [result["status"] for result in results] == ["received"] * ENTRIES
    return len(results)
