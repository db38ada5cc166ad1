"""A check that somebody began and did not finish: what called now stays on every page, and is kept before it is let go.

*Nothing a person entered is ever dropped silently*, by the work's own brief. How long answers last is common practice, no source.
"""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { played } from "./checked.js";

process.env.TZ = "UTC"; // it begins at ten
answer = await played(given.acts, given.names);
""".strip()
HOURS = 60
SEVERE = {"pain": "8"}
SENT = [["symptoms", 0]]


def played(run: Run, *acts: Any, names: tuple[str, ...] = ("a",)) -> list[dict[str, Any]]:
    return list(run(SCRIPT, {"acts": [[0, "show", None], *acts], "names": names}))[1:]


def test_call_now_stays_with_its_number_until_it_is_sent_or_changed(run: Run) -> None:
    told = played(
        run,
        *([0, "half", {"pain": "2"}], [0, "half", SEVERE], [5, "show", None], [6, "open", None], [200, "show", None]),
        *([201, "half", {"pain": "2"}], [202, "half", SEVERE], [203, "sendAsItIs", None], [204, "open", None]),
    )
    assert [(one["says"], one["not_sent"]) for one in told] == [
        *((None, False), ("now", True), ("now", True), ("now", True), ("now", True)),
        *((None, False), ("now", True), ("now", False), ("now", False)),
    ]
    assert [one["entries"] for one in told[-3:]] == [[], [["symptoms", 203]], [["symptoms", 203]]]
    assert told[-1]["bodies"] == [{"pain": 8}]


def test_what_was_written_with_it_is_seen_before_it_is_sent(run: Run) -> None:
    *_, asked = played(run, [0, "half", {**SEVERE, "words": "all black"}], [1, "sendAsItIs", None])
    assert (asked["page"], asked["not_sent"], asked["entries"]) == ("check", True, [])


@pytest.mark.parametrize(
    "how",
    [
        [[5 * HOURS, "wait", None]],
        [[5 * HOURS, "open", None], [5 * HOURS, "wait", None]],
        [[15 * HOURS, "open", None], [15 * HOURS, "wait", None]],
    ],
    ids=["page left open", "opened again", "on another day"],
)
@pytest.mark.parametrize("told", [{"pain": "8"}, {"curtain": "yes"}, {"pain": "1", "redness": "worse", "vision": "same"}])
def test_answers_that_call_are_kept_before_they_are_let_go(run: Run, how: Any, told: dict[str, str]) -> None:
    *_, before, kept, later = played(
        run, [0, "half", {**told, "words": "half a sentence"}], *how, [16 * HOURS, "open", None]
    )
    level = "today" if "redness" in told else "now"
    assert (kept["entries"], kept["says"], kept["not_sent"]) == (SENT, level, False)  # at its own time
    assert "words" not in kept["bodies"][0]
    assert kept["words"] == later["words"] == "half a sentence"  # it comes back, and nobody sends it unseen
    assert (later["entries"], later["says"]) == (SENT, level)
    assert before["entries"] in ([], SENT)


@pytest.mark.parametrize("told", [{"pain": "2"}, {"vision": "same", "curtain": "no"}, {"fever": "cannot-tell"}, {}])
def test_answers_that_call_nobody_are_let_go(run: Run, told: dict[str, str]) -> None:
    *_, gone, again = played(
        run, [0, "half", {**told, "words": "it itches"}], [5 * HOURS, "wait", None], [5 * HOURS, "open", None]
    )
    for one in (gone, again):
        assert (one["entries"], one["says"], one["words"]) == ([], None, "it itches")


def test_answers_never_come_back_into_another_day_but_for_a_pause_at_midnight(run: Run) -> None:
    before_midnight = 13 * HOURS + 50
    acts = [[before_midnight, "half", SEVERE], [before_midnight + 9, "open", None], [before_midnight + 9, "wait", None]]
    told = played(run, *acts, *[[before_midnight + after, "wait", None] for after in (10, 11)])
    assert [one["not_sent"] for one in told] == [True, True, True, True, False]
    assert told[-1]["entries"] == [["symptoms", before_midnight]]


def test_of_two_tabs_one_keeps_it(run: Run) -> None:
    *_, kept = played(run, [0, "half", SEVERE], [5 * HOURS, "wait", 2])
    assert kept["entries"] == SENT


def test_what_another_tab_has_begun_since_takes_nothing_of_it_away(run: Run) -> None:
    acts = [
        [0, "half", SEVERE],
        [3 * HOURS, "halfElsewhere", {"pain": "2", "words": "it itches"}],
        [5 * HOURS, "wait", None],
    ]
    *_, kept, later = played(run, *acts, [6 * HOURS, "open", None])
    assert (kept["entries"], later["entries"], later["words"]) == (SENT, SENT, "it itches")


def test_an_eye_that_is_followed_no_more_takes_no_call_with_it(run: Run) -> None:
    half = [0, "half", {"eye": "a", **SEVERE}]
    *_, kept = played(run, half, [5, "unfollow", "a"], [6, "wait", None], names=("a", "b"))
    assert (kept["entries"], kept["bodies"], kept["of"]) == (SENT, [{"pain": 8}], ["a"])


def test_what_a_full_phone_could_not_even_note_is_kept_once_there_is_room(run: Run) -> None:
    acts = [[0, "full", "all"], [1, "half", SEVERE], [2 * HOURS, "full", False], [6 * HOURS, "wait", None]]
    *_, kept = played(run, *acts)
    assert kept["entries"] == [["symptoms", 1]]


def test_while_the_phone_is_full_it_stands_and_goes_with_the_next_check(run: Run) -> None:
    acts = [[0, "half", SEVERE], [1, "full", "entries"], [5 * HOURS, "wait", None], [6 * HOURS, "full", False]]
    *_, full, _, later = played(run, *acts, [7 * HOURS, "check", [{}]])
    assert (full["entries"], full["says"]) == ([], "now")
    assert (later["entries"], later["says"]) == ([*SENT, ["symptoms", 7 * HOURS]], "now")


def test_answers_of_the_morning_are_over_four_hours_after_they_were_given_whenever_the_page_was_opened(run: Run) -> None:
    told = played(
        run,
        *([0, "half", SEVERE], [230, "open", None], [239, "wait", None], [241, "wait", None]),
        *([242, "half", {"pain": "2"}], [250, "open", None], [251, "wait", None]),
    )
    assert [one["not_sent"] for one in told] == [True, True, True, False, False, False, False]
    assert [one["entries"] for one in told[2:4]] == [[], SENT]


def test_what_another_phone_told_is_not_said_of_a_check_that_was_just_begun(run: Run) -> None:
    other = {"id": "other's", "minute": 0, "bad": {"curtain": "yes"}, "calling": True}
    pack = [1, "pack", {"a": {"calling": True, "others": [other]}}]
    *_, begun, gone = played(run, pack, [10, "half", {"pain": "2"}], [6 * HOURS, "wait", None])
    assert (begun["not_sent"], gone["entries"]) == (False, [])


SEALED = """
import { Database, page } from "./indexed_db.js";
import { sealEverything } from "./patient/sealing.js";
import { base64, opened } from "./shared/seal.js";

