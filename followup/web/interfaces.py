"""The machine interfaces, described: OpenAPI 3.1 drawn from the routes, whom each lets in, and the models that check.

A view says with `described` what it takes and answers; every other answer is the same everywhere: `Fault` as JSON.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from flask import Flask
from pydantic import BaseModel
from pydantic.json_schema import models_json_schema
from werkzeug.routing import Rule

from followup.web import context
from followup.web.routes import ANYBODY, PHONE, ROUTES, SAFE, Who

REF = "#/components/schemas/{model}"
JSON = "application/json"
# What any interface may answer instead, and why; the first three only where they can be.
REFUSALS = {
    401: "This phone is not enrolled or was locked out, or nobody is signed in",
    403: "The account does not reach this, or another site sent it",
    415: "What was sent is not declared as JSON",
    400: "What was sent cannot be read",
    404: "There is no such thing",
    413: "Too much was sent at once",
    429: "Too much came from this address; wait an hour, or sign in",
    503: "Something stands still; try again in a while",
}


class Fault(BaseModel):
    """Why something was not done, in words. The numbers stand where nothing works.

    `locked`: this phone was locked out; `removed`: by the patient, whose carer used it.
    """

    error: str
    locked: bool | None = None
    removed: bool | None = None
    phone: str | None = None
    emergency_phone: str | None = None


@dataclass(frozen=True, slots=True)
class Described:
    """`answer` is a model, a media type for what is no JSON, or None for an answer without content; `refuses` are statuses."""

    answer: type[BaseModel] | str | None
    body: type[BaseModel] | None
    refuses: tuple[int, ...]
    fault: type[BaseModel] | str


_described: dict[Callable[..., Any], Described] = {}


def described(
    answer: type[BaseModel] | str | None = None,
    *,
    body: type[BaseModel] | None = None,
    refuses: tuple[int, ...] = (),
    fault: type[BaseModel] | str = Fault,
) -> Callable[[context.View], context.View]:
    """What a view answers and takes, and what else it may say beside that it does not let somebody in or cannot read it."""

    def mark(view: context.View) -> context.View:
        _described[view] = Described(answer, body, refuses, fault)
        return view

    return mark


def interfaces(app: Flask) -> Iterator[tuple[Rule, str, Described]]:
    """Each route to a described view, with each of its methods."""
    for rule in sorted(app.url_map.iter_rules(), key=lambda rule: rule.rule):
        found = _described.get(app.view_functions[rule.endpoint])
        if found is not None:
            for method in sorted(set(rule.methods or ()) - {"HEAD", "OPTIONS"}):
                yield rule, method, found


def description(app: Flask, also: tuple[type[BaseModel], ...] = ()) -> dict[str, Any]:
    """The document; `also` are models that stand in no body by themselves."""
    paths: dict[str, dict[str, Any]] = {}
    models: set[type[BaseModel]] = {Fault, *also}
    for rule, method, found in interfaces(app):
        models |= {m for m in (found.answer, found.body, found.fault) if isinstance(m, type)}
        path = rule.rule.replace("<", "{").replace(">", "}")
        paths.setdefault(path, {})[method.lower()] = _operation(app, rule, method, found)
    named = sorted(models, key=lambda model: model.__name__)
    _, schemas = models_json_schema([(model, "validation") for model in named], ref_template=REF)
    return {
        "openapi": "3.1.0",
        "info": {"title": "followup", "version": "1", "description": (__doc__ or "").partition("\n")[0]},
        "paths": paths,
        "components": {"schemas": schemas["$defs"], "securitySchemes": _COOKIES},
    }


def _operation(app: Flask, rule: Rule, method: str, found: Described) -> dict[str, Any]:
    route = ROUTES[rule.endpoint]
    who = route.read if method in SAFE else route.write
    summary, _, more = (app.view_functions[rule.endpoint].__doc__ or "").partition("\n")
    made: dict[str, Any] = {
        "operationId": rule.endpoint.replace(".", "_"),
        "summary": summary,
        "security": _security(who),
        "responses": _answers(method, who, found),
    }
    if told := " ".join(more.split()):
        made["description"] = told
    if rule.arguments:
        text = {"type": "string"}
        made["parameters"] = [{"name": n, "in": "path", "required": True, "schema": text} for n in sorted(rule.arguments)]
    if found.body is not None:
        made["requestBody"] = {"required": True, "content": _content(found.body)}
    return made


def _answers(method: str, who: Who | None, found: Described) -> dict[str, Any]:
    done = {"description": "Done"} | ({"content": _content(found.answer)} if found.answer is not None else {})
    status = "200" if found.answer is not None else "204"
    told = {503, *found.refuses}
    if who != ANYBODY:
        told.add(401)
    if method not in SAFE:
        told |= {403, 415}
    if isinstance(who, frozenset):
        told.add(403)
    if found.body is not None:
        told.add(400)
    faults = {str(code): {"description": REFUSALS[code], "content": _content(found.fault)} for code in sorted(told)}
    return {status: done, **faults}


def _content(what: type[BaseModel] | str) -> dict[str, Any]:
    if isinstance(what, str):
        return {what: {"schema": {"type": "string"}}}
    return {JSON: {"schema": {"$ref": REF.format(model=what.__name__)}}}


def _security(who: Who | None) -> list[dict[str, list[str]]]:
    return [] if who == ANYBODY else [{"phone": []}] if who == PHONE else [{"staff": []}]


_COOKIES = {
    "phone": {"type": "apiKey", "in": "cookie", "name": context.DEVICE_COOKIE, "description": "An enrolled phone"},
    "staff": {"type": "apiKey", "in": "cookie", "name": "staff", "description": "A signed-in member of staff"},
}
