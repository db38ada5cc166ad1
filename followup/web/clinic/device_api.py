"""What a clinic device fetches and sends: the day's sheet, and entries made without a signal.

Entries come sealed for this clinic with the pass of whoever made them inside, so they may be sent after that person
signed out; only a signed-in member of staff is told what they raised.
"""

from datetime import datetime
from threading import BoundedSemaphore
from typing import Any

from flask import Blueprint, Response, jsonify, request
from flask.typing import ResponseReturnValue as Answer
from itsdangerous import BadSignature, SignatureExpired, URLSafeTimedSerializer
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from followup.care import bounds, signatures
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import pack as packs
from followup.care.home import sealing
from followup.care.home.receive import (
    Result,
    count_junk,
    receive_from_clinic,
    refuse_from_clinic,
    refuse_packet,
    refuse_shut,
    too_much_junk,
)
from followup.care.learning import agreement
from followup.care.messages import outgoing
from followup.care.reading import person
from followup.care.today import daysheet as daysheets
from followup.care.today.daysheet import DaySheet, FollowedPage
from followup.care.watch.raising import raised_at
from followup.clinical.warnings import HowSoon
from followup.web import context
from followup.web.interfaces import described
from followup.web.sent import sent_json, take_subscription

bp = Blueprint("clinic_api", __name__, url_prefix="/api/v1/clinic")
PASS_DAYS = 14
_opening = BoundedSemaphore(2)  # of a worker's four threads: the others go on serving pages


class Packet(BaseModel):
    """What stands inside a sealed packet."""

    model_config = ConfigDict(extra="forbid")

    author_pass: str
    events: list[Any] = Field(max_length=50)


class SealedEntries(BaseModel):
    """Sealed packets, and what the device's clock says now (absent where it cannot be)."""

    model_config = ConfigDict(extra="forbid")

    sent_at: Any = None
    sealed: list[sealing.Sealed] = Field(max_length=20)


class Raised(BaseModel):
    """A warning that a delivery raised."""

    how_soon: HowSoon
    words: str


class WhoRead(BaseModel):
    """What one person wrote down."""

    who: str
    words: str


class Differing(BaseModel):
    """What two people measured differently on one eye and day."""

    eye: str
    what: str
    readings: list[WhoRead]


class PacketTaken(BaseModel):
    """What became of one packet; `error` where it could not be opened and is kept as it came.

    Of one that is not kept either nothing is said. Who is not signed in is told no consequences.
    """

    results: list[Result]
    error: str | None = None
    raised: list[Raised] = []
    differing: list[Differing] = []


class Delivery(BaseModel):
    """What became of each packet, in the order sent; another `generation` than before: send again what was received."""

    packets: list[PacketTaken]
    generation: str


@bp.get("/here")
@described()
def here() -> Answer:
    """Answers whoever asks whether there is a signal."""
    return "", 204


@bp.post("/leave")
@described()
def leave() -> Answer:
    """End the session of whoever signed out on the device, at once or when it has a signal again."""
    context.sign_out()
    return "", 204


@bp.get("/daysheet")
@described(DaySheet)
def sheet() -> Answer:
    """Today's list and entry screens for a device of whoever is signed in; 304 when nothing changed since the one it has.

    `Made-At` says what the clinic's clock shows, also where nothing is made.
    """
    desk = context.desk()
    mark = daysheets.mark(desk)  # before it is made: what is recorded meanwhile makes another one
    if request.if_none_match.contains_weak(mark):
        answer = Response(status=304)
    else:
        answer = Response(daysheets.daysheet(desk, author_pass(context.me())).model_dump_json(), mimetype="application/json")
    answer.set_etag(mark, weak=True)
    answer.headers["Made-At"] = desk.now.isoformat()
    return answer


@bp.get("/followed")
@described(FollowedPage)
def followed() -> Answer:
    """Everybody who is followed, a page at a time (`before`: what the page before gave as `next`), for whoever comes unplanned."""
    made = daysheets.followed(context.desk(), request.args.get("before", daysheets.FIRST_PAGE))
    return Response(made.model_dump_json(), mimetype="application/json")