page();
const rsa = { name: "RSA-OAEP", hash: "SHA-256", modulusLength: 2048, publicExponent: new Uint8Array([1, 0, 1]) };
const keys = await crypto.subtle.generateKey(rsa, true, ["wrapKey", "unwrapKey"]);
const sealing_key = base64(await crypto.subtle.exportKey("spki", keys.publicKey));
const pack = { sealing_key, used_by: "carer", eyes: [{ operation: "a" }, { operation: "b" }] };
answer = [];
for (const draft of given) {
    const database = new Database({ facts: [["pack", pack], ["draft", draft], ["sequence", 7]] });
    await sealEverything(database);
    const events = [];
    for (const packet of database.stores.facts.get("sealed") ?? []) events.push(...await opened(packet, keys.privateKey));
    const sealed = events.map(({ kind, at, by, operation, body, sequence }) => [kind, at, by, operation, body, sequence]);
    answer.push([database.stores.facts.has("draft"), sealed]);
}
""".strip()


def test_a_phone_that_is_locked_out_seals_what_was_begun_with_what_was_written(run: Run) -> None:
    at = {"kept_at": 1_804_000_000_000, "screen": "vision"}
    when = "2027-03-02T15:06:40.000Z"
    drafts = [
        {"eye": "b", "pain": "8", "words": "", **at},
        {"pain": "cannot-tell", "words": "all black", **at},
        {"words": "", **at},
        {"words": " ", "eye": "b", **at},
    ]
    assert run(SEALED, drafts) == [
        [False, [["symptoms", when, "carer", "b", {"pain": 8}, 8]]],
        [False, [["symptoms", when, "carer", "a", {"cannot_tell": ["pain"], "words": "all black"}, 8]]],
        [False, []],
        [False, []],
    ]
