"""The surgeon's pages: who needs me and why, and the protocols to read and sign."""

from collections.abc import Callable
from tempfile import TemporaryFile
from zipfile import ZIP_DEFLATED, ZipFile

from flask import Blueprint, Response, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue as Answer
from werkzeug.datastructures import MultiDict
from wtforms.fields.choices import SelectChoice

from followup.care import taking_out
from followup.care.callbacks import lines
from followup.care.learning import results, results_csv, signing
from followup.care.reading.eye import protocol, rulebook
from followup.errors import FollowupError
from followup.protocols import adjust, book
from followup.web import context, display, result_charts
from followup.web.surgeon.forms import AskedForm, ProtocolForm, SignForm

bp = Blueprint("surgeon", __name__, url_prefix="/surgeon")
bp.context_processor(display.unsigned)


@bp.get("/")
def needs_me() -> Answer:
    """Mine, what moved up, then colleagues': by how soon, then by how long it has waited. What is decided comes last."""
    return render_template(
        "surgeon/needs_me.html", found=lines.for_surgeon(context.desk(), request.args.get("part", ""), context.page())
    )


@bp.get("/results")
def my_results() -> Answer:
    """How the operations of one surgeon, or of the whole clinic, turned out."""
    form = _asked()
    if not form.validate():
        return render_template("surgeon/results.html", form=form, found=None), 400
    found = results.results(context.store(), context.now(), context.zone(), form.asked())
    return render_template(
        "surgeon/results.html",
        form=form,
        found=found,
        curve=result_charts.attachment_curve(found.attached, found.days_followed),
        run=result_charts.run_chart(found.spikes_by_month),
    )


@bp.get("/results.csv")
def results_table() -> Answer:
    """The operations behind the results, a row each, for a spreadsheet; that it left is put on record."""
    form = _asked()
    if not form.validate():
        return render_template("surgeon/results.html", form=form, found=None), 400
    made = results_csv.table(context.desk(), form.asked())
    headers = {"Content-Disposition": "attachment; filename=results.csv"}
    return Response(made, mimetype="text/csv", headers=headers)


@bp.get("/export.zip")
def export_tables() -> Answer:
    """Every table with what its columns mean; that it left is put on record."""
    packed = TemporaryFile()  # noqa: SIM115
    with ZipFile(packed, "w", ZIP_DEFLATED) as archive:
        for name, lines in taking_out.tables(context.store(), context.now(), context.me().signature):
            with archive.open(name, "w") as file:
                file.writelines(line.encode() for line in lines)
    packed.seek(0)
    return send_file(packed, mimetype="application/zip", as_attachment=True, download_name="followup.zip")


def _asked() -> AskedForm:
    everybody = results.surgeons(context.store())
    mine = context.me().name if context.me().name in everybody else ""
    form = AskedForm(MultiDict({"surgeon": mine, **request.args}))
    form.surgeon.choices = [SelectChoice("", "the whole clinic"), *everybody]
    return form


@bp.get("/protocols")
def protocols() -> Answer:
    """The three parts in force, with their signatures."""
    store = context.store()
    return render_template(
        "surgeon/protocols.html",
        parts=[protocol(store, part) for part in book.PARTS],
        rules=rulebook(store).rules,
        form=SignForm(),
    )


@bp.post("/protocols/<part>/sign")
def sign(part: str) -> Answer:
    form = SignForm()
    if form.validate_on_submit():
        signing.sign(context.desk(), part, form.fingerprint.data)
    return redirect(url_for(".protocols"), 303)


@bp.route("/protocols/<part>", methods=["GET", "POST"])
def adjust_part(part: str) -> Answer:
    """Read a part and adjust its numbers; first shows what the change would have done to the clinic's own past eyes."""
    return _change(part, "surgeon/protocol.html", lambda base: adjust.adjusted(base, request.form))


@bp.route("/protocols/<part>/text", methods=["GET", "POST"])
def edit_text(part: str) -> Answer:
    """The whole text of a part, for what the numbers alone cannot say."""
    return _change(part, "surgeon/protocol_text.html", str)


def _change(part: str, template: str, changed_from: Callable[[str], str]) -> Answer:
    """Try a changed text, or keep it as the clinic's new draft. What was typed stays on the page."""
    if part not in book.PARTS:
        return render_template("error.html", message="There is no such part of the protocol."), 404
    store, in_force = context.store(), protocol(context.store(), part).text
    form = ProtocolForm(text=in_force)
    effects, told, status = None, [], 200
    if form.validate_on_submit():
        try:
            text = changed_from(form.text.data.replace("\r\n", "\n"))  # browsers send line ends so
            if request.form.get("step") == "save":
                signing.save(context.desk(), part, text)
                return redirect(url_for(".protocols"), 303)
            book.check(part, text)
            effects = signing.effects(store, text, context.now(), context.zone()) if part == "rulebook" else []
            told = adjust.differences(in_force, text)
        except FollowupError as error:
            form.text.errors = [str(error)]
            status = 400
    return render_template(
        template,
        part=part,
        form=form,
        entries=adjust.entries(in_force) if template == "surgeon/protocol.html" else [],
        typed=request.form,
        effects=effects,
        changed=told,
    ), status