@bp.post("/entries")
@described(Delivery, body=SealedEntries, refuses=(429,))
def entries() -> Answer:
    """Take sealed entries; each packet is answered with its events' results, in the order sent.

    Anybody may send, since whoever made them may have signed out. So a few at a time are opened, and an address that
    sends what nobody here made is not heard for a while: the pages stay quick and the list of refused entries short.
    """
    if not _opening.acquire(blocking=False):
        return {"error": "too many entries come at once; they are sent again"}, 503, {"Retry-After": "5"}
    try:
        return _entries()
    finally:
        _opening.release()


def _entries() -> Answer:
    if context.staff() is None and too_much_junk(context.store(), context.now(), request.remote_addr or ""):
        return {"error": "too much came from here that nobody of this clinic made; sign in, or wait an hour"}, 429
    try:
        batch = SealedEntries.model_validate(sent_json())
    except ValidationError:
        return {"error": "send sent_at and a list of sealed packets"}, 400
    sent_at = bounds.clock(batch.sent_at)
    packets = [_take(packet, sent_at) for packet in batch.sealed]
    return jsonify({"packets": packets, "generation": packs.generation(context.store())})


@bp.post("/push")
@described(body=outgoing.Subscription)
def push() -> Answer:
    """Push to this browser of a member of staff from now on."""
    return take_subscription(f"staff:{context.me().id}", sent_json(), None)


def author_pass(actor: Actor) -> str:
    """What proves later whose entries a device sends."""
    return str(_signer().dumps(actor.id))


def _take(sealed: sealing.Sealed, sent_at: datetime | None) -> dict[str, Any]:
    try:
        packet = Packet.model_validate(sealing.opened(context.store(), sealed))
    except ValueError:
        count_junk(context.store(), context.now(), request.remote_addr or "")
        kept = refuse_shut(context.store(), context.now(), context.staff(), sealed)
        return {"results": [], "error": kept.reason if kept else None}
    try:
        actor = _author(packet.author_pass)
    except ValueError as error:
        if isinstance(error.__cause__, BadSignature) and not isinstance(error.__cause__, SignatureExpired):
            count_junk(context.store(), context.now(), request.remote_addr or "")
            refused = refuse_packet(context.store(), context.now(), packet.events, str(error))
            return {"results": [r.model_dump() for r in refused]}
        refused = refuse_from_clinic(context.store(), context.now(), packet.events, str(error))
        return {"results": [r.model_dump() for r in refused]}
    results = receive_from_clinic(Desk(context.store(), context.now(), actor, context.zone()), packet.events, sent_at)
    taken = [raw for raw, result in zip(packet.events, results, strict=True) if result.status == "received"]
    told = _consequences({event["operation"] for event in taken}) if context.staff() else {}
    return {"results": [r.model_dump() for r in results], **told}


def _author(author_pass: str) -> Actor:
    """Whose entries these are. Raises ValueError for a pass that is not ours, or too old."""
    try:
        id = _signer().loads(author_pass, max_age=PASS_DAYS * 86400)
    except BadSignature as error:
        raise ValueError("the pass of this entry is not valid here; ask for it to be entered again") from error
    actor = context.member(id)
    if actor is None:
        raise ValueError("whoever made this entry has no account here any more")
    return actor


def _consequences(operations: set[str]) -> dict[str, Any]:
    """What this delivery raised in these eyes, and where another person measured differently."""
    store, now = context.store(), context.now()
    raised, differing = [], []
    for id in {eye.id for operation in operations for eye in person.eyes_beside(store, operation)}:
        raised += raised_at(store, id, now)
        differing += [d for d in agreement.of_eye(store, id, context.zone()) if d.day == context.today()]
    return {
        "raised": [{"how_soon": w.how_soon, "words": w.words} for w in raised],
        "differing": [
            {"eye": d.eye, "what": d.what, "readings": [{"who": r.who, "words": r.words} for r in d.readings]}
            for d in differing
        ],
    }


def _signer() -> URLSafeTimedSerializer:
    return signatures.timed(context.store(), context.now(), "clinic-device")
