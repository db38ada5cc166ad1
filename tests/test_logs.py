"""Logs are one JSON object a line, and hold no name, no id, nothing clinical and nothing that somebody typed."""

import io
import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup import jobs, logs
from followup.config import Settings
from followup.records import Store
from tests.conftest import NOW, PASSWORD


@pytest.fixture
def written() -> Iterator[io.StringIO]:
    stream = io.StringIO()
    handler = logs.to_stderr(stream)
    yield stream
    logging.getLogger().removeHandler(handler)


def lines(written: io.StringIO) -> list[dict[str, Any]]:
    return [json.loads(line) for line in written.getvalue().splitlines()]


def test_each_request_is_a_line_by_its_route(as_nurse: FlaskClient, written: io.StringIO, eye_id: str) -> None:
    as_nurse.get(f"/clinic/eyes/{eye_id}?find=Pat+Patient")
    as_nurse.get("/clinic/?find=Pat+Patient")
    as_nurse.post("/sign-in", data={"email": "somebody@test.invalid", "password": PASSWORD})
    told = [line for line in lines(written) if line["event"] == "request"]
    assert [(line["route"], line["method"], line["status"], line["by"]) for line in told] == [
        ("/clinic/eyes/<eye_id>", "GET", 200, "nurse"),
        ("/clinic/", "GET", 200, "nurse"),
        ("/sign-in", "POST", 403, "nurse"),
    ]
    for private in (eye_id, "Pat", "Nora", "nurse@", "somebody@", PASSWORD, "T-1"):
        assert private not in written.getvalue()


def test_of_an_error_only_kind_and_place_are_written(
    app: Flask, as_nurse: FlaskClient, written: io.StringIO, eye_id: str
) -> None:
    def fails(**_: str) -> str:
        raise ValueError("Pat Patient cannot be read")

    app.view_functions["clinic.eye_page"] = fails
    app.config.update(TESTING=False, PROPAGATE_EXCEPTIONS=False)
    assert as_nurse.get(f"/clinic/eyes/{eye_id}").status_code == 500
    (told,) = [line for line in lines(written) if line["event"] == "a page failed"]
    assert (told["error"], told["route"], told["level"]) == ("ValueError", "/clinic/eyes/<eye_id>", "error")
    for private in (eye_id, "Pat"):
        assert private not in written.getvalue()


def test_jobs_say_how_they_ended(store: Store, settings: Settings, written: io.StringIO, eye_id: str) -> None:
    jobs.run(store, settings, "check", NOW)
    (told,) = [line["event"] for line in lines(written) if line["event"].startswith("job check")]
    assert "done: " in told
