"""What a caller asks: the questions of every rule that raised something, each of them once."""

import re
from collections.abc import Iterable

_SHORT = frozenset(
    re.findall(
        r"\w+",
        "a an and any are as be been can did do does feel for has have how in is it of on or so still that the there this to was you your",
    )
)
_SINCE = {"since", "when"}
STEM = 4  # letters from which one word may be the beginning of another: sick, sickness


def without_repeats(questions: Iterable[str]) -> list[str]:
    """These questions in order, without those that another one asks too: its words are all in that one."""
    asked = list(dict.fromkeys(questions))
    words = {q: {w for w in re.findall(r"[^\W_]+", q.lower()) if w not in _SHORT} for q in asked}
    kept: list[str] = []
    for n, question in enumerate(asked):
        others = [*kept, *asked[n + 1 :]]
        if not any(_asks_too(other, question, words) for other in others):
            kept.append(question)
    return kept


def _asks_too(other: str, question: str, words: dict[str, set[str]]) -> bool:
    """Whether `other` asks that too; since when is meant of its own sign, so only one that begins with it does."""
    if words[question] <= _SINCE:
        return other.lower().startswith(question.lower().rstrip("?"))
    return all(any(_same(word, found) for found in words[other]) for word in words[question])


def _same(word: str, other: str) -> bool:
    short, long = sorted((word, other), key=len)
    return word == other or (len(short) >= STEM and long.startswith(short))
