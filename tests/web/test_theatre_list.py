"""A theatre list: read and shown first, taken in as a whole or not at all, and discharged from."""

import io
from datetime import date, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving, waiting
from followup.cli import cli
from followup.exchange import theatre_list
from followup.records import Store, audit, backup
from tests.conftest import NOW, PASSWORD, ZONE, operation_note, patient_details, signed_in
from tests.pages import parsed

HEAD = "number,name,born_on,eye,operated_on,operated_time,surgeon,indication,agent,percent,fill_percent,lens,notes\n"
LINES = (
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,14:30,Sol Surgeon,macular hole,sf6,20,95,phakic,\n"
    'H-2,"Bo, Beth",14.3.1952,left,2027-03-06,,,,,,,,"two\nlines"\n'
)
TODAY = NOW.date()


def read(text: str, **more: object) -> tuple[list[waiting.Row], list[str]]:
    rows, problems = theatre_list.read(text.encode(), TODAY, **more)  # type: ignore[arg-type]
    return rows, [str(problem) for problem in problems]


def listed(store: Store) -> list[tuple[str, str, str]]:
    return [(one.number, one.name, one.eye) for one in waiting.waiting_page(store).lines]


def sent(client: FlaskClient, text: str, **more: str) -> tuple[int, str]:
    data = {"file": (io.BytesIO(text.encode()), "list.csv"), **more}
    answer = client.post("/clinic/theatre-list", data=data, content_type="multipart/form-data")
    return answer.status_code, answer.text


def kept(client: FlaskClient, page: str) -> int:
    """What the button of the page that was read sends."""
    shown = parsed(page).one("section", id="read").one("form").sends
    return client.post("/clinic/theatre-list", data={**shown, "step": "keep"}).status_code


def test_every_cell_is_read_and_kept() -> None:
    rows, problems = read("\ufeff" + HEAD + LINES)
    assert problems == []
    assert (rows[0].number, rows[0].name, rows[0].eye, str(rows[0].operated_on)) == (
        "H-1",
        "Ada Able",
        "right",
        "2027-03-04",
    )
    assert rows[0].more["indication"] == "macular-hole"
    assert rows[1].more == {"born_on": "1952-03-14", "notes": "two\nlines"}
    assert [row.line for row in rows] == [2, 3]


@pytest.mark.parametrize("apart", [";", "\t"])
def test_other_ways_to_part_cells(apart: str) -> None:
    heads = ("Hospital number", "Name", "Date of birth", "Eye", "Date of surgery")
    rows, problems = read("\n".join(apart.join(cells) for cells in (heads, ("H-1", "A", "1950-02-03", "OS", "2027-03-01"))))
    assert (problems, rows[0].eye) == ([], "left")


WRONG = {
    "H-1,Ada Able,1950-02-03,both,2027-03-04": "line 2, eye: “both” is no eye",
    ",Ada Able,1950-02-03,RE,2027-03-04": "line 2, number: is empty",
    "H-1,Ada Able,3/4/1952,RE,2027-03-04": "line 2, born_on: “3/4/1952” can be read in two ways",
    "H-1,Ada Able,1950-02-30,RE,2027-03-04": "line 2, born_on: day is out of range",
    "H-1,Ada Able,2030-02-03,RE,2027-03-04": "line 2, born_on: the date of birth lies in the future",
    "H-1,Ada Able,1950-02-03,RE,2028-03-04": "line 2, operated_on: lies more than 92 days ahead",
    "H-1,Ada Able,1950-02-03,RE,1970-03-04": "line 2, operated_on: the date of surgery is",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,25:00": "line 2, operated_time: “25:00” is no time",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,,,dry eye": "line 2, indication: “dry eye” is not known",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,,,,xenon": "line 2, agent: “xenon” is not known",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,,,,sf6,200": "line 2, percent: 200 is out of range",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,,,,sf6,many": "line 2, percent: “many” is not a number",
    f"H-1,{'x' * 121},1950-02-03,RE,2027-03-04": "line 2, name: is longer than 120 characters",
    "H-1,Ada Able,1950-02-03,RE,2027-03-04,,,,,,,,,one too many": "line 2: has 14 cells, 1 more than there are headings",
    "H-1,A,1950-02-03,RE,2027-03-04\nH-1,A,1950-02-03,R,2027-03-04": "line 3: is the same operation as line 2",
    "H-1,A,1950-02-03,RE,2027-03-04\nH-1,B,1950-02-03,LE,2027-03-04": "line 3, number: is another person’s in line 2",
}


