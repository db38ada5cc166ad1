"""What the phone says of a wish for another time, until the clinic has answered it. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { wishOf } from "./patient/visits-view.js";

const { wish, entries, receipts } = given;
const eye = { operation: "e", receipts };
answer = wishOf(eye, { name: "week 1", wish }, { entries, pack: { made_at: "2027-03-05T10:00:00Z" } });
""".strip()


def entry(id: str, at: str, state: str, **changes: Any) -> dict[str, Any]:
    event = {"operation": "e", "kind": "visit-request", "at": at, "corrects": None, "body": {"visit": "week 1", "words": id}}
    return {"id": id, "state": state, "event": {**event, **changes}}


EARLY, LATE = "2027-03-05T09:00:00.000Z", "2027-03-05T11:00:00.000Z"
CLINIC = {"at": EARLY, "words": "a Friday"}


@pytest.mark.parametrize(
    ("wish", "entries", "told"),
    [
        (None, [], None),
        (CLINIC, [], (EARLY, "a Friday", "received")),
        (None, [entry("a", EARLY, "saved")], (EARLY, "a", "saved")),
        (None, [entry("a", EARLY, "received")], None),  # the clinic has answered: the pack no longer has it
        (None, [entry("a", LATE, "received")], (LATE, "a", "received")),  # no pack since
        (CLINIC, [entry("b", LATE, "saved")], (LATE, "b", "saved")),
        (CLINIC, [entry("b", LATE, "refused")], (EARLY, "a Friday", "received")),
        (None, [entry("b", LATE, "saved"), entry("c", LATE, "saved", kind="withdrawal", corrects="b")], None),
        (None, [entry("b", LATE, "saved", body={"visit": "week 2"})], None),
        (None, [entry("b", LATE, "saved", body={"visit": "week 1"})], (LATE, "", "saved")),
    ],
)
def test_the_wish_that_stands(run: Run, wish: Any, entries: list[Any], told: Any) -> None:
    found = run(SCRIPT, {"wish": wish, "entries": entries, "receipts": []})
    assert (found and (found["at"], found["words"], found["state"])) == told
