"""The check on the phone over its whole table: it says what the rulebook says, or *call us*, and reassures only where it may.

The rulebook in Python (`clinical.warnings`) is the second opinion for what the phone works out from its tables.
"""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from typing import Any, NamedTuple

import pytest

from followup.care import pack as packs
from followup.care.eye import load
from followup.clinical import warnings
from followup.clinical.course import SYMPTOM_SIGNS, SYMPTOM_TRENDS, Course, Operation, Symptoms
from followup.config import Settings
from followup.protocols import book
from followup.records import Store
from followup.records.values import Device
from tests.conftest import OPERATED
from tests.phone.conftest import Run

# Every danger question of the check but pain: the brief of the check names these.
QUESTIONS = (*SYMPTOM_TRENDS, *SYMPTOM_SIGNS)
RULES = warnings.Rulebook("symptoms", tuple(r for r in book.rulebook().rules if r.check == "symptoms"))
LEVELS = ("now", "today", "call", "this-week", "well")
HOUR, DAY, YEAR = timedelta(hours=1), timedelta(days=1), timedelta(days=365)


class Told(NamedTuple):
    """How one check was answered: pain from 0 to 10, None for left out, -1 for *cannot tell*; the rest by question."""

    pain: int | None
    bad: frozenset[str]
    unsure: frozenset[str]
    skipped: frozenset[str]
    words: str

    @property
    def answers(self) -> dict[str, Any]:
        """As the form gives it."""
        said: dict[str, Any] = {} if self.pain is None or self.pain < 0 else {"pain": self.pain}
        for name in QUESTIONS:
            if name not in self.unsure | self.skipped:
                said[name] = name in self.bad if name in SYMPTOM_SIGNS else "worse" if name in self.bad else "same"
        unsure = [*self.unsure, *(["pain"] if self.pain == -1 else [])]
        return said | ({"cannot_tell": unsure} if unsure else {}) | ({"words": self.words} if self.words else {})

    @property
    def whole(self) -> bool:
        return self.pain is not None and self.pain >= 0 and not self.unsure and not self.skipped and not self.words


# How many answers a rule reads at most, pain among them. Sets of so many bad answers are tried with every pain in every way;
# in larger ones rules only add up, so each is tried with one pain and in one way, in turn. PHONE_CHECKS=all tries everything.
READ_AT_MOST = max(int(r.threshold.get("count", 1)) + len(r.threshold.get("also", ())) for r in RULES.rules)
TRY_ALL = os.environ.get("PHONE_CHECKS") == "all"


def every_check() -> Iterator[Told]:
    """Pain in each way, each set of bad answers, and the rest answered well, *cannot tell*, left out, or with words."""
    pains = [*range(11), -1, None]
    for n, bits in enumerate(range(2 ** len(QUESTIONS))):
        bad = frozenset(name for i, name in enumerate(QUESTIONS) if bits >> i & 1)
        if TRY_ALL or len(bad) <= READ_AT_MOST:
            for m, pain in enumerate(pains):
                yield from in_each_way(pain, bad, n + m)
        else:
            ways = list(in_each_way(pains[n % len(pains)], bad, n))
            yield ways[n % len(ways)]


def in_each_way(pain: int | None, bad: frozenset[str], n: int) -> Iterator[Told]:
    none: frozenset[str] = frozenset()
    rest = [name for name in QUESTIONS if name not in bad]
    yield Told(pain, bad, none, none, "")
    yield Told(pain, bad, none, none, "all black since this morning")
    if rest:
        one = frozenset({rest[n % len(rest)]})
        yield Told(pain, bad, one, none, "")
        yield Told(pain, bad, none, one, "")
        yield Told(pain, bad, none, frozenset(rest), "")


@dataclass(frozen=True)
class Phone:
    """A phone at one moment: days since surgery, and how its clock and what the clinic sent have fared."""

    name: str
    day: float = 3
    off_at_receipt: timedelta = timedelta(0)  # the phone's clock against the clinic's when the pack came
    since: timedelta = 4 * HOUR  # what the phone's clock shows since
    latest_seen: timedelta = timedelta(0)  # the latest the phone's clock had shown, after the receipt
    rules: str = "kept"
    good: bool = False


