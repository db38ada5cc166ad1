"""The check on the phone over its whole table: it says what the rulebook says, or *call us*, and reassures only where it may.

The second opinion for what the phone works out from its tables is the text of the rulebook (`tests/phone/stated.py`), which
is held against the core (`clinical.warnings`) in turn.
"""

import os
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cache
from itertools import combinations
from typing import Any, NamedTuple

import pytest

from followup.clinical import warnings
from followup.clinical.course import Course
from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS, Settled, Symptoms
from followup.clinical.second_looks import second_looks
from followup.clinical.surgery import Operation
from followup.protocols import book
from tests.conftest import OPERATED
from tests.phone import stated
from tests.phone.conftest import Run
from tests.phone.stated import LEVELS, worst

# Every danger question of the check but pain: the brief of the check names these.
QUESTIONS = (*SYMPTOM_TRENDS, *SYMPTOM_SIGNS)
RULES = warnings.Rulebook("symptoms", tuple(r for r in book.rulebook().rules if r.check in ("symptoms", "symptoms-again")))
ANY_DAY = warnings.Rulebook(
    "any day", tuple(replace(r, from_day=0, until_day=3650, second_look=None) for r in RULES.rules if r.check == "symptoms")
)
ASKING_BACK = {rule.id for rule in RULES.rules if rule.second_look}
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


# How many answers a rule reads at most, pain among them. On the phone whose clock and rules are right every combination is
# tried. On the others sets of so many bad answers are, with every pain in every way; in larger ones rules only add up, so each
# is tried with one pain and in one way, in turn. PHONE_CHECKS=all tries everything everywhere.
READ_AT_MOST = max(int(r.threshold.get("count", 1)) + len(r.threshold.get("also", ())) for r in RULES.rules)
TRY_ALL = os.environ.get("PHONE_CHECKS") == "all"
PAINS = [*range(11), -1, None]


def every_check(*, whole_table: bool = TRY_ALL) -> Iterator[Told]:
    """Pain in each way, each set of bad answers, and the rest answered well, *cannot tell*, left out, or with words."""
    for n, bits in enumerate(range(2 ** len(QUESTIONS))):
        bad = frozenset(name for i, name in enumerate(QUESTIONS) if bits >> i & 1)
        if whole_table or len(bad) <= READ_AT_MOST:
            for m, pain in enumerate(PAINS):
                yield from in_each_way(pain, bad, n + m)
        else:
            ways = list(in_each_way(PAINS[n % len(PAINS)], bad, n))
            yield ways[n % len(ways)]
    if whole_table:  # nothing bad, and each set of questions without an answer
        for n, names in enumerate(names for k in range(2, len(QUESTIONS)) for names in combinations(QUESTIONS, k)):
            unsure = frozenset(names[: n % len(names)])
            yield Told(PAINS[n % len(PAINS)], frozenset(), unsure, frozenset(names) - unsure, "")


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


SCRIPT = """
import { judge } from "./patient/rules.js";

answer = given.phones.map(({ eyes, receipt, now }) => given.checks.map((answers) => judge(eyes, answers, receipt, now).level));
""".strip()


@pytest.mark.parametrize("phone", PHONES, ids=lambda phone: phone.name)
def test_every_check_on_every_phone_says_what_the_rulebook_says_or_call_us(
    packed: tuple[dict[str, Any], Operation], run: Run, phone: Phone
) -> None:
    made, _ = packed
    checks = list(every_check(whole_table=TRY_ALL or phone == PHONES[0]))
    (levels,) = run(SCRIPT, {"phones": [as_sent(phone, made)], "checks": [check.answers for check in checks]})
    for check, level in zip(checks, levels, strict=True):
        dated = phone.good or phone.day > 1000 or phone.rules.startswith("missing")
        days = (phone.day,) if dated else (1, 20)  # where the clock is at fault no rule is left out
        pain = None if check.pain == -1 else check.pain
        ruled = "well" if phone.rules == "missing" else worst(*(stated.first_level(pain, check.bad, day) for day in days))
        if phone.good and check.whole:
            assert level == ruled, check
        else:
            assert level == worst(ruled, "call"), check
    shown_as = Counter(levels)
    # Pain 0 to 4 with nothing else, on a good phone: the rules in force call from 5.
    assert shown_as["well"] == (5 if phone.good else 0)
    assert shown_as["again"] > 0 or not phone.good


