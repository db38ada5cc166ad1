"""The phones' machine interface, version 1."""

from datetime import datetime
from typing import Any

from flask import Blueprint, Response, jsonify, request, url_for
from flask.typing import ResponseReturnValue as Answer
from flask_babel import gettext
from pydantic import BaseModel, ConfigDict, Field, RootModel, ValidationError

from followup.care import bounds
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import NotFound, Refused
from followup.care.home import helpers as care_helpers
from followup.care.home import pack as packs
from followup.care.home import sealing
from followup.care.home.pack_parts import Pack
from followup.care.home.receive import Result, receive, receive_sealed
from followup.care.messages import outgoing
from followup.care.messages.reminders import PATIENT_KINDS
from followup.care.reading.events import Envelope
from followup.clinical import acuity
from followup.exchange import push_keys
from followup.records.bodies.base import first_message
from followup.records.values import Device
from followup.web import context
from followup.web.interfaces import described
from followup.web.sent import sent_events, sent_json, take_subscription

bp = Blueprint("api", __name__, url_prefix="/api/v1")
MOST_EVENTS = 200


class Batch(BaseModel):
    """Events from one phone, at most 200, in any order, and what the phone's clock says now.

    A `sent_at` that cannot be, or has no offset, counts as absent.
    """

    model_config = ConfigDict(extra="forbid")

    sent_at: datetime | None = None
    events: list[Envelope] = Field(max_length=MOST_EVENTS)


class SealedBatch(BaseModel):
    """Packets that a locked-out phone sealed, sent after it was enrolled again, and what its clock says now."""

    model_config = ConfigDict(extra="forbid")

    sent_at: Any = None
    sealed: list[sealing.Sealed] = Field(max_length=20)


class MessageSettings(BaseModel):
    """What this phone's person chose, what there is to choose from, and the key for push subscriptions."""

    choices: outgoing.Choices
    kinds: list[str]
    email_possible: bool
    push_key: str


class Phone(BaseModel):
    """A phone of the patient or of a carer (`name`: as the patient calls them); `own` is the one that asks."""

    id: str
    used_by: str
    name: str
    since: datetime
    heard: datetime
    own: bool


class Phones(BaseModel):
    """Who reads and writes for the patient, and whether this phone may let others in and remove them."""

    phones: list[Phone]
    may_invite: bool


class Invited(BaseModel):
    """The carer for whom a code is made."""

    model_config = ConfigDict(extra="forbid")

    name: str


class Code(BaseModel):
    """A one-time code, the page on which it is typed, and a link that has it."""

    code: str
    page: str
    link: str


class Results(BaseModel):
    """What became of each event, in the order sent; another `generation` than before: send again what was received."""

    results: list[Result]
    generation: str


class Known(BaseModel):
    """Whether this browser was set up as a phone, locked out since or not."""

    set_up: bool


class AcuityTable(RootModel[dict[str, list[float | str | None]]]):
    """By each way to write an acuity: logMAR, Snellen at 6 m, at 20 ft, and letters (null where the chart has none)."""


@bp.get("/known")
@described(Known)
def known() -> Answer:
    """Whether this browser was set up; one that was not asks for no pack, which would be refused."""
    return jsonify(Known(set_up=context.known_device() is not None).model_dump())


@bp.get("/pack")
@described(Pack)
def pack() -> Answer:
    """All that the phone shows offline, in the language asked for; 304 when nothing changed."""
    made = packs.pack(context.store(), context.settings().clinic, _device(), context.now(), gettext)
    response = Response(made.model_dump_json(), mimetype="application/json")
    response.set_etag(packs.mark(made))
    return response.make_conditional(request)


@bp.post("/events")
@described(Results, body=Batch, refuses=(413,))
def events() -> Answer:
    """Take events; each is answered on its own, so a bad one never holds up the others."""
    sent = sent_events()
    if sent is None:
        return {"error": "send an object with the list “events”"}, 400
    if len(sent.events) > MOST_EVENTS:
        return {"error": f"send at most {MOST_EVENTS} events at once"}, 413
    results = receive(context.store(), context.now(), _device(), sent.events, context.zone(), bounds.clock(sent.sent_at))
    return _told(results)


