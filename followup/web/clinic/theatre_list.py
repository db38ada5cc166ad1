"""The theatre list: taken in from a table after a look at what it says, and discharged from one operation after the other."""

from base64 import b64decode, b64encode
from datetime import date, time
from typing import Any

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.discharge import waiting
from followup.care.errors import CareError
from followup.errors import FollowupError
from followup.exchange import theatre_list as table
from followup.web import context
from followup.web.clinic.blueprint import bp, pressed
from followup.web.clinic.theatre_list_form import TheatreListForm
from followup.web.fields import field_errors

_DAYS, _TIMES = ("born_on", "operated_on"), ("operated_time",)


@bp.route("/theatre-list", methods=["GET", "POST"])
def theatre_list() -> Answer:
    """What waits for its discharge. A table is first read and shown, and taken in as a whole when that is confirmed."""
    form, content, source = TheatreListForm(), b"", ""
    found: waiting.Compared | None = None
    problems: list[waiting.Problem] = []
    if form.validate_on_submit():
        content, source = _sent(form)
        try:
            rows, problems = table.read(content, context.today(), form.dates.data or None)
            found = waiting.compare(context.store(), rows, context.zone())
            problems = sorted([*problems, *found.problems], key=lambda problem: problem.line)
            if not problems and request.form.get("step") == "keep":
                done = waiting.put_on(context.desk(), rows, source)
                return redirect(url_for(".theatre_list", taken=len(done.new)), 303)
        except FollowupError as error:
            form.file.errors = [str(error)]
    wrong = bool(form.errors or form.file.errors or problems)
    page = render_template(
        "clinic/theatre_list.html",
        form=form,
        found=found,
        problems=problems,
        content=b64encode(content).decode(),
        source=source,
        columns={name: words for name, (words, _) in table.COLUMNS.items()},
        needed=table.NEEDED,
        waiting=waiting.waiting_page(context.store(), context.page()) if context.me().role != "administrator" else None,
        taken=request.args.get("taken", type=int),
        today=context.today(),
        errors=field_errors(form),
    )
    return page, 400 if wrong else 200


@bp.post("/theatre-list/<listed_id>/put-aside")
@pressed
def put_aside(listed_id: str) -> Answer:
    """It will not be discharged here, and why."""
    waiting.put_aside(context.desk(), listed_id, request.form.get("why", ""))
    return redirect(url_for(".theatre_list"), 303)


def begin(form: Any, id: str) -> None:
    """Begin a discharge with what the theatre list says of the operation of this id, if it waits."""
    listed = waiting.waits(context.store(), id)
    if listed is None:
        return
    said = {**listed.body, "number": listed.number, "name": listed.name, "eye": listed.eye}
    for name, text in {**said, "operated_on": listed.operated_on.isoformat()}.items():
        if name in form:
            read: Any = date.fromisoformat if name in _DAYS else time.fromisoformat if name in _TIMES else str
            form[name].data = read(text)


def _sent(form: TheatreListForm) -> tuple[bytes, str]:
    """The table and the name of its file: as it was sent, or as it was shown a moment ago."""
    if form.file.data:
        return form.file.data.read(table.LARGEST_BYTES + 1), str(form.file.data.filename or "")[-80:]
    try:
        return b64decode(form.content.data or "", validate=True), str(form.source.data or "")[-80:]
    except ValueError as error:  # no base64, or no ASCII
        raise CareError("choose the file once more") from error