def test_the_text_of_the_rulebook_says_what_the_core_raises(packed: tuple[dict[str, Any], Operation]) -> None:
    _, operation = packed
    for day in (1, 3, 13.9, 14.1, 20, 89, 91, 120):
        at = operation.at + timedelta(days=day)
        for bad in (frozenset(names) for k in (0, 1, 2) for names in combinations(QUESTIONS, k)):
            for pain in (None, 3, 4, 6, 7):
                case = (day, pain, bad)
                assert stated.first_level(pain, bad, day) == first_level(operation, told_at(at, pain, bad)), case


def told_at(at: datetime, pain: int | None, bad: frozenset[str]) -> Symptoms:
    said = {n: True if n in SYMPTOM_SIGNS else "worse" for n in bad}
    return Symptoms(at, pain=None if pain == -1 else pain, **said)


def first_level(operation: Operation, said: Symptoms) -> str:
    """What a first and complete check is worth by the rulebook; *call us* where something is bad and no rule of that day says so."""
    course = Course.after(operation, (), (said,))
    called = [s.how_soon for s in warnings.evaluate(course, RULES, said.at)]
    bad = [name for name in QUESTIONS if getattr(said, name) in (True, "worse")]
    # More than two bad answers are never asked back, which tests/clinical/test_second_looks.py sees to: this saves minutes.
    asked = len(bad) <= 2 and bool(second_looks(course, RULES, said.at))
    soon = [RULES.rule(rule).how_soon for rule in ASKING_BACK if asked and _waits(operation, said, rule)]
    any_day = worst_of_any_day(operation, said.pain, frozenset(bad), asked)
    unruled = bad and not called and not asked
    more_urgent = LEVELS.index(any_day) < LEVELS.index(worst("well", *called, *soon))
    level = worst("well", *called, *(["again"] if asked else []))
    return worst(level, "call") if more_urgent or unruled else level


@cache
def worst_of_any_day(operation: Operation, pain: int | None, bad: frozenset[str], asked: bool) -> str:
    """How urgent the answers would be if every rule held on every day, rules that ask back aside where one has."""
    said = told_at(operation.at + DAY, pain, bad)
    signs = warnings.evaluate(Course.after(operation, (), (said,)), ANY_DAY, said.at)
    return worst("well", *(s.how_soon for s in signs if not (asked and s.rule in ASKING_BACK)))


def _waits(operation: Operation, said: Symptoms, rule: str) -> bool:
    alone = warnings.Rulebook(rule, (RULES.rule(rule),))
    return bool(second_looks(Course.after(operation, (), (said,)), alone, said.at))


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
    made, _ = packed
    phone = as_sent(Phone("two days forward", day=91, since=2 * DAY, good=True), made)
    checks = [check for check in every_check() if check.whole]
    for check, shown in zip(checks, run(SCRIPT, {"phones": [phone], "checks": [c.answers for c in checks]})[0], strict=True):
        assert shown == stated.first_level(check.pain, check.bad, 89), check


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


AGAIN = """
import { atTime, judge } from "./patient/rules.js";

answer = given.map(({ eyes, checks }) => {
    const earlier = [];
    const levels = [];
    let shown = null;
    for (const { answers, receipt, now } of checks) {
        if (shown) levels.push(atTime(shown, now).level);
        shown = judge(eyes, answers, receipt, now, earlier);
        earlier.push({ at: now, answers });
        levels.push(shown.level);
    }
    return levels;
});
""".strip()

FIRST = [(0, {name}) for name in QUESTIONS] + [(5, set()), (4, set()), (7, set()), (0, {"redness", "discharge"}), (0, set())]
APART = [timedelta(minutes=5), HOUR, 3 * HOUR, 5 * HOUR, 29 * HOUR, 31 * HOUR]


def pairs_of_checks() -> Iterator[tuple[tuple[int, set[str]], tuple[int, set[str]], timedelta]]:
    """A first check, then the same again, nothing more, more beside it, or another sign instead."""
    for n, (pain, bad) in enumerate(FIRST):
        for second in ((pain, bad), (0, set[str]()), (pain, bad | {"floaters"}), (5, bad), FIRST[(n + 4) % len(FIRST)]):
            for apart in APART:
                yield (pain, bad), second, apart


