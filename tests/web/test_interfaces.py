"""The description of every machine interface: whole, valid (OpenAPI 3.1, JSON Schema 2020-12), and what each really answers."""

import json
from collections.abc import Iterator
from typing import Any, NamedTuple

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator

from followup.care.home import sealing
from followup.records import Store
from followup.records.store import new_id
from tests.conftest import NOW
from tests.sealed import seal

METHODS = {"get", "post", "put"}


class Operation(NamedTuple):
    method: str
    path: str
    said: dict[str, Any]

    @property
    def who(self) -> str:
        return next((name for known in self.said["security"] for name in known), "anybody")


@pytest.fixture
def document(client: FlaskClient) -> dict[str, Any]:
    answer = client.get("/api/v1/openapi.json")
    assert answer.status_code == 200
    found: dict[str, Any] = json.loads(answer.text)
    return found


def operations(document: dict[str, Any]) -> Iterator[Operation]:
    for path, methods in document["paths"].items():
        for method, said in methods.items():
            yield Operation(method, path, said)


def refs(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        yield from ([part["$ref"]] if isinstance(part.get("$ref"), str) else [])
        for inner in part.values():
            yield from refs(inner)
    elif isinstance(part, list):
        for inner in part:
            yield from refs(inner)


def fits(document: dict[str, Any], schema: dict[str, Any], value: Any) -> list[str]:
    """Why a value does not fit a schema of the document; empty when it does."""
    found = Draft202012Validator({**schema, "components": document["components"]}).iter_errors(value)
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}" for error in found]


def test_every_interface_is_described_and_nothing_else(app: Flask, document: dict[str, Any]) -> None:
    here = {
        rule.rule.replace("<", "{").replace(">", "}") for rule in app.url_map.iter_rules() if rule.rule.startswith("/api/")
    }
    assert set(document["paths"]) == {*here, "/health", "/calendar/{token}.ics"} - {"/api/v1/openapi.json"}


def test_the_document_is_whole(document: dict[str, Any]) -> None:
    """OpenAPI 3.1: 4.8.10 (unique operationId, responses), 4.8.12 (each part of a path is a parameter), 4.8.30 (security)."""
    assert document["openapi"] == "3.1.0"
    assert {"title", "version"} <= set(document["info"])
    ids = [operation.said["operationId"] for operation in operations(document)]
    assert len(set(ids)) == len(ids) > 10
    for operation in operations(document):
        assert operation.method in METHODS
        assert operation.said["summary"]
        assert all(answer["description"] for answer in operation.said["responses"].values())
        assert any(status.startswith("2") for status in operation.said["responses"])
        named = {one["name"] for one in operation.said.get("parameters", []) if one["in"] == "path"}
        assert all(f"{{{name}}}" in operation.path for name in named)
        assert operation.path.count("{") == len(named)
        assert operation.who in {"anybody", *document["components"]["securitySchemes"]}


