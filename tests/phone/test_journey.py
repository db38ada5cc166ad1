"""Journey and anaesthetic on the phone: at once what the rulebook says, counted from where the operation was done."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import pack
from followup.care.reading.eye import load
from followup.care.visits import visit
from followup.clinical import warnings
from followup.clinical.course import Course
from followup.clinical.facts import Anaesthetic, Journey
from followup.clinical.surgery import Operation
from followup.config import Settings
from followup.protocols import book
from followup.records import Store
from followup.records.values import Device
from tests.conftest import OPERATED, operation_note, patient_details
from tests.phone.conftest import Run
from tests.phone.test_check import DAY, PHONES, Phone, as_sent

AT = OPERATED + 3 * DAY
SCRIPT = """
import { judgeAnaesthetic, judgeHeight } from "./patient/rules.js";

answer = given.phones.map(({ eyes, receipt, now }) => [
    ...given.heights.map((metres) => judgeHeight(eyes, [metres].flat(), receipt, now)),
    judgeAnaesthetic(eyes, receipt, now),
]);
""".strip()


@pytest.fixture
def high_up(store: Store, settings: Settings, nurse: Actor, device: Device) -> tuple[dict[str, Any], Operation]:
    """The pack of a patient operated at 500 m, and the operation."""
    note = operation_note(eye="left", height_metres=500)
    id, _ = leaving.discharge(Desk(store, OPERATED, nurse, settings.clinic.tz), patient_details(), note, [])
    made = pack.pack(store, settings.clinic, device, AT).model_dump(mode="json")
    operation = load(store, id, settings.clinic.tz).operation
    return {**made, "eyes": [eye for eye in made["eyes"] if eye["operation"] == id]}, operation


def rulebook_says(operation: Operation, fact: Journey | Anaesthetic) -> tuple[str, str] | None:
    rules = tuple(r for r in book.rulebook().rules if r.check in ("climb", "anaesthetic"))
    found = warnings.evaluate(Course.after(operation, (), (fact,)), warnings.Rulebook("gas", rules), AT)
    return (found[0].how_soon, book.rulebook().rule(found[0].rule).patient_words) if found else None


def test_every_height_and_an_anaesthetic_say_what_the_rulebook_says(
    high_up: tuple[dict[str, Any], Operation], run: Run
) -> None:
    made, operation = high_up
    heights = [-430, 0, 499, 500, 749, 750, 751, 1699, 1700, 2438, 11000]
    facts = [*(Journey(AT, (metres,)) for metres in heights), Anaesthetic(AT)]
    wrong = next(phone for phone in PHONES if phone.name == "ten years slow from the start")
    phones = [as_sent(phone, made) for phone in (PHONES[0], wrong)]
    right_clock, wrong_clock = run(SCRIPT, {"phones": phones, "heights": heights})
    for fact, shown, doubtful in zip(facts, right_clock, wrong_clock, strict=True):
        ruled = rulebook_says(operation, fact)
        assert (shown["level"], shown["words"]) == ((ruled[0], [ruled[1]]) if ruled else ("well", [])), fact
        assert doubtful["level"] == (ruled[0] if ruled else "call"), fact
    # 250 m above the clinic's 500 m, and 1,200 m: the draft's thresholds.
    assert [v["level"] for v in right_clock[4:9]] == ["well", "today", "today", "today", "now"]


def test_a_caution_that_the_clinic_lifted_is_over_and_an_old_pack_says_call_us(
    store: Store, settings: Settings, nurse: Actor, device: Device, eye_id: str, run: Run
) -> None:
    before = pack.pack(store, settings.clinic, device, AT).model_dump(mode="json")
    visit.record_clinic_event(Desk(store, AT, replace(nurse, trusted=True), settings.clinic.tz), eye_id, "no-gas-seen", {})
    made = pack.pack(store, settings.clinic, device, AT + timedelta(hours=1)).model_dump(mode="json")
    old = {**before, "eyes": [{**eye, "gas": without(eye["gas"], "heights", "anaesthetics")} for eye in before["eyes"]]}
    stale = Phone("stale", since=4 * DAY)
    phones = [as_sent(PHONES[0], made), as_sent(stale, made), as_sent(PHONES[0], old)]
    levels = [[v["level"] for v in told] for told in run(SCRIPT, {"phones": phones, "heights": [3000]})]
    assert levels == [["well", "well"], ["call", "call"], ["call", "call"]]
    gas = made["eyes"][0]["gas"]
    assert (gas["caution"], gas["fades"], gas["heights"], gas["anaesthetics"]) == (False, True, [], [])


def test_a_climb_counts_from_a_home_below_the_clinic(high_up: tuple[dict[str, Any], Operation], run: Run) -> None:
    made, operation = high_up
    journeys = [
        (home, top)
        for home in (-100, 0, 20, 400, 499, 500, 620, 760)
        for top in (200, 269, 270, 600, 749, 750, 1219, 1220, 1700)
    ]
    (told,) = run(SCRIPT, {"phones": [as_sent(PHONES[0], made)], "heights": journeys})
    for journey, shown in zip(journeys, told, strict=False):
        ruled = rulebook_says(operation, Journey(AT, journey))
        assert shown["level"] == (ruled[0] if ruled else "well"), journey
    # 250 m from home, though not over the clinic's 500 m; and a pack from before that was asked goes by the clinic's height.
    assert [told[journeys.index(j)]["level"] for j in ((20, 269), (20, 270), (20, 1220))] == ["well", "today", "now"]
    eyes = [
        {**eye, "gas": {**eye["gas"], "heights": [without(rule, "climb_metres") for rule in eye["gas"]["heights"]]}}
        for eye in made["eyes"]
    ]
    (before,) = run(SCRIPT, {"phones": [as_sent(PHONES[0], {**made, "eyes": eyes})], "heights": [(20, 270), (20, 750)]})
    assert [shown["level"] for shown in before[:2]] == ["well", "today"]


def without(mapping: dict[str, Any], *names: str) -> dict[str, Any]:
    return {name: value for name, value in mapping.items() if name not in names}


def test_one_eye_with_gas_is_enough(high_up: tuple[dict[str, Any], Operation], run: Run) -> None:
    made, _ = high_up
    eye = made["eyes"][0]
    clear = {**eye, "gas": {**eye["gas"], "caution": False, "heights": [], "anaesthetics": []}}
    for order in ([clear, eye], [eye, clear]):
        phone = as_sent(PHONES[0], {"eyes": order})
        assert [v["level"] for v in run(SCRIPT, {"phones": [phone], "heights": [3000]})[0]] == ["now", "now"]


ON_THE_PAGE = """
import { parts } from "./parts.js";
import { BubbleView } from "./patient/bubble-view.js";