@pytest.mark.parametrize("day", [3, 20])
@pytest.mark.parametrize("left_out", [(), ("vision", "floaters", "pain"), "all but fever"])
def test_a_second_answer_says_what_the_rulebook_says(
    packed: tuple[dict[str, Any], Operation], run: Run, day: int, left_out: Any
) -> None:
    """Between the two checks everything is settled, so that the rulebook says again whatever is still there."""
    made, operation = packed
    first_at = operation.at + timedelta(days=day)
    skipped = frozenset(set(QUESTIONS) - {"fever"} if left_out == "all but fever" else set(left_out) & set(QUESTIONS))
    no_pain = "pain" in left_out or left_out == "all but fever"
    sent, expected = [], []
    for (pain, bad), (pain_2, bad_2), apart in pairs_of_checks():
        checks = [
            Told(pain, frozenset(bad), frozenset(), frozenset(), ""),
            Told(None if no_pain else pain_2, frozenset(bad_2) - skipped, frozenset(), skipped, ""),
        ]
        times = [first_at, first_at + apart]
        said = [
            Symptoms(at, **{k: v for k, v in check.answers.items() if k != "cannot_tell"})
            for at, check in zip(times, checks, strict=True)
        ]
        facts = [said[0], Settled(first_at + timedelta(seconds=1)), said[1]]
        course = Course.after(operation, (), tuple(facts))
        found = [s for s in warnings.evaluate(course, RULES, times[1]) if s.raised_at > first_at]
        waits = [a for a in second_looks(course, RULES, times[1]) if _still_waits(operation, facts, a.asked_at, a.due_at)]
        expected.append((checks, apart, worst("well", *(s.how_soon for s in found), *(["again"] if waits else []))))
        sent.append(
            {
                "eyes": made["eyes"],
                "checks": [
                    {"answers": check.answers, "receipt": as_sent(PHONES[0], made)["receipt"] | moments(at), "now": ms(at)}
                    for at, check in zip(times, checks, strict=True)
                ],
            }
        )
    for (checks, apart, ruled), (_, shown, level) in zip(expected, run(AGAIN, sent), strict=True):
        case = (checks, apart, ruled, shown, level)
        if ruled in ("now", "today", "again"):
            assert level == (ruled if checks[1].whole else worst(ruled, "call")), case
        elif not checks[1].whole or level == "call":
            assert level == "call", case
            assert not checks[1].whole or checks[1].bad or ruled == "this-week", case
        else:
            assert level == ruled, case


def _still_waits(operation: Operation, facts: list[Any], asked_at: datetime, due_at: datetime) -> bool:
    """Whether a second look is still to come after the last of the facts: without another word its rule calls when it is due."""
    last = max(fact.at for fact in facts)
    if due_at < last:
        return False
    course = Course.after(operation, (), tuple(facts))
    return any(
        s.raised_at == due_at and s.raised_at > last and s.values.get("second_look")
        for s in warnings.evaluate(course, RULES, due_at)
    )


def moments(at: datetime) -> dict[str, int]:
    return {"made_at": ms(at - HOUR), "received_at": ms(at - HOUR), "seen_at": ms(at - HOUR)}


CHECKS_OF = """
import { checksOf } from "./patient/second-looks.js";

answer = checksOf("a", given.entries, given.eyes, given.receipt);
""".strip()


