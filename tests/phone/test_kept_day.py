"""What a clinic device keeps of the day, without a browser: the sheet and the names of all who are followed, and what is said of
either when it grows old. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

DEVICE = """
import { Database, page } from "./indexed_db.js";
import { base64, opened } from "./shared/seal.js";
import { currentSheet, forgetDay } from "./staff/device/day-key.js";
import { keepDay, oldWords } from "./staff/device/keeping.js";
import { DeviceOutbox } from "./staff/device/outbox.js";
import { eyeOf, mark, withFollowed } from "./staff/device/sheet.js";

const EMAIL = "nurse@test.invalid";
const START = Date.parse("2027-03-05T10:00:00Z");
globalThis.document = { documentElement: { lang: "en" } };
globalThis.setTimeout = () => 0;
let minutes = 0;
Date.now = () => START + minutes * 60000;

const pair = await crypto.subtle.generateKey(
  { name: "RSA-OAEP", hash: "SHA-256", modulusLength: 2048, publicExponent: new Uint8Array([1, 0, 1]) }, true, ["wrapKey", "unwrapKey"]);
const publicKey = base64(await crypto.subtle.exportKey("spki", pair.publicKey));
const database = new Database({ facts: [["day-key", { email: EMAIL, publicKey }]] });
const facts = () => database.stores.facts;

