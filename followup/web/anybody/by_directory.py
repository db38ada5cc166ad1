"""Signing in by the clinic's own directory: the browser is led there, and back with a code that only we can use."""

import hmac
import json
import logging

from flask import redirect, request, session
from flask.typing import ResponseReturnValue as Answer

from followup.care import signing_in
from followup.care.errors import NotFound, Refused
from followup.exchange import directory
from followup.web import context
from followup.web.anybody.account import begun_session, bp, ways_in
from followup.web.anybody.forms import SignInForm

log = logging.getLogger(__name__)
_LATE = "that took too long, or was begun in another browser; begin anew"


@bp.get("/sign-in/directory")
def to_directory() -> Answer:
    """Lead the browser to the clinic's own directory."""
    known = _known()
    try:
        address, begun = directory.begin(known, context.now(), context.inside(request.args.get("next")) or "")
    except directory.Away as error:
        return _away(error)
    session["directory"] = context.sealed_for_cookie(json.dumps(begun.kept))
    return redirect(address)


@bp.get("/sign-in/directory/back")
def back_from_directory() -> Answer:
    """Whoever the directory says it is, is signed in; as what, the clinic's own table says."""
    known, begun = _known(), _begun()
    state, issuer = request.args.get("state", ""), request.args.get("iss")
    if begun is None or not hmac.compare_digest(begun.state.encode(), state.encode("utf-8", "replace")):
        return _refused(_LATE, "state")
    if not begun.holds(context.now()):
        return _refused(_LATE, "late")
    try:
        signing_in.begun_by_directory(context.store(), context.now(), begun.state)
        if issuer not in (None, known.issuer):  # RFC 9207: an answer of another one
            raise directory.Untrue("iss")
        if "error" in request.args or "code" not in request.args:
            return _refused(f"{_name()} let nobody in", "denied")
        person = directory.finish(known, context.now(), begun, request.args["code"])
    except Refused as error:
        return _refused(str(error), "twice")
    except directory.Away as error:
        return _away(error)
    except directory.Untrue as error:
        return _refused(f"{_name()} did not show for certain who you are; tell whoever looks after accounts", str(error))
    by_email = context.settings().sign_in.claim == "email"
    if by_email and not (person.verified and person.email):
        return _refused(f"{_name()} has not verified your e-mail address", "e-mail not verified")
    email = person.email if by_email else None
    actor, said = signing_in.by_directory(context.store(), context.now(), person.subject, email, context.caller())
    return begun_session(actor, said, begun.next) if actor else (ways_in(SignInForm(formdata=None), said), 403)


def _known() -> directory.Directory:
    known = context.directory()
    if known is None:
        raise NotFound("nobody signs in by a directory here")
    return known


def _begun() -> directory.Begun | None:
    """What this browser began, taken off it: the answer to it comes once."""
    opened = context.opened_from_cookie(str(session.pop("directory", "")))
    return directory.Begun(**json.loads(opened)) if opened else None


def _away(error: directory.Away) -> Answer:
    log.warning("the directory does not answer", extra={"why": str(error)})
    also = "; sign in with your password" if context.settings().sign_in.passwords else "; try again in a while"
    return ways_in(SignInForm(formdata=None), f"{_name()} does not answer now{also}"), 503


def _refused(words: str, why: str) -> Answer:
    signing_in.refused_by_directory(context.store(), context.now(), why, context.caller())
    return ways_in(SignInForm(formdata=None), words), 403


def _name() -> str:
    return context.settings().sign_in.name