def test_the_checks_before_are_those_of_every_phone_by_this_ones_clock(run: Run) -> None:
    def kept(id: str, kind: str, at: str, state: str, operation: str = "a", corrects: str | None = None) -> dict[str, Any]:
        event = {"id": id, "kind": kind, "operation": operation, "at": at, "body": {"pain": 1}, "corrects": corrects}
        return {"id": id, "event": event, "state": state}

    entries = [
        kept("own", "symptoms", "2027-03-05T10:00:00Z", "received"),
        kept("unsent", "symptoms", "2027-03-05T13:00:00Z", "saved"),
        kept("refused", "symptoms", "2027-03-05T11:00:00Z", "refused"),
        kept("undone", "symptoms", "2027-03-05T11:30:00Z", "received"),
        kept("undoing", "withdrawal", "2027-03-05T11:40:00Z", "saved", corrects="undone"),
        kept("stands", "symptoms", "2027-03-05T12:00:00Z", "received"),
        kept("not undone", "withdrawal", "2027-03-05T12:10:00Z", "refused", corrects="stands"),
        kept("other eye", "symptoms", "2027-03-05T11:00:00Z", "saved", operation="b"),
        kept("hours", "posture", "2027-03-05T11:00:00Z", "saved"),
    ]
    receipts = [
        {"id": "own", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "body": {"pain": 1}, "calling": True},
        {"id": "carer's", "kind": "symptoms", "at": "2027-03-05T11:00:00Z", "body": {"floaters": "worse"}, "calling": True}
        | {"looked_at": False, "settled": False},
        {"id": "seen", "kind": "symptoms", "at": "2027-03-05T11:10:00Z", "body": {"fever": True}, "calling": False}
        | {"looked_at": True, "settled": False},
        {
            "id": "good",
            "kind": "symptoms",
            "at": "2027-03-05T11:20:00Z",
            "body": {"pain": 1, "words": "fine"},
            "calling": False,
        }
        | {"looked_at": False, "settled": False},
        {"id": "carer's bubble", "kind": "bubble-seen", "at": "2027-03-05T11:00:00Z", "body": {"percent": 60}},
    ]
    an_hour_fast = {"made_at": ms(OPERATED), "received_at": ms(OPERATED + HOUR), "seen_at": ms(OPERATED + HOUR)}
    found = run(CHECKS_OF, {"entries": entries, "eyes": [{"operation": "a", "receipts": receipts}], "receipt": an_hour_fast})
    times = [datetime.fromisoformat(f"2027-03-05T{at}:00Z") for at in ("10:00", "12:00", "12:00", "12:10", "12:20", "13:00")]
    none = {"calling": False, "unseen": False}
    assert found == [
        {"id": "own", "at": ms(times[0]), "answers": {"pain": 1}},
        {"id": "stands", "at": ms(times[1]), "answers": {"pain": 1}},  # the clinic refused to have it taken back
        {"id": "carer's", "at": ms(times[2]), "answers": {"floaters": "worse"}, "calling": True, "unseen": True},
        {"id": "seen", "at": ms(times[3]), "answers": {"fever": True}, **none},
        {"id": "good", "at": ms(times[4]), "answers": {"pain": 1, "words": "fine"}, **none},
        {"id": "unsent", "at": ms(times[5]), "answers": {"pain": 1}},
    ]


BESIDE = """
import { judge } from "./patient/rules.js";

answer = given.checks.map(({ answers, earlier }) => judge(given.eyes, answers, given.receipt, given.now, earlier).level);
""".strip()


def test_what_another_phone_told_is_not_reassured_away_before_the_clinic_has_answered_it(
    packed: tuple[dict[str, Any], Operation], run: Run
) -> None:
    """As on the phone that told it: what called stands until then, with words too, and what no rule of the day could judge."""
    made, _ = packed
    phone = as_sent(PHONES[0], made)
    others = [check for check in every_check() if check.whole]
    well = Told(0, frozenset(), frozenset(), frozenset(), "").answers
    before = phone["now"] - ms(OPERATED + HOUR) + ms(OPERATED)
    checks = [
        {"answers": well, "earlier": [{"at": before, "answers": other.answers | words, "calling": calling}]}
        for other in others
        for words in ({}, {"words": "all black"})
        for calling in (True, False)
    ]
    told = iter(run(BESIDE, {**phone, "checks": checks}))
    for other in others:
        open_one, answered, with_words, read = (next(told) for _ in range(4))
        level = stated.first_level(other.pain, other.bad, PHONES[0].day)
        assert (answered, read) == ("well", "well"), other
        if level in ("now", "today", "this-week", "call"):
            assert (open_one, with_words) == (level, worst(level, "call")), other
        else:  # a sign called while it waited for its second look: what that was due for
            assert LEVELS.index(open_one) <= LEVELS.index("this-week"), other
            assert LEVELS.index(with_words) <= LEVELS.index("call"), other


STANDING = """
import { standing } from "./patient/rules.js";

answer = given.map(([before, fresh, waits]) => standing(before, fresh, () => waits).level);
""".strip()