// The clinic: `status` of what it answers, the sheet's mark, and the pages of names.
const clinic = { sheet: 200, followed: 200, mark: 'W/"1"', pages: [["a", "b"], ["c"]], asked: [], during: () => {} };
globalThis.fetch = async (address, { headers }) => {
  const page = new URL(address, "https://clinic.invalid");
  const what = page.pathname.split("/").pop();
  const before = page.searchParams.get("before");
  clinic.asked.push(what === "daysheet" ? ["daysheet", headers["If-None-Match"] ?? null] : ["followed", before]);
  clinic.during();
  const status = what === "daysheet" ? clinic.sheet : clinic.followed;
  if (status === 0) throw new TypeError("no line");
  const told = { "Made-At": new Date(Date.now() + 7000).toISOString(), ETag: clinic.mark };
  const same = what === "daysheet" && headers["If-None-Match"] === clinic.mark;
  if (status === 200 && same) return new Response(null, { status: 304, headers: told });
  const n = Number(before ?? 0);
  const next = n + 1 < clinic.pages.length ? String(n + 1) : null;
  const names = { eyes: (clinic.pages[n] ?? []).map((operation) => ({ operation })), next };
  const sheet = { made_at: told["Made-At"], expires_at: "2027-03-05T23:00:00Z", of: clinic.mark };
  return new Response(JSON.stringify(what === "daysheet" ? sheet : names), { status, headers: told });
};
const keep = (after = 0) => { minutes += after; return keepDay(database, EMAIL).then(() => "kept", (error) => error.message); };
const words = (after = 0) => { minutes += after; return oldWords(database, EMAIL); };
const inSheet = () => opened(facts().get("sheet").packet, pair.privateKey);
const names = async () => (await Promise.all(facts().get("followed").packets.map((packet) => opened(packet, pair.privateKey)))).flat();
""".strip()


def tell(run: Run, body: str, **given: Any) -> Any:
    return run(f"{DEVICE}\n{body}", given)


def test_the_sheet_is_asked_for_each_minute_and_the_names_each_hour(run: Run) -> None:
    told = tell(run, "for (let n = 0; n < 61; n += 1) await keep(1); answer = clinic.asked.map(([what]) => what);")
    assert (told.count("daysheet"), told.count("followed")) == (61, 4)  # of two pages, at the start and an hour later
    again = tell(run, "await keep(); await keep(0.4); answer = clinic.asked.map(([what]) => what);")
    assert again == ["daysheet", "followed", "followed"]  # each page that is opened asks


def test_an_unchanged_sheet_is_the_one_that_is_here_and_counts_as_fresh(run: Run) -> None:
    body = """
        await keep();
        const first = facts().get("sheet");
        await keep(1);
        const second = facts().get("sheet");
        clinic.mark = 'W/"2"';
        await keep(1);
        const clock = facts().get("clock");
        const asked = clinic.asked.filter(([what]) => what === "daysheet").map(([, mark]) => mark);
        answer = { asked, same: first.packet.data === second.packet.data, expires: second.expires_at, later: second.fetched - first.fetched,
          now: (await inSheet()).of, ahead: clock.made_at - clock.received_at, heard: clock.received_at - START };
    """
    assert tell(run, body) == {
        "asked": [None, 'W/"1"', 'W/"1"'], "same": True, "expires": "2027-03-05T23:00:00Z", "later": 60000,
        "now": 'W/"2"', "ahead": 7000, "heard": 120000,
    }  # fmt: skip


def test_the_clinic_s_clock_is_known_from_an_answer_without_a_sheet(run: Run) -> None:
    body = """
        await keep();
        await keep(30);
        const { made_at, received_at } = facts().get("clock");
        answer = [clinic.asked.at(-1)[0], made_at - START, received_at - START];
    """
    assert tell(run, body) == ["daysheet", 1807000, 1800000]


def test_every_page_of_names_is_kept_and_nothing_of_it_can_be_read_without_the_key(run: Run) -> None:
    body = """
        await keep();
        answer = { names: (await names()).map(({ operation }) => operation), kept: JSON.stringify([...facts().values()]) };
    """
    told = tell(run, body)
    assert told["names"] == ["a", "b", "c"]
    assert "operation" not in told["kept"]


@pytest.mark.parametrize("status", [0, 500, 503, 404])
def test_what_does_not_come_leaves_what_is_here_and_is_said_on_the_page_when_that_is_old(run: Run, status: int) -> None:
    body = """
        await keep();
        const well = [await words(), (await inSheet()).of];
        clinic.sheet = given.status;
        const failed = await keep(1);
        answer = { well, failed, soon: await words(3), late: await words(1), same: (await inSheet()).of };
        clinic.sheet = 200;
        answer.again = [await keep(1), await words()];
    """
    told = tell(run, body, status=status)
    assert told["well"] == ["", 'W/"1"']
    assert told["failed"] != "kept"
    assert (told["soon"], told["same"]) == ("", 'W/"1"')
    assert "is of " in told["late"]
    assert "no newer one comes" in told["late"]
    assert told["again"] == ["kept", ""]


def test_a_device_without_a_sheet_says_so_at_once(run: Run) -> None:
    told = tell(run, "clinic.sheet = 0; answer = [await words(), await keep(), await words()];")
    assert told[1] == "no line"
    assert told[0] == told[2] == "Today’s list did not come to this device: without a signal it shows nothing."


def test_names_that_do_not_come_are_said_and_half_of_them_never_stand_for_all(run: Run) -> None:
    body = """
        clinic.during = () => { if (clinic.asked.at(-1)[1] === "1") clinic.followed = 0; };
        const failed = await keep();
        answer = { failed, kept: facts().has("followed"), none: await words() };
        clinic.during = () => {};
        clinic.followed = 200;
        await keep(1);
        answer.all = [(await names()).length, await words()];
        clinic.followed = 500;
        for (let n = 0; n < 180; n += 1) await keep(1);
        answer.old = [(await names()).length, await words()];
    """
    told = tell(run, body)
    assert (told["failed"], told["kept"]) == ("no line", False)
    assert told["none"].startswith("The names of all who are followed did not come")
    assert told["all"] == [3, ""]
    assert told["old"][0] == 3
    assert told["old"][1].startswith("The names of all who are followed are on this device as of ")


def test_a_clock_that_was_set_back_makes_nothing_fresh(run: Run) -> None:
    body = """
        await keep();
        clinic.sheet = 0;
        answer = [await keep(-600), (await words()).slice(0, 30)];
    """
    assert tell(run, body) == ["no line", "The list on this device is of "]


@pytest.mark.parametrize("who", ["another key", "no key", "somebody else"])
def test_nothing_is_kept_or_said_for_whom_this_device_keeps_nothing(run: Run, who: str) -> None:
    body = """
        if (given.who === "no key") facts().delete("day-key");
        if (given.who === "somebody else") facts().set("day-key", { email: "other@test.invalid", publicKey });
        if (given.who === "another key") clinic.during = () => { facts().set("day-key", { email: EMAIL, publicKey: "another" }); };
        await keep();
        answer = { kept: [facts().has("sheet"), facts().has("followed")], words: given.who === "another key" ? "" : await words() };
    """
    assert tell(run, body, who=who) == {"kept": [False, False], "words": ""}


@pytest.mark.parametrize("end", ["signs out", "session is over", "day is over"])
def test_all_of_it_goes_with_the_day(run: Run, end: str) -> None:
    body = """
        await keep();
        if (given.end === "signs out") await forgetDay(database);
        if (given.end === "session is over") clinic.sheet = 401;
        await keep(given.end === "day is over" ? 13 * 60 : 1);
        answer = [[...facts().keys()], await words()];
    """
    assert tell(run, body, end=end) == [["clock"], ""]  # which says nothing of anybody


def test_what_an_open_page_keeps_after_the_day_says_when_this_device_heard_the_clinic(run: Run) -> None:
    """By that a clock that was ahead, and was put right before it is sent, moves no time (`tests/care/test_clocks.py`)."""
    body = """
        page();
        await keep();
        const heard = (({ made_at, received_at }) => [made_at, received_at])(facts().get("clock"));
        minutes += 30 * 60;
        await currentSheet(database);
        const outbox = new DeviceOutbox(database);
        globalThis.fetch = async () => { throw new TypeError("no line"); };
        await outbox.add({ operation: "a", facts: [{ kind: "measures", body: {} }], about: {}, authorPass: "", sealingKey: publicKey });
        const [{ packet }] = await outbox.all();
        const { events: [event] } = await opened(packet, pair.privateKey);
        answer = [facts().has("day-key"), heard, [event.heard.clinic_at, event.heard.device_at].map(Date.parse)];
    """
    has_key, last_heard, said = tell(run, body)
    assert (has_key, said) == (False, last_heard)


OTHERS = """
    const due = { operation: "a", visit: "v1", visits: [{ id: "v1", target: "2027-01-05" }], chart: "6/", right: { acuity: "6/9" } };
    const visit = { id: "v2", name: "week 1", target: "2027-03-08", earliest: "2027-03-01", latest: "2027-03-09" };
    const followed = [{ operation: "a", visits: [] }, { operation: "b", visits: [visit] }, { operation: "c", visits: [] }];
    const sheet = withFollowed({ chart: "20/", rows: [], eyes: [due] }, followed, new Date(given.day));