const byId = parts();
let pack, receipt, now;
Date.now = () => now;
globalThis.setTimeout = (work) => work(); // nobody taps twice here
const actions = { eyes: () => pack.eyes, receipt: () => receipt, save: async () => true };
const words = { eye: { left: "left eye", right: "right eye" }, agent: {} };
const view = new BubbleView(actions, words);
const draw = ({ eyes, ended, ...phone }) => {
    [pack, receipt, now] = [{ eyes, ended }, phone.receipt, phone.now];
    const names = new Map(eyes.map((eye) => [eye.operation, words.eye[eye.eye]]));
    view.show({ eye: eyes[0], eyes, pack, names }, new Date(now));
};
const told = () => ({
    title: byId("journey-title").textContent, words: byId("journey-words").said, shown: !byId("journey-said").hidden,
    card: byId("anaesthetist").hidden ? null : byId("anaesthetist-eyes").said.trim(),
});
answer = [];
for (const [first, ...later] of given.phones) {
    for (const form of ["journey", "anaesthetic"]) {
        byId("journey-said").hidden = true;
        draw(first);
        byId("journey-height").value = "300";
        await byId(form).tell("submit");
        answer.push([told(), ...later.map((phone) => { draw(phone); return told(); })]);
    }
}
""".strip()


def clear(made: dict[str, Any]) -> dict[str, Any]:
    """The same, with nothing that lasts in the eye."""
    without_gas = {"caution": False, "fades": False, "heights": [], "anaesthetics": []}
    return {**made, "eyes": [{**eye, "gas": {**eye["gas"], **without_gas}} for eye in made["eyes"]]}


def test_gas_in_an_eye_that_is_followed_no_more_is_never_said_to_be_gone(
    high_up: tuple[dict[str, Any], Operation], run: Run
) -> None:
    made, _ = high_up
    other = clear(made)
    right_clock = {name: value for name, value in as_sent(PHONES[0], other).items() if name != "eyes"}
    phones = [
        [{**right_clock, "eyes": each["eyes"], "ended": [{"eye": "right", "ended_on": "2027-03-04", "caution": caution}]}]
        for each in (other, made)
        for caution in (True, False)
    ]
    told = [said for (said,) in run(ON_THE_PAGE, {"phones": phones})]
    beside_gas, beside_none, both, followed = told[:2], told[2:4], told[4:6], told[6:]
    assert [said["title"] for said in beside_gas] == ["call-us"] * 2
    assert [said["card"] for said in beside_gas] == ["right eye"] * 2
    words = ["300 m: no-gas", "no-gas"]  # of the journey, and of the anaesthetic
    assert [(said["title"], said["words"], said["card"]) for said in beside_none] == [("", said, None) for said in words]
    assert [said["title"] for said in both] == ["call-us", "call-now"]
    assert [said["title"] for said in followed] == ["", "call-now"]


def test_a_reassurance_leaves_the_page_when_it_is_old_or_would_not_be_said_any_more(
    high_up: tuple[dict[str, Any], Operation], run: Run
) -> None:
    """The page stays open for days: another operation may put gas into an eye meanwhile."""
    gas = {**as_sent(PHONES[0], high_up[0]), "ended": []}
    none = {**as_sent(PHONES[0], clear(high_up[0])), "ended": []}

    def later(phone: dict[str, Any], minutes: float) -> dict[str, Any]:
        return {**phone, "now": phone["now"] + 60_000 * minutes}

    cases = {
        "soon": (none, later(none, 59), True),
        "old": (none, later(none, 61), False),
        "clock put back": (none, later(none, -61), False),
        "gas now": (none, later(gas, 1), False),
        "lifted": (gas, later(none, 1), False),
        "too high now": (gas, later({**gas, "eyes": lower(gas["eyes"])}, 1), False),
        "in doubt": (none, {**later(none, 1), "receipt": None}, False),
    }
    told = run(ON_THE_PAGE, {"phones": [[first, then] for first, then, _ in cases.values()]})
    for (name, (first, _, stays)), (journey, anaesthetic) in zip(
        cases.items(), zip(told[::2], told[1::2], strict=True), strict=True
    ):
        assert (journey[0]["title"], journey[0]["shown"], journey[1]["shown"]) == ("", True, stays), name
        calls = first is gas  # what calls stays until something else is asked
        assert (anaesthetic[0]["title"], anaesthetic[1]["shown"]) == (("call-now", True) if calls else ("", stays)), name


def lower(eyes: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The same eyes with limits at 100 m above the sea."""
    return [
        {**eye, "gas": {**eye["gas"], "heights": [{**rule, "from_metres": 100} for rule in eye["gas"]["heights"]]}}
        for eye in eyes
    ]