def test_every_schema_is_one_and_leads_nowhere_else(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    for schema in schemas.values():
        Draft202012Validator.check_schema(schema)
    assert {ref.rpartition("/")[2] for ref in refs(document)} <= set(schemas)
    assert {"Envelope", "Pack", "SymptomsBody", "PostureBody", "Results", "Fault"} <= set(schemas)


@pytest.fixture
def asking(client: FlaskClient, as_patient: FlaskClient, as_nurse: FlaskClient) -> dict[str, FlaskClient]:
    return {"anybody": client, "phone": as_patient, "staff": as_nurse}


@pytest.fixture
def bodies(store: Store, eye_id: str, as_nurse: FlaskClient) -> dict[str, Any]:
    """What each interface takes, by operation."""
    entry = {"id": new_id(), "operation": eye_id, "kind": "symptoms", "at": NOW.isoformat(), "by": "patient"}
    entry |= {"offset_minutes": 60, "sequence": 1, "body": {"pain": 8, "vision": "worse"}}
    known = as_nurse.get("/api/v1/clinic/daysheet").json
    assert known is not None
    measured = {"id": new_id(), "operation": eye_id, "kind": "measures", "at": NOW.isoformat(), "offset_minutes": 60}
    measured |= {"sequence": 1, "body": {"eye": "right", "iop": "34", "instrument": "applanation"}}
    packet = {"author_pass": known["author_pass"], "events": [measured]}
    push = {"endpoint": "https://push.test.invalid/1", "keys": {"p256dh": "A" * 87, "auth": "A" * 22}}
    return {
        "api_events": {"sent_at": NOW.isoformat(), "events": [entry]},
        "api_sealed": {"sealed": [seal(sealing.public_key(store), [{**entry, "id": new_id()}])]},
        "api_choose_messages": {"quiet_from": "21:00", "quiet_to": "08:00", "unwanted": ["visit"], "email": ""},
        "api_push": push,
        "api_invite": {"name": "Kim"},
        "clinic_api_push": push,
        "clinic_api_entries": {"sent_at": NOW.isoformat(), "sealed": [seal(sealing.public_key(store), packet)]},
    }


def answer_of(document: dict[str, Any], operation: Operation, asked: FlaskClient, **sent: Any) -> str:
    """Ask, and hold the answer to its description; returns its status."""
    path = operation.path.replace("{token}", "a-guess").replace("{device_id}", "a-guess")
    answer = asked.open(path, method=operation.method.upper(), **sent)
    status = str(answer.status_code)
    assert status in operation.said["responses"], (operation.method, operation.path, status, answer.text[:200])
    content = operation.said["responses"][status].get("content")
    if content is None:
        assert answer.data == b""
    else:
        ((kind, described),) = content.items()
        assert answer.mimetype == kind
        if kind == "application/json":
            assert fits(document, described["schema"], answer.json) == [], (operation.path, status)
    return status


def test_each_answers_as_described_to_whom_it_lets_in(
    document: dict[str, Any], asking: dict[str, FlaskClient], bodies: dict[str, Any], store: Store
) -> None:
    for operation in sorted(operations(document), key=lambda o: "leave" in o.path):  # it ends the session
        sent: dict[str, Any] = {}
        if (body := bodies.get(operation.said["operationId"])) is not None:
            schema = operation.said["requestBody"]["content"]["application/json"]["schema"]
            assert fits(document, schema, body) == [], operation.path
            sent = {"json": body}
        assert ("requestBody" in operation.said) == bool(sent), operation.path
        status = answer_of(document, operation, asking[operation.who], **sent)
        stands_still = operation.path == "/health"  # no clock runs in a test
        assert status == ("404" if "{" in operation.path else "503" if stands_still else status)
        assert stands_still or status in ("200", "204", "404"), (operation.path, status)


@pytest.mark.parametrize("who", ["anybody", "phone", "staff"])
@pytest.mark.parametrize("sent", [{}, {"json": {}}, {"json": []}, {"json": {"events": 7, "sealed": 7}}, {"data": "x=1"}])
def test_whatever_comes_from_whomever_is_answered_as_described(
    document: dict[str, Any], asking: dict[str, FlaskClient], who: str, sent: dict[str, Any]
) -> None:
    for operation in operations(document):
        if operation.method != "get" and "leave" not in operation.path:
            answer_of(document, operation, asking[who], **sent)


@pytest.mark.parametrize("path", ["/api/v1/none", "/api/none", "/api/v1/clinic/none"])
def test_what_is_not_there_is_said_as_json(client: FlaskClient, path: str, document: dict[str, Any]) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert fits(document, {"$ref": "#/components/schemas/Fault"}, answer.json) == []


def test_a_method_that_none_has_is_said_as_json(as_nurse: FlaskClient, document: dict[str, Any]) -> None:
    answer = as_nurse.delete("/api/v1/clinic/daysheet")
    assert answer.status_code == 405
    assert fits(document, {"$ref": "#/components/schemas/Fault"}, answer.json) == []
