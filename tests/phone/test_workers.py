"""What the service workers of phone and clinic device have in common, in node: their caches, and sending while no page is open."""

from typing import Any

import pytest

from tests.phone.conftest import Run

WORKER = """
import { ownAddress, startWorker } from "./shared/worker.js";

const kept = new Map([["followup-shell-old", 1], ["followup-shell-new", 1], ["followup-clinic-old", 1], ["followup-language", 1]]);
globalThis.caches = {
    keys: async () => [...kept.keys()],
    delete: async (name) => kept.delete(name),
    open: async (name) => { kept.set(name, 1); return name; },
};
globalThis.location = { origin: "https://clinic.invalid" };
const heard = {};
const said = [];
const worker = { addEventListener: (name, work) => { heard[name] = work; }, clients: { claim: async () => said.push("claimed") } };
const open = startWorker(worker, "new", {
    prefix: "followup-shell-", turn: "to send", keepAll: async (cache) => said.push(`keeps in ${cache}`),
    outbox: async () => ({ flush: async () => given.outcome }), begin: async () => { said.push("begun"); await new Promise(() => {}); },
});
const happens = async (name, event = {}) => {
    let waited;
    heard[name]({ ...event, waitUntil: (promise) => { waited = promise; } });
    return waited === undefined ? "nothing" : waited.then(() => "done", (error) => error.message);
};
""".strip()


def script(body: str) -> str:
    return f"{WORKER}\n{body}"


def test_a_worker_keeps_its_files_before_it_is_in_charge_and_lets_only_its_own_earlier_caches_go(run: Run) -> None:
    body = """
        await happens("install");
        await happens("activate");
        answer = [said, [...kept.keys()], await open()];
    """
    said, left, current = run(script(body), {})
    assert said == ["keeps in followup-shell-new", "begun", "claimed"]  # though what was begun never ends
    assert left == ["followup-shell-new", "followup-clinic-old", "followup-language"]
    assert current == "followup-shell-new"


@pytest.mark.parametrize(
    ("tag", "outcome", "becomes"),
    [
        ("to send", "sent", "done"),
        ("to send", "locked", "done"),
        ("to send", "unreachable", "no answer yet"),  # the browser wakes a worker again whose promise failed
        ("of another", "unreachable", "nothing"),
    ],
)
def test_a_worker_that_is_woken_sends_and_is_woken_again_where_nobody_answered(
    run: Run, tag: str, outcome: str, becomes: str
) -> None:
    assert run(script('answer = await happens("sync", { tag: given.tag });'), {"tag": tag, "outcome": outcome}) == becomes


@pytest.mark.parametrize(
    ("method", "url", "own"),
    [
        ("GET", "https://clinic.invalid/me/?language=de", "/me/"),
        ("POST", "https://clinic.invalid/api/v1/events", None),
        ("GET", "https://elsewhere.invalid/me/", None),
    ],
)
def test_a_worker_answers_only_what_is_read_from_its_own_clinic(run: Run, method: str, url: str, own: Any) -> None:
    body = "answer = ownAddress(given)?.pathname ?? null;"
    assert run(script(body), {"method": method, "url": url}) == own


KEEPING = """
import { keepAssets } from "./shared/worker.js";

const realTimeout = setTimeout;
let open = 0;
let most = 0;
const asked = [];
const cache = {
    add: async ({ url }) => {
        asked.push(url);
        most = Math.max(most, ++open);
        await new Promise((done) => realTimeout(done, 1));
        open -= 1;
        if (url.endsWith(given.stalls)) throw new Error("no answer in time");
    },
};
globalThis.setTimeout = (work, after) => { const made = realTimeout(work, after); made.unref(); return made; };
globalThis.Request = class { constructor(url) { this.url = url; } };
const outcome = await keepAssets(cache, { assets: given.assets, hashes: {} }).then(() => "kept", (error) => error.message);
await new Promise((done) => realTimeout(done, 20));
answer = [outcome, most, asked.length];
""".strip()


@pytest.mark.parametrize(("stalls", "outcome", "asked"), [("none", "kept", 40), ("/7", "no answer in time", 11)])
def test_a_worker_that_fills_its_cache_leaves_pages_connections_of_their_own(
    run: Run, stalls: str, outcome: str, asked: int
) -> None:
    """A browser has six to each host over HTTP/1.1 (RFC 9112, 9.4, names no number; six is common practice)."""
    told, at_once, began = run(KEEPING, {"assets": [f"/static/{n}" for n in range(40)], "stalls": stalls})
    assert (told, at_once) == (outcome, 3)
    assert 8 <= began <= asked


KEPT_FOR = """
import { keptFor } from "./shared/worker.js";

const newer = { "/a": "newer", "/b": "newer" };
const kept = { "other-1": { "/a": "another's", "/c": "another's" }, "ours-2": newer, "ours-3": {}, "ours-1": { "/a": "own" } };
const cache = (name) => ({
    // The third is being filled: whoever asks it waits.
    match: (address) => (name === "ours-3" ? new Promise(() => {}) : Promise.resolve(kept[name][address])),
});
globalThis.caches = { keys: async () => Object.keys(kept), open: async (name) => cache(name) };
const waits = () => new Promise((done) => setTimeout(done, 200, "waits"));
const found = (address) => Promise.race([keptFor(cache("ours-1"), "ours-", address), waits()]);
answer = await Promise.all(["/a", "/b", "/c"].map(found));
""".strip()


def test_what_a_version_keeps_is_its_own_else_that_of_the_one_that_took_over_and_no_later_one_is_waited_for(
    run: Run,
) -> None:
    assert run(KEPT_FOR, {}) == ["own", "newer", "waits"]