PHONES = [
    Phone("right", good=True),
    Phone("an hour off, known", off_at_receipt=HOUR, good=True),
    Phone("a weekend offline", since=71 * HOUR, good=True),
    Phone("late, some rules over", day=120, good=True),
    Phone("a day fast from the start", off_at_receipt=DAY),
    Phone("a day slow from the start", off_at_receipt=-DAY),
    Phone("ten years fast from the start", off_at_receipt=10 * YEAR),
    Phone("ten years slow from the start", off_at_receipt=-10 * YEAR),
    Phone("put back a day since", since=-DAY),
    Phone("put back a day after two", since=DAY, latest_seen=2 * DAY),
    Phone("put back ten years since", since=-10 * YEAR),
    Phone("put forward ten years since", since=10 * YEAR),
    Phone("not heard from for four days", since=4 * DAY),
    Phone("never told when the pack came", rules="no receipt"),
    Phone("no rules", rules="missing"),
    Phone("rules expired", day=3700),
    Phone("one of two eyes without rules", rules="missing for one"),
]


@pytest.fixture
def packed(
    store: Store, settings: Settings, device: Device, discharged: tuple[str, str]
) -> tuple[dict[str, Any], Operation]:
    made = packs.pack(store, settings.clinic, device, OPERATED + 3 * DAY).model_dump(mode="json")
    return made, load(store, discharged[0], settings.clinic.tz).operation


SCRIPT = """
import { judge } from "./patient/rules.js";

answer = given.phones.map(({ eyes, receipt, now }) => given.checks.map((answers) => {
    const { level, emergency } = judge(eyes, answers, receipt, now);
    return level + (emergency ? "!" : "");
}));
""".strip()


def test_every_check_on_every_phone_says_what_the_rulebook_says_or_call_us(
    packed: tuple[dict[str, Any], Operation], run: Run
) -> None:
    made, operation = packed
    checks = list(every_check())
    phones = [as_sent(phone, made) for phone in PHONES]
    told = run(SCRIPT, {"phones": phones, "checks": [check.answers for check in checks]})

    @cache
    def rulebook_says(pain: int | None, bad: frozenset[str], day: float) -> str | None:
        at = operation.at + timedelta(days=day)
        said = Symptoms(at, pain=None if pain == -1 else pain, **{n: True if n in SYMPTOM_SIGNS else "worse" for n in bad})
        found = warnings.evaluate(Course.after(operation, (), (said,)), RULES, at)
        return found[0].how_soon if found else None

    wells = 0
    for phone, levels in zip(PHONES, told, strict=True):
        for check, shown in zip(checks, levels, strict=True):
            level, emergency = shown.rstrip("!"), shown.endswith("!")
            day = phone.day if phone.good or phone.day > 1000 else 1  # where the clock is at fault no rule is left out
            ruled = None if phone.rules == "missing" else rulebook_says(check.pain, check.bad, day)
            case = (phone.name, check)
            if ruled in ("now", "today"):
                assert level == ruled, case
            elif phone.good and check.whole and not check.bad and ruled is None:
                assert level == "well", case
                wells += 1
            else:
                assert level == "call", case
            if level == "now" or not check.whole or not phone.good:
                assert emergency, case
    # Pain 0 to 4 with nothing else, on each good phone: the rules in force call from 5.
    assert wells == 5 * sum(phone.good for phone in PHONES)


def as_sent(phone: Phone, made: dict[str, Any]) -> dict[str, Any]:
    """What that phone holds, in milliseconds since 1970 as browsers count."""
    now = OPERATED + timedelta(days=phone.day)
    came = now - (phone.since if phone.good else 4 * HOUR)
    received = came + phone.off_at_receipt
    receipt = {"made_at": ms(came), "received_at": ms(received), "seen_at": ms(received + phone.latest_seen)}
    kept = made["eyes"]
    if phone.rules == "missing":
        kept = [{**eye, "symptom_rules": []} for eye in kept]
    if phone.rules == "missing for one":
        kept = [*kept, {**kept[0], "symptom_rules": []}]
    return {
        "eyes": kept,
        "receipt": None if phone.rules == "no receipt" else receipt,
        "now": ms(received + phone.since),
    }


def ms(at: datetime) -> int:
    return round(at.timestamp() * 1000)