@pytest.mark.parametrize("lines", WRONG)
def test_what_is_wrong_is_named_by_line_and_column(lines: str) -> None:
    _, problems = read(HEAD + lines)
    assert len(problems) == 1
    assert problems[0].startswith(WRONG[lines])


def test_a_heading_that_nobody_knows_is_no_cell_dropped_in_silence() -> None:
    assert read("number,name,born_on,eye,operated_on,ward\n")[1][0].startswith("line 1, ward: is not known")
    assert read("number,name,eye,operated_on\n")[1] == [
        "line 1, born_on: is missing; needed are number, name, born_on, eye, operated_on"
    ]
    assert read("number,name,name,born_on,eye,operated_on\n")[1] == ["line 1, name: stands there twice"]


def test_every_problem_of_a_line_is_named() -> None:
    assert len(read(HEAD + ",,1950-02-30,both,never")[1]) == 5


def test_which_comes_first_in_a_date_is_said_or_asked() -> None:
    line = HEAD + "H-1,Ada Able,3/4/1952,RE,2027-03-04"
    assert read(line, order="day-first")[0][0].more["born_on"] == "1952-04-03"
    assert read(line, order="month-first")[0][0].more["born_on"] == "1952-03-04"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "empty"),
        ("number,name\nH-1,Größl".encode("latin-1"), "line 2 is not in UTF-8"),
        (b'number,name\nH-1,"Ada', "line 2 cannot be read"),
        (b"\0\0", "no text"),
        (b"x" * 300_001, "more than 300 kB"),
    ],
)
def test_a_file_that_is_no_table(content: bytes, said: str, as_nurse: FlaskClient) -> None:
    with pytest.raises(theatre_list.NotATable, match=said):
        theatre_list.read(content, TODAY)
    data = {"file": (io.BytesIO(content), "list.csv")}
    answer = as_nurse.post("/clinic/theatre-list", data=data, content_type="multipart/form-data")
    assert answer.status_code == 400


def test_nothing_is_taken_in_before_it_was_read_and_confirmed(as_nurse: FlaskClient, store: Store) -> None:
    code, page = sent(as_nurse, HEAD + LINES)
    assert (code, listed(store)) == (200, [])
    assert "Ada Able" in page
    assert kept(as_nurse, page) == 303
    assert listed(store) == [("H-1", "Ada Able", "right"), ("H-2", "Bo, Beth", "left")]
    assert backup.faults(store) == []
    assert [e["action"] for e in audit.of_subject(store, "list.csv")] == ["theatre list taken in"]
    assert "1 operation of the theatre list waits" in as_nurse.get("/clinic/").text  # the other one is still to come


@pytest.mark.parametrize("content", ["no base64", "ä", "====", ""])
def test_what_was_not_shown_cannot_be_confirmed(as_nurse: FlaskClient, store: Store, content: str) -> None:
    answer = as_nurse.post("/clinic/theatre-list", data={"content": content, "source": "x", "step": "keep"})
    assert (answer.status_code, listed(store)) == (400, [])


def test_one_bad_line_and_nothing_is_taken_in(as_nurse: FlaskClient, store: Store) -> None:
    code, page = sent(as_nurse, HEAD + LINES + "H-3,Cy,1950-02-30,RE,2027-03-04\n", step="keep")
    assert (code, "line 5, born_on" in page, listed(store)) == (400, True, [])


def test_the_same_list_again_changes_nothing_and_another_one_is_asked_about(as_nurse: FlaskClient, store: Store) -> None:
    kept(as_nurse, sent(as_nurse, HEAD + LINES)[1])
    before = listed(store)
    assert "0 new operations; 2 known already" in sent(as_nurse, HEAD + LINES)[1]
    code, page = sent(as_nurse, HEAD + LINES.replace("macular hole", "other"), step="keep")
    assert (code, "line 2: waits already, with other particulars" in page) == (400, True)
    assert listed(store) == before


