"""What a patient calls for, in one short list drawn from the rulebook in force: the phone's help and the printed card say it.

The phone's check judges by the same rules, so that one danger has one urgency wherever it is named.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from pydantic import BaseModel

from followup.care.errors import translatable as medical
from followup.clinical import warnings
from followup.clinical.surgery import Operation

Translate = Callable[[str], str]
CALL: tuple[warnings.HowSoon, ...] = ("now", "today")
_PAIN = medical("pain of {score} or more out of 10")
_SIGNS = {
    "vision=worse": medical("sight that gets worse"),
    "redness=worse": medical("more redness"),
    "flashes=worse": medical("more flashes of light"),
    "floaters=worse": medical("more dots or threads that float by"),
    "other_eye=worse": medical("trouble in the other eye"),
    "discharge": medical("matter or pus"),
    "curtain": medical("a dark curtain"),
    "vomiting": medical("being sick"),
    "fever": medical("a fever"),
    "injury": medical("a knock to the eye"),
}
_LASTS = medical("{sign} (call now if it is still there)")
_AND = medical("{first} and {second}")
_SOME = medical("any {count} of these: {signs}")
_WITH_ONE = medical("{first} together with one of these: {signs}")


class Danger(BaseModel):
    """One thing to call for, in the patient's words, and how soon; `again`: where it comes alone, once a second look finds it too."""

    how_soon: warnings.HowSoon
    words: str
    again: bool


def dangers(book: warnings.Rulebook, operations: Sequence[Operation], translate: Translate = str) -> list[Danger]:
    """What the rules of these eyes say to call for now or today, each once, the most urgent first.

    What a rule asks back where it comes alone stands last, unless another rule calls for it at once, with whether it calls now
    once it lasts: so the list says what the check says. Days after surgery are left out on purpose: a printed list does not
    change, and an old danger is still one.
    """
    applied = [r for r in book.rules if any(r.applies(op) for op in operations)]
    rules = [r for r in applied if r.check == "symptoms"]
    lasting = [r for r in applied if r.check == "symptoms-again" and r.how_soon == "now"]
    found: list[Danger] = []
    listed: list[warnings.Rule] = []
    again = [rule for rule in rules if rule.how_soon == "today" and rule.second_look and _is_plain(rule)]
    for how_soon in CALL:
        urgent = [rule for rule in rules if rule.how_soon == how_soon and rule not in again]
        listed += [rule for rule in urgent if _is_plain(rule)]
        for rule in urgent:
            if _is_plain(rule):
                found += [_danger(how_soon, _said(sign, translate)) for sign in rule.signs]
            elif not _follows(rule, listed):
                found.append(_danger(how_soon, _together(rule, translate)))
        listed += urgent
    for sign in dict.fromkeys(sign for rule in again for sign in rule.signs):
        if not any(_holds(rule, {sign}) for rule in listed):
            words = translate(_LASTS) if any(_holds(rule, {sign}) for rule in lasting) else "{sign}"
            found.append(_danger("today", words.format(sign=_said(sign, translate)), again=True))
    return list(_first_of_each(found))


def _is_plain(rule: warnings.Rule) -> bool:
    """Whether any one of its signs is enough."""
    return rule.count <= 1 and not rule.also


def _follows(rule: warnings.Rule, listed: Sequence[warnings.Rule]) -> bool:
    """Whether it never holds without one that is on the list already, at least as urgent."""
    least = [{*signs, *rule.also} for signs in combinations(rule.signs, max(1, rule.count))]
    return all(any(_holds(other, told) for other in listed) for told in least)


def _holds(rule: warnings.Rule, told: set[str]) -> bool:
    return len(told.intersection(rule.signs)) >= max(1, rule.count) and told.issuperset(rule.also)


def _together(rule: warnings.Rule, translate: Translate) -> str:
    signs, also = ([_said(sign, translate) for sign in some] for some in (rule.signs, rule.also))
    if rule.count > 1 and len(signs) > rule.count:
        signs = [translate(_SOME).format(count=rule.count, signs=", ".join(signs))]
    elif rule.count <= 1 and len(signs) > 1:  # only with others, else it is plain
        return translate(_WITH_ONE).format(first=_joined(also, translate(_AND)), signs=", ".join(signs))
    return _joined([*signs, *also], translate(_AND))


def _joined(words: Sequence[str], pattern: str) -> str:
    whole = words[0]
    for following in words[1:]:
        whole = pattern.format(first=whole, second=following)
    return whole


def _said(sign: str, translate: Translate) -> str:
    """One sign of a rule (`pain>=4`, `vision=worse`, `discharge`) in the patient's words."""
    score = warnings.signs_of((sign,)).pain
    if score is not None:
        return translate(_PAIN).format(score=score)
    return translate(_SIGNS[sign]) if sign in _SIGNS else sign.replace("_", " ").replace("=", " ")


def _danger(how_soon: warnings.HowSoon, words: str, *, again: bool = False) -> Danger:
    return Danger(how_soon=how_soon, words=words[:1].upper() + words[1:], again=again)


def _first_of_each(found: Sequence[Danger]) -> Iterator[Danger]:
    told = set()
    for danger in found:
        if danger.words not in told:
            told.add(danger.words)
            yield danger