def test_a_worse_answer_wins_and_a_lesser_one_only_when_it_is_complete_and_nobody_waits(run: Run) -> None:
    cases = [
        ({"level": old, "reasons": reasons}, {"level": new, "complete": complete}, waits)
        for old in LEVELS
        for reasons in ([[]] if old != "call" else [["skipped"], ["words"], ["not-well"]])
        for new in LEVELS
        for complete in (True, False)
        for waits in (True, False)
        if not waits or old in ("now", "today", "this-week") or reasons not in ([], ["skipped"])
    ]
    for (old, new, waits), stands in zip(cases, run(STANDING, cases), strict=True):
        worse = LEVELS.index(new["level"]) <= LEVELS.index(old["level"])
        gives = worse or (new["complete"] and not waits)
        assert stands == (new["level"] if gives else old["level"]), (old, new, waits)


WAITS = """
import { waitsForClinic } from "./patient/rules.js";

answer = given.map(([verdict, eye, entries]) => waitsForClinic(verdict, eye, entries));
""".strip()


def test_what_called_waits_until_the_clinic_knows_of_it_and_has_nothing_open(run: Run) -> None:
    known, unknown = [{"id": "e", "looked_at": True, "calling": False}], [{"id": "other"}]
    unseen = [{"id": "e", "looked_at": False, "calling": False}]

    def entry(state: str) -> list[dict[str, Any]]:
        return [{"event": {"id": "e", "kind": "symptoms"}, "state": state}]

    def undone(state: str) -> list[dict[str, Any]]:
        return [*entry("received"), {"event": {"id": "w", "kind": "withdrawal", "corrects": "e"}, "state": state}]

    cases: list[tuple[str, bool | None, list[dict[str, Any]], list[dict[str, Any]], bool]] = [
        # what was told, the pack's `calling`, its receipts, the phone's entries, waits
        ("now", False, unknown, entry("saved"), True),
        ("now", False, unknown, entry("received"), True),  # the pack is older than the entry
        ("now", True, known, entry("received"), True),
        ("now", False, known, entry("received"), False),
        ("now", None, known, entry("received"), True),  # a pack from before it said so
        ("now", False, unknown, entry("refused"), True),  # the clinic knows nothing of it
        ("now", False, unknown, [{**entry("refused")[0], "seen": True}], False),  # and whoever entered it knows that
        ("call: words", False, unknown, entry("refused"), True),
        ("again", False, unknown, entry("refused"), False),
        ("now", False, unknown, [], False),  # undone before it was sent
        ("now", True, unknown, undone("received"), True),
        ("now", False, unknown, undone("received"), False),
        ("now", False, unknown, undone("saved"), True),
        ("today", True, known, entry("received"), True),
        ("call: words", True, known, entry("received"), True),  # it was let go, and a good check reassured
        ("call: words", False, known, entry("received"), False),
        ("call: words", False, unknown, entry("saved"), True),
        ("call: not-well", True, known, entry("received"), False),  # what is open there is something else
        ("call: not-well", True, unseen, entry("received"), True),
        ("call: not-well", True, [{"id": "e", "looked_at": True, "calling": True}], entry("received"), True),
        ("call: not-well, this week", True, known, entry("received"), True),
        ("call: not-well", False, unseen, entry("received"), True),  # no rule, no call there: a person has to look
        ("call: not-well", False, known, entry("received"), False),
        ("call: not-well", False, unknown, undone("received"), False),
        ("call: words", False, unseen, entry("received"), False),  # settled, whoever opened the page of the eye
        ("this-week", True, known, entry("received"), True),  # as above: it is no less open for being due later
        ("this-week", False, known, entry("received"), False),
        ("this-week", False, unseen, entry("received"), False),
        ("this-week", False, unknown, entry("saved"), True),
        *(
            (f"call: {why}", True, known, entry("received"), False)  # answered by the next whole check
            for why in ("skipped", "cannot-tell", "clock", "stale", "no-rules")
        ),
        ("call: skipped, this week", True, known, entry("received"), True),
        ("again", True, known, entry("received"), False),
        ("again, this week", True, known, entry("received"), True),
    ]
    given = [
        (
            {**as_told(told), "entry": "e"},
            {"receipts": receipts, **({} if calling is None else {"calling": calling})},
            entries,
        )
        for told, calling, receipts, entries, _ in cases
    ]
    assert run(WAITS, given) == [waits for *_, waits in cases]
    # What could not be kept, the clinic has yet to hear of; an earlier version kept no answers that could be sent.
    lost: list[dict[str, Any]] = [
        {"level": "now", "missed": {}}, {"level": "call", "missed": {}}, {"level": "now"}, {**as_told("call: words"), "missed": {}}
    ]  # fmt: skip
    assert run(WAITS, [(verdict, {"receipts": []}, []) for verdict in lost]) == [True, False, False, True]


