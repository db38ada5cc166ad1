"""The phones' machine interface, version 1. Its OpenAPI description comes from the models that check it."""

from typing import Any

from flask import Blueprint, Response, jsonify, request
from pydantic import BaseModel, ConfigDict, Field
from pydantic.json_schema import models_json_schema

from followup.care import pack as packs
from followup.care.events import PATIENT_KINDS, Envelope
from followup.care.receive import Result, receive
from followup.clinical import acuity
from followup.web import context

bp = Blueprint("api", __name__, url_prefix="/api/v1")
MOST_EVENTS = 200


class Batch(BaseModel):
    """Events from one phone, at most 200, in any order."""

    model_config = ConfigDict(extra="forbid")

    events: list[Envelope] = Field(max_length=MOST_EVENTS)


class Results(BaseModel):
    """What became of each event, in the order sent."""

    results: list[Result]


@bp.before_request
def only_enrolled_phones() -> Any:
    """401 without a valid device: the phone keeps its entries and says so."""
    if request.endpoint not in ("api.openapi", "api.acuity_table") and context.device() is None:
        return {"error": "this phone is not enrolled, or was locked out"}, 401
    return None


@bp.get("/pack")
def pack() -> Any:
    """All that the phone shows offline; 304 when nothing changed."""
    device = context.device()
    assert device is not None
    made = packs.pack(context.store(), context.settings().clinic, device, context.now())
    response = Response(made.model_dump_json(), mimetype="application/json")
    response.set_etag(packs.mark(made))
    return response.make_conditional(request)


@bp.post("/events")
def events() -> Any:
    """Take events; each is answered on its own, so a bad one never holds up the others."""
    device = context.device()
    assert device is not None
    body = request.get_json(silent=True)
    batch = body.get("events") if isinstance(body, dict) else None
    if not isinstance(batch, list):
        return {"error": "send an object with the list “events”"}, 400
    if len(batch) > MOST_EVENTS:
        return {"error": f"send at most {MOST_EVENTS} events at once"}, 413
    results = receive(context.store(), context.now(), device, batch, context.zone())
    return jsonify(Results(results=results).model_dump())


@bp.get("/acuity-table")
def acuity_table() -> Any:
    """Every usual way to write an acuity with its conversions, for pages that work offline."""
    response = jsonify(acuity.table())
    response.headers["Cache-Control"] = "public, max-age=86400"
    return response


@bp.get("/openapi.json")
def openapi() -> Any:
    """OpenAPI 3.1, from the models."""
    models: list[Any] = [Batch, Results, packs.Pack, *PATIENT_KINDS.values()]
    ref = "#/components/schemas/{model}"
    _, schemas = models_json_schema([(m, "validation") for m in models], ref_template=ref)

    def answers(model: str) -> dict[str, Any]:
        schema = {"$ref": ref.format(model=model)}
        return {"200": {"description": model, "content": {"application/json": {"schema": schema}}}, "401": _REFUSED}

    body = {"required": True, "content": {"application/json": {"schema": {"$ref": ref.format(model="Batch")}}}}
    return jsonify(
        {
            "openapi": "3.1.0",
            "info": {"title": "followup, for phones", "version": "1"},
            "paths": {
                "/api/v1/pack": {"get": {"summary": "What the phone carries", "responses": answers("Pack")}},
                "/api/v1/events": {
                    "post": {"summary": "Send entries", "requestBody": body, "responses": answers("Results")}
                },
            },
            "components": {"schemas": schemas["$defs"]},
        }
    )


_REFUSED = {"description": "The phone is not enrolled, or was locked out"}