def test_a_discharge_begins_with_what_the_list_says_and_takes_it_off(
    as_nurse: FlaskClient, store: Store, nurse: Actor
) -> None:
    kept(as_nurse, sent(as_nurse, HEAD + LINES)[1])
    id = waiting.waiting_page(store).lines[0].id
    said = parsed(as_nurse.get(f"/clinic/discharge?form={id}").text).one("form", id="discharge").sends
    begun = {
        "number": "H-1", "name": "Ada Able", "born_on": "1950-02-03", "eye": "right", "operated_on": "2027-03-04",
        "operated_time": "14:30", "surgeon": "Sol Surgeon", "indication": "macular-hole", "agent": "sf6", "percent": "20",
        "fill_percent": "95", "lens": "phakic",
    }  # fmt: skip
    assert {name: said[name] for name in begun} == begun
    ada = patient_details("H-1").model_copy(update={"name": "Ada Able", "born_on": date(1950, 2, 3)})
    note = operation_note(operated_at=datetime(2027, 3, 4, 14, 30, tzinfo=ZONE))
    leaving.discharge(Desk(store, NOW, nurse, ZONE), ada, note, [], operation_id=id)
    assert listed(store) == [("H-2", "Bo, Beth", "left")]
    assert "0 new operations; 2 known already" in sent(as_nurse, HEAD + LINES)[1]  # discharged: not put on again


def test_what_is_not_discharged_here_is_put_aside_with_why(as_nurse: FlaskClient, store: Store) -> None:
    kept(as_nurse, sent(as_nurse, HEAD + LINES)[1])
    id = waiting.waiting_page(store).lines[0].id
    assert as_nurse.post(f"/clinic/theatre-list/{id}/put-aside", data={"why": " "}).status_code == 400
    assert as_nurse.post(f"/clinic/theatre-list/{id}/put-aside", data={"why": "x" * 501}).status_code == 400
    assert len(listed(store)) == 2
    assert as_nurse.post(f"/clinic/theatre-list/{id}/put-aside", data={"why": "not operated"}).status_code == 303
    assert as_nurse.post(f"/clinic/theatre-list/{id}/put-aside", data={"why": "again"}).status_code == 409
    assert [row["put_aside_why"] for row in store.rows("SELECT * FROM listed_operations ORDER BY number")] == [
        "not operated",
        "",
    ]
    assert 'value="Ada Able"' not in as_nurse.get(f"/clinic/discharge?form={id}").text
    assert backup.faults(store) == []


def test_an_administrator_takes_a_list_in_and_does_not_see_who_waits(
    app: Flask, store: Store, as_nurse: FlaskClient
) -> None:
    kept(as_nurse, sent(as_nurse, HEAD + LINES)[1])
    accounts.add_staff(store, NOW, "Adi Admin", "administrator", "admin@test.invalid", PASSWORD)
    admin = signed_in(app, "admin@test.invalid")
    assert "Ada Able" not in admin.get("/clinic/theatre-list").text
    assert kept(admin, sent(admin, HEAD + "H-9,Di,1950-02-03,RE,2027-03-04")[1]) == 303
    assert len(listed(store)) == 3
    id = waiting.waiting_page(store).lines[0].id
    assert admin.post(f"/clinic/theatre-list/{id}/put-aside", data={"why": "x"}).status_code == 403


def test_the_command_line_does_the_same(store: Store, nurse: Actor, tmp_path: Path) -> None:
    config, file = tmp_path / "clinic.toml", tmp_path / "list.csv"
    config.write_text(f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{store.path}"\n', encoding="utf-8")
    file.write_text("number,name,born_on,eye,operated_on\nH-1,Ada,1950-02-03,RE,2026-01-04\n", encoding="utf-8")

    def run(*more: str) -> tuple[int, str]:
        done = CliRunner().invoke(cli, ["--config", str(config), "import", "operations", str(file), *more])
        return done.exit_code, done.output + str(done.exception or "")

    assert run("--dry-run") == (0, "1 new, 0 known already; nothing was taken in\n")
    assert listed(store) == []
    assert run() == (0, "1 new, 0 known already; the new ones wait for their discharge\n")
    assert run() == (0, "0 new, 1 known already; the new ones wait for their discharge\n")
    with file.open("a", encoding="utf-8") as more:
        more.write("H-2,Bo,1950-02-03,RE,2026-01-04\nH-3,Cy,yesterday,XX,2026-01-04\n")
    code, said = run()
    assert code != 0
    assert "line 4, born_on: “yesterday” is no date" in said
    assert "line 4, eye: “XX” is no eye" in said
    assert "2 problems in list.csv; nothing was taken in" in said
    assert len(listed(store)) == 1