def as_told(said: str) -> dict[str, Any]:
    """A verdict by its level, the reasons of a call, and what it calls for less soon."""
    head, _, lesser = said.partition(", ")
    level, _, why = head.partition(": ")
    return {"level": level, "reasons": [why] if why else [], "lesser": [lesser] if lesser else []}


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


SINCE = """
import { atTime, standing, waitsForClinic, withoutSettled } from "./patient/rules.js";

answer = given.map(({ checks, calling, received, settled }) => {
    const entries = checks.map(({ entry }) => ({ event: { id: entry }, state: received.includes(entry) ? "received" : "saved" }));
    const receipts = received.map((id) => ({ id, settled: settled.includes(id) }));
    const eye = { operation: "a", receipts: receipts.filter(({ id }) => id === checks[0].entry), calling };
    const waits = (verdict) => waitsForClinic(verdict, eye, entries);
    const kept = checks.reduce((before, fresh) => standing(before, fresh, waits), undefined);
    const left = withoutSettled({ a: kept }, { eyes: [{ operation: "a", receipts }] }).a;
    return [kept.level, left ? atTime(left).level : "none"];
});
""".strip()


def test_a_verdict_kept_under_a_worse_one_stands_once_the_worse_one_is_settled(run: Run) -> None:
    """Each check but the first is on its way; the clinic has settled the first one, or all that it has."""

    def verdict(entry: str, level: str, **changes: Any) -> dict[str, Any]:
        return {"entry": entry, "level": level, "complete": True, "words": [], "looks": [], **changes}

    now, today, well = verdict("1", "now"), verdict("2", "today"), verdict("3", "well")
    cases: list[tuple[list[dict[str, Any]], list[str], list[str], bool, tuple[str, str]]] = [
        # checks, received, settled, what is still open at the clinic when the last check is done, what stands before and after
        ([now, today], ["1"], ["1"], True, ("now", "today")),
        ([now, today], ["1", "2"], ["1", "2"], True, ("now", "none")),
        ([now, today], ["1"], [], True, ("now", "now")),
        ([now, today, well], ["1"], ["1"], True, ("now", "today")),  # nobody has answered what called for today
        ([now, today, well], ["1"], ["1"], False, ("today", "today")),
        ([now, well], ["1"], ["1"], True, ("now", "none")),
        ([now, verdict("2", "call", complete=False)], ["1"], ["1"], True, ("now", "call")),
        ([now, verdict("2", "call", complete=False), well], ["1"], ["1"], True, ("now", "none")),
        ([now, today, verdict("3", "call", complete=False)], ["1", "2"], ["1", "2"], True, ("now", "call")),
        ([now, verdict("2", "now")], ["1"], ["1"], True, ("now", "now")),
        ([today, verdict("2", "now")], ["1"], ["1"], True, ("now", "now")),
    ]
    names = ("checks", "received", "settled", "calling")
    given = [dict(zip(names, case[:4], strict=True)) for case in cases]
    for case, found in zip(cases, run(SINCE, given), strict=True):
        assert tuple(found) == case[-1], case


STEADY = """
import { faultOf, receiptOf, SteadyClock } from "./shared/clock.js";

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
const tabs = [new SteadyClock(), new SteadyClock()];
let shared = receipt;
for (let n = 1; n <= 300; n += 1) for (const one of tabs) shared = one.notice(shared, at + n * 60000, n * 60000);
answer.push(faultOf(shared, at + 300 * 60000));
""".strip()


def test_a_clock_set_back_while_the_page_is_open_is_noticed_and_sleep_or_a_second_tab_is_not_taken_for_it(run: Run) -> None:
    # Open; an hour on; stood still for four hours; slept for a day; put back a little; put back by hours; two tabs for five hours.
    assert run(STEADY, None) == [None, None, "clock", None, None, "clock", None]