"""


def test_whoever_comes_unplanned_is_found_beside_those_on_the_sheet_with_what_is_known(run: Run) -> None:
    told = tell(run, f"{OTHERS} answer = sheet.eyes;", day="2027-03-05T12:00")
    assert [eye["operation"] for eye in told] == ["a", "b", "c"]
    assert (told[0]["visit"], told[0]["chart"], told[0]["right"]) == ("v1", "6/", {"acuity": "6/9"})  # the sheet's own
    assert [(eye["visit"], eye["chart"], eye["right"], eye["left"]) for eye in told[1:]] == [
        ("v2", "20/", None, None),
        ("", "20/", None, None),
    ]


@pytest.mark.parametrize(
    ("day", "visit"), [("2027-02-28", ""), ("2027-03-01", "v2"), ("2027-03-09", "v2"), ("2027-03-10", "")]
)
def test_their_next_visit_is_proposed_where_its_window_holds_today(run: Run, day: str, visit: str) -> None:
    assert tell(run, f"{OTHERS} answer = sheet.eyes[1].visit;", day=f"{day}T12:00") == visit


@pytest.mark.parametrize(
    ("day", "comes"), [("2027-02-28", False), ("2027-03-01", True), ("2027-03-07", True), ("2027-03-08", False)]
)
def test_whose_visit_comes_within_the_week_is_on_the_list_by_the_names(run: Run, day: str, comes: bool) -> None:
    row = {"patient": "Bo", "operation": "b", "visit": "week 1", "visit_id": "v2", "target": "2027-03-08", "state": "coming"}
    body = f"""{OTHERS.replace('"b", v', '"b", patient: "Bo", v')} answer = sheet.rows;"""
    assert tell(run, body, day=f"{day}T12:00") == ([{**row, "how_soon": None, "reason": ""}] if comes else [])


def test_those_who_come_are_in_the_order_of_their_days_and_nobody_twice_or_by_an_older_list(run: Run) -> None:
    body = """
        const visits = (...given) => given.map(([id, target]) => ({ id, name: id, target, earliest: target, latest: target }));
        const here = { operation: "a", patient: "Ada", visits: visits(["v1", "2027-03-06"], ["v2", "2027-03-09"]) };
        const moved = { operation: "b", patient: "Bo", visits: visits(["v3", "2027-03-20"]) };
        const rows = [{ operation: "a", visit_id: "v1", state: "here" }, { operation: "z", visit_id: "v6", state: "seen" }];
        const followed = [
            { operation: "b", patient: "Bo", visits: visits(["v3", "2027-03-07"]) },
            { operation: "z", patient: "Zoe", visits: visits(["v6", "2027-03-07"]) },
            { operation: "y", patient: "Yan", visits: visits(["v7", "2027-03-07"]) },
            { operation: "d", patient: "Dee", visits: visits(["v5", "2027-03-09"]) },
            { operation: "c", patient: "Cy", visits: visits(["v4", "2027-03-07"]) },
        ];
        const sheet = withFollowed({ chart: "20/", rows, eyes: [here, moved] }, followed, new Date("2027-03-05T12:00"));
        answer = sheet.rows.map((row) => [row.visit_id, row.state]);
    """
    coming = [["v4", "coming"], ["v7", "coming"], ["v2", "coming"], ["v5", "coming"]]
    assert tell(run, body) == [["v1", "here"], ["v6", "seen"], *coming]


def test_what_was_entered_here_shows_on_them_too(run: Run) -> None:
    body = f"""{OTHERS}
        mark(sheet, "b", [{{ kind: "seen", body: {{ visit: "month 2", visit_id: "v2" }} }}]);
        const {{ visit: left, visits }} = eyeOf(sheet, "b");
        answer = [left, visits];
    """
    assert tell(run, body, day="2027-03-05T12:00") == ["", []]
