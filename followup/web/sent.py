"""What a device sent: JSON, gzipped or not. One entry that is no JSON takes no other with it."""

import json
import re
import zlib
from dataclasses import dataclass

from flask import request
from flask.typing import ResponseReturnValue as Answer
from pydantic import ValidationError

from followup.care.home.senders import Unreadable
from followup.care.messages import outgoing
from followup.exchange import outside
from followup.records.bodies.base import first_message
from followup.web import context

MAX_UNPACKED_BYTES = 4 * 1024 * 1024
_ID = re.compile(r'"id"\s*:\s*"([^"\\]{1,80})"')
_LIST = re.compile(r'"events"\s*:\s*\[')


def sent_json() -> object:
    """The request's JSON; None if it is none, or too large when unpacked."""
    return _read(_sent_bytes())


@dataclass(frozen=True)
class SentEvents:
    """What a phone sent: entries as they came, those that are no JSON as `Unreadable`, and when by its own clock."""

    events: list[object]
    sent_at: object


def sent_events() -> SentEvents | None:
    """The request's entries; None where it is no object with the list `events`."""
    data = _sent_bytes()
    whole = _read(data)
    if whole is None and (text := _text(data)) and (found := _LIST.search(text)):
        pieces, end = _pieces(text, found.end())
        around = _read((text[: found.end()] + text[end:]).encode("utf-8", "surrogatepass"))
        if isinstance(around, dict) and end < len(text):
            return SentEvents([_entry(piece) for piece in pieces], around.get("sent_at"))
    entries = whole.get("events") if isinstance(whole, dict) else None
    return SentEvents(entries, whole.get("sent_at")) if isinstance(whole, dict) and isinstance(entries, list) else None


def _sent_bytes() -> bytes:
    data = request.get_data()
    if request.headers.get("Content-Encoding") != "gzip":
        return data
    try:
        unpacked = zlib.decompressobj(wbits=31)
        data = unpacked.decompress(data, MAX_UNPACKED_BYTES)
    except zlib.error:
        return b""
    return b"" if unpacked.unconsumed_tail else data


def _read(data: bytes) -> object:
    try:
        made: object = json.loads(data)
        return made
    except (ValueError, RecursionError):
        return None


def _text(data: bytes) -> str:
    return data.decode("utf-8", "backslashreplace")


def _entry(piece: str) -> object:
    try:
        made: object = json.loads(piece)
        return made
    except (ValueError, RecursionError):
        found = _ID.search(piece)
        return Unreadable(piece, found[1] if found else "")


def _pieces(text: str, start: int) -> tuple[list[str], int]:
    """The entries of the list that begins there, cut at its own commas, and where the list ends."""
    pieces, begin, depth, quoted, at = [], start, 0, False, start
    while at < len(text):
        sign = text[at]
        if quoted:
            at += sign == "\\"
            quoted = sign != '"'
        elif sign == '"':
            quoted = True
        elif sign in "[{":
            depth += 1
        elif sign in ",]}" and depth == 0:
            pieces.append(text[begin:at])
            if sign != ",":
                break
            begin = at + 1
        elif sign in "]}":
            depth -= 1
        at += 1
    return [piece for piece in pieces if piece.strip()], at


def take_subscription(person: str, asked: object, device_id: str | None) -> Answer:
    """Keep a browser's push subscription."""
    try:
        subscription = outgoing.Subscription.model_validate(asked)
    except ValidationError as error:
        return {"error": first_message(error)}, 400
    if context.settings().server.secure_cookies and (fault := outside.leads_inside(subscription.endpoint)):
        return {"error": f"this browser’s push service cannot be used: {fault}"}, 400
    outgoing.subscribe(context.store(), context.now(), person, subscription, device_id=device_id)
    return "", 204