def test_a_clock_put_forward_by_less_than_a_pack_lasts_hides_no_danger(
    packed: tuple[dict[str, Any], Operation], run: Run
) -> None:
    # Two days forward look like two days gone by, in which rules of 90 days ended.
    made, operation = packed
    at = operation.at + timedelta(days=89)
    phone = as_sent(Phone("two days forward", day=91, since=2 * DAY, good=True), made)
    checks = [check for check in every_check() if check.whole]
    for check, shown in zip(checks, run(SCRIPT, {"phones": [phone], "checks": [c.answers for c in checks]})[0], strict=True):
        said = Symptoms(at, pain=check.pain, **{n: True if n in SYMPTOM_SIGNS else "worse" for n in check.bad})
        found = warnings.evaluate(Course.after(operation, (), (said,)), RULES, at)
        ruled = found[0].how_soon if found else "well"
        assert shown.rstrip("!") == ruled, check
        assert shown.endswith("!") == (ruled == "now"), check


@pytest.mark.parametrize("gone", QUESTIONS)
def test_a_rule_outside_its_days_is_never_an_all_clear(
    packed: tuple[dict[str, Any], Operation], run: Run, gone: str
) -> None:
    made, _ = packed
    eye = made["eyes"][0]
    before = [{**rule, "valid_from": "2099-01-01T00:00:00Z"} for rule in eye["symptom_rules"] if rule["pain"] is None]
    eye = {**eye, "symptom_rules": [rule for rule in eye["symptom_rules"] if rule["pain"] is not None] + before}
    phone = as_sent(PHONES[0], {"eyes": [eye]})
    check = Told(0, frozenset({gone}), frozenset(), frozenset(), "")
    assert run(SCRIPT, {"phones": [phone], "checks": [check.answers]}) == [["call"]]


STANDING = """
import { standing } from "./patient/rules.js";

answer = given.map(([before, fresh]) => standing(before, fresh).level);
""".strip()


def test_a_worse_answer_wins_and_a_lesser_one_only_when_it_is_complete(run: Run) -> None:
    pairs = [
        ({"level": old}, {"level": new, "complete": complete})
        for old in LEVELS
        for new in LEVELS
        for complete in (True, False)
    ]
    for (old, new), stands in zip(pairs, run(STANDING, pairs), strict=True):
        worse = LEVELS.index(new["level"]) <= LEVELS.index(old["level"])
        assert stands == (new["level"] if worse or new["complete"] else old["level"]), (old, new)


SETTLED = """
import { withoutSettled } from "./patient/rules.js";

answer = Object.keys(withoutSettled(given.verdicts, given.pack)).sort();
""".strip()


def test_only_what_the_clinic_settled_or_follows_no_more_leaves_the_phone(run: Run) -> None:
    pack = {
        "eyes": [
            {"operation": "a", "receipts": [{"id": "1", "settled": True}, {"id": "2", "settled": False}]},
            {"operation": "b", "receipts": [{"id": "3", "settled": False}]},
            {"operation": "c", "receipts": []},
        ]
    }
    verdicts = {"a": {"entry": "1"}, "b": {"entry": "3"}, "c": {}, "gone": {"entry": "9"}}
    assert run(SETTLED, {"pack": pack, "verdicts": verdicts}) == ["b", "c"]


STEADY = """
import { faultOf, receiptOf, SteadyClock } from "./patient/clock.js";

const hour = 3600000;
const clock = new SteadyClock();
const receipt = receiptOf({ made_at: "2027-03-05T10:00:00Z" }, Date.parse("2027-03-05T10:01:00Z"));
const at = receipt.received_at;
const looks = [[0, 0], [hour, hour], [hour, 5 * hour], [30 * hour, 6 * hour], [28.5 * hour, 6 * hour], [20 * hour, 7 * hour]];
let kept = receipt;
answer = looks.map(([shown, ran]) => {
    kept = clock.notice(kept, at + shown, ran);
    return faultOf(kept, at + shown);
});
const other = new SteadyClock();
let shared = receipt;
for (let n = 1; n <= 300; n += 1) for (const one of [clock, other]) shared = one.notice(shared, at + n * 60000, n * 60000);
answer.push(faultOf(shared, at + 300 * 60000));
""".strip()


def test_a_clock_set_back_while_the_page_is_open_is_noticed_and_sleep_or_a_second_tab_is_not_taken_for_it(run: Run) -> None:
    # Open; an hour on; stood still for four hours; slept for a day; put back a little; put back by hours; two tabs for five hours.
    assert run(STEADY, None) == [None, None, "clock", None, None, "clock", None]