@bp.post("/sealed")
@described(Results, body=SealedBatch)
def sealed() -> Answer:
    """Open what a locked-out phone had sealed, and take it as its events.

    A packet that cannot be opened is kept as it came, and refused under its own digest in the place of its entries.
    """
    try:
        batch = SealedBatch.model_validate(sent_json())
    except ValueError as error:
        return {"error": str(error)}, 400
    sent_at = bounds.clock(batch.sent_at)
    results = receive_sealed(context.store(), context.now(), _device(), batch.sealed, context.zone(), sent_at)
    return _told(results)


def _told(results: list[Result]) -> Answer:
    said = [r.model_copy(update={"reason": gettext(r.reason)}) if r.reason else r for r in results]
    return jsonify(Results(results=said, generation=packs.generation(context.store())).model_dump())


@bp.get("/messages")
@described(MessageSettings)
def messages() -> Answer:
    """How this phone's person wants to be reached, and what is possible here."""
    when = context.settings().messages
    chosen = outgoing.choices_of(context.store(), _person(), context.settings().clinic, when)
    key = push_keys.public_key(context.store())
    said = MessageSettings(choices=chosen, kinds=list(PATIENT_KINDS), email_possible=bool(when.smtp_host), push_key=key)
    return jsonify(said.model_dump(mode="json"))


@bp.put("/messages")
@described(outgoing.Choices, body=outgoing.Choices)
def choose_messages() -> Answer:
    """Keep how this phone's person wants to be reached."""
    try:
        chosen = outgoing.Choices.model_validate(sent_json())
    except ValidationError as error:
        return {"error": gettext(first_message(error).partition(": ")[2] or str(error))}, 400
    outgoing.choose(context.store(), context.now(), _person(), chosen)
    return jsonify(chosen.model_dump(mode="json"))


@bp.post("/push")
@described(body=outgoing.Subscription)
def push() -> Answer:
    """Push reminders to this phone from now on."""
    return take_subscription(_person(), sent_json(), _device().id)


def _person() -> str:
    return f"patient:{_device().patient_id}"


def _device() -> Device:
    device = context.device()
    assert device is not None
    return device


@bp.get("/helpers")
@described(Phones)
def helpers() -> Answer:
    """The phones that read and write for this patient."""
    device = _device()
    known = [
        Phone(id=d.id, used_by=d.used_by, name=d.carer_name, since=d.enrolled_at, heard=d.heard_at, own=d.id == device.id)
        for d in care_helpers.phones(context.store(), device)
    ]
    return jsonify(Phones(phones=known, may_invite=device.used_by == "patient").model_dump(mode="json"))


@bp.post("/helpers")
@described(Code, body=Invited)
def invite() -> Answer:
    """Make a code for the phone of a carer."""
    try:
        named = Invited.model_validate(sent_json())
        code = care_helpers.invite(_desk(), _device(), named.name)
    except ValidationError as error:
        return {"error": first_message(error)}, 400
    except Refused as error:
        return {"error": gettext(str(error))}, 403
    page = f"{context.settings().server.public_address}{url_for('patient.enrolment')}"
    return jsonify(Code(code=code, page=page, link=f"{page}?code={code}").model_dump())


@bp.post("/helpers/<device_id>/remove")
@described(refuses=(404,))
def remove_helper(device_id: str) -> Answer:
    """Lock the phone of a carer out."""
    try:
        care_helpers.remove(_desk(), _device(), device_id)
    except (Refused, NotFound) as error:
        return {"error": gettext(str(error))}, 404 if isinstance(error, NotFound) else 403
    return "", 204


def _desk() -> Desk:
    """What this phone acts with, in the name of whoever uses it."""
    device = _device()
    by = Actor(device.id, device.carer_name or f"the {device.used_by}", device.used_by)
    return Desk(context.store(), context.now(), by, context.zone())


@bp.get("/acuity-table")
@described(AcuityTable)
def acuity_table() -> Answer:
    """Every usual way to write an acuity with its conversions, for pages that work offline."""
    response = jsonify(acuity.table())
    response.headers["Cache-Control"] = "public, max-age=86400"
    return response