TAPS = """
import { parts } from "./parts.js";
import { BubbleView } from "./patient/bubble-view.js";

const byId = parts();
const waiting = [];
globalThis.setTimeout = (work) => waiting.push(work);
const kept = [];
const save = async (kind, body) => kept.push([kind, body]);
const view = new BubbleView({ eyes: () => given.eyes, receipt: () => given.receipt, save }, { eye: {}, agent: {} });
Date.now = () => given.now;
view.show({ eye: given.eyes[0], eyes: given.eyes, pack: given, names: new Map() }, new Date(given.now));
byId("journey").reset = () => { byId("journey-height").value = byId("journey-home").value = ""; };
const told = (form) => byId(form).tell("submit").then(() => ({
    title: byId("journey-said").hidden ? null : byId("journey-title").textContent, error: byId("journey-error").textContent,
    kept: kept.length,
}));
answer = [];
for (const [form, height] of given.taps) {
    if (height !== undefined) byId("journey-height").value = height;
    answer.push(await told(form), await told(form)); // the second of a double tap
    for (const later of waiting.splice(0)) later();
    answer.push(await told(form)); // and one more, later
    for (const later of waiting.splice(0)) later();
}
""".strip()


def test_neither_a_double_tap_nor_an_empty_form_hides_what_was_said(
    high_up: tuple[dict[str, Any], Operation], run: Run
) -> None:
    made, _ = high_up
    phone = {**as_sent(PHONES[0], made), "ended": []}
    calls, low, anaesthetic = (
        run(TAPS, {**phone, "taps": [tap]}) for tap in (["journey", "2500"], ["journey", "510"], ["anaesthetic"])
    )
    once = {"title": "call-now", "error": "", "kept": 1}
    assert calls == [once, once, {**once, "error": "metres"}]
    assert low == [{**one, "title": ""} for one in calls]
    assert anaesthetic == [once, once, {**once, "kept": 2}]


def test_what_calls_stays_beside_a_height_that_cannot_be_read_and_what_reassures_does_not(
    high_up: tuple[dict[str, Any], Operation], run: Run
) -> None:
    made, _ = high_up
    phone = {**as_sent(PHONES[0], made), "ended": []}
    for height, stays in (("2500", "call-now"), ("510", None)):
        told = run(TAPS, {**phone, "taps": [["journey", height], ["journey", "2,5"]]})
        assert (told[3]["title"], told[3]["error"], told[3]["kept"]) == (stays, "metres", 1), height
