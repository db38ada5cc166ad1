"""Which passwords are taken, and how they are kept: as Argon2id hashes."""

import re
import unicodedata
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import VerificationError

from followup.care.errors import CareError

SHORTEST = 10
LONGEST = 200
FEWEST_SIGNS = 5  # different ones: common practice, no source
_LEET = str.maketrans("0134578@$!", "oieastbasi")


def check(password: str, *about: str) -> None:
    """Raise `CareError` for a password that is short, often chosen, or made of what is known of the person (`about`)."""
    folded = password.casefold()
    if len(password) < SHORTEST:
        raise CareError(f"a password needs at least {SHORTEST} characters", "password")
    if len(password) > LONGEST:
        raise CareError(f"a password has at most {LONGEST} characters", "password")
    if len(set(folded)) < FEWEST_SIGNS or _in_order(folded):
        raise CareError("this password repeats itself or counts up; take several words instead", "password")
    words = [word.casefold() for text in about for word in re.split(r"[\s@.]+", text) if len(word) > 3]
    known = sorted({*_common(), *words}, key=len, reverse=True)
    if min(_letters_left(folded, known), _letters_left(folded.translate(_LEET), [w.translate(_LEET) for w in known])) < 4:
        raise CareError("many people use this password, or it is made of your name; take several words instead", "password")


def _letters_left(text: str, known: list[str]) -> int:
    """How many letters are left without known words: one of those with a number or a sign behind it is as common."""
    for word in known:
        text = text.replace(word, "")
    return sum(sign.isalpha() for sign in text)


def kept(hasher: PasswordHasher, password: str) -> str:
    return hasher.hash(_composed(password))


def fits(hasher: PasswordHasher, password: str, hash: str | None) -> bool:
    """Whether a password is the one kept; as long for nobody's (None) as for somebody's."""
    try:
        hasher.verify(hash or _nobody(hasher), _composed(password))
    except VerificationError:
        return False
    return hash is not None


@lru_cache(maxsize=4)
def _nobody(hasher: PasswordHasher) -> str:
    """A hash that no password fits, made with the same work as all others."""
    return hasher.hash("nobody has this password")


@lru_cache
def _common() -> frozenset[str]:
    lines = (Path(__file__).parent / "common_passwords.txt").read_text(encoding="utf-8").splitlines()
    return frozenset(line.casefold() for line in lines if line and not line.startswith("#"))


def _composed(password: str) -> str:
    """One way to write what can be typed in several (NFC, as RFC 8265 asks of passwords)."""
    return unicodedata.normalize("NFC", password)


def _in_order(text: str) -> bool:
    """Whether each sign follows the one before it, up or down."""
    steps = {ord(b) - ord(a) for a, b in pairwise(text)}
    return steps in ({1}, {-1}, {0})
