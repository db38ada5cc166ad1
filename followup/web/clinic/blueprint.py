"""The blueprint of the clinic's pages, and what its views share."""

from collections.abc import Callable
from functools import wraps
from typing import Any, ParamSpec

from flask import Blueprint, abort
from flask.typing import ResponseReturnValue as Answer

from followup.care.errors import NotFound
from followup.care.reading.eye import Eye, load
from followup.web import context, display
from followup.web.fields import SmallForm

Given = ParamSpec("Given")
bp = Blueprint("clinic", __name__, url_prefix="/clinic")


@bp.context_processor
def drafts() -> dict[str, Any]:
    """Staff screens say so while a protocol part is unsigned, and offer what the person may record."""
    staff = context.staff()
    return {**display.unsigned(), "may_lift_caution": bool(staff and staff.may_lift_caution)}


def pressed(view: Callable[Given, Answer]) -> Callable[Given, Answer]:
    """For views behind a lone button: without its token nothing happens."""

    @wraps(view)
    def guarded(*args: Given.args, **kwargs: Given.kwargs) -> Answer:
        if not SmallForm().validate_on_submit():
            abort(400)
        return view(*args, **kwargs)

    return guarded


def load_eye(eye_id: str) -> Eye:
    return load(context.store(), eye_id, context.zone())


def operated_eye(eye_id: str) -> Eye:
    """For pages about an operation. Raises `NotFound` for an eye without one."""
    eye = load_eye(eye_id)
    if not eye.operated:
        raise NotFound("this eye was not operated here, or no operation that can be read is on record")
    return eye
