"""What of a timer counts: what somebody spoke for, at most what the core takes, and never more than the clinic can keep."""

import pytest

from followup.clinical import posture
from followup.records.bodies import kinds
from tests.conftest import NOW
from tests.phone.conftest import Run

HOUR_MS = 3_600_000
SCRIPT = """
import { ASK_AFTER_MS, counted, isInDoubt, isLong, isUnsure, LONGEST_MS, stretch, sureOf } from "./patient/timers.js";

const start = Date.parse("2027-03-01T20:00:00Z");
const after = (hours) => new Date(start + hours * 3600000);
const fresh = { position: "face-down", start: after(0).toISOString() };
const told = (timer, now) => ({
    counted: counted(timer, now).map((at) => (at - start) / 3600000), doubt: isInDoubt(timer, now), long: isLong(timer, now),
    kept: isUnsure(timer, undefined, now) ? null : stretch(timer, now),
});
answer = {
    longest: LONGEST_MS, asked: ASK_AFTER_MS / 3600000,
    cases: [
        told(fresh, after(1)), told(fresh, after(26)), told(sureOf(fresh, after(8)), after(9)),
        told(sureOf(fresh, after(12)), after(40)), told(fresh, after(2.9)), told(fresh, after(3.1)),
    ],
};
"""


def test_only_what_somebody_spoke_for_counts_and_nothing_is_refused(run: Run) -> None:
    told = run(SCRIPT, None)
    assert told["longest"] == posture.LONGEST_OPEN_HOURS.value * HOUR_MS
    asked = told["asked"]
    short, long, night, days, *around = told["cases"]
    assert [case["doubt"] for case in around] == [False, True]  # three hours: common practice, no source
    assert (short["counted"], short["doubt"]) == ([0, 1], False)
    assert (long["counted"], long["doubt"], long["long"]) == ([0, asked], True, True)
    assert (night["counted"], night["doubt"]) == ([0, 9], False)
    assert days["counted"] == [0, 12 + asked]
    assert [case["kept"] is None for case in (short, long, night, days)] == [False, True, False, True]
    for case in (short, night):
        kinds.body_of("posture", case["kept"]).fact(NOW)  # the clinic takes it


SEALED = """
import { Database, page } from "./indexed_db.js";
import { sealEverything } from "./patient/sealing.js";
import { base64, opened } from "./shared/seal.js";

page();
const rsa = { name: "RSA-OAEP", hash: "SHA-256", modulusLength: 2048, publicExponent: new Uint8Array([1, 0, 1]) };
const keys = await crypto.subtle.generateKey(rsa, true, ["wrapKey", "unwrapKey"]);
const sealing_key = base64(await crypto.subtle.exportKey("spki", keys.publicKey));
const receipt = { made_at: Date.now(), received_at: Date.now(), seen_at: Date.now() };
const start = new Date(Date.now() - given.ago * 60000).toISOString();
const timer = { operation: "eye", eye: "right", position: "face-down", start, ahead: given.ahead * 60000 };
const database = new Database({ facts: [["pack", { sealing_key, eyes: [] }], ["clock", receipt], ["timer", [timer]]] });
await sealEverything(database);
const [packet] = database.stores.facts.get("sealed");
const [event] = await opened(packet, keys.privateKey);
const minutes = (from, to) => Math.round((Date.parse(to) - Date.parse(from)) / 60000);
answer = { long: minutes(event.body.from, event.body.to), since: minutes(event.body.to, new Date().toISOString()) };
"""


@pytest.mark.parametrize(("ago", "ahead", "minutes"), [(20, 0, 20), (-300, 0, 0), (20, 60, 0), (13 * 60, 0, 0)])
def test_a_phone_that_is_locked_out_seals_what_ran_or_where_nobody_can_tell_when_it_ended(
    run: Run, ago: int, ahead: int, minutes: int
) -> None:
    assert run(SEALED.strip(), {"ago": ago, "ahead": ahead}) == {"long": minutes, "since": 0}
