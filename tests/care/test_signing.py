"""A signature is a surgeon's, and of exactly the words that were read."""

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError, NotFound
from followup.care.learning import signing
from followup.care.reading.eye import protocol
from followup.protocols.book import PARTS, draft_text, fingerprint
from followup.records import Store
from tests.conftest import NOW, ZONE


@pytest.fixture
def desk(store: Store, surgeon: Actor) -> Desk:
    return Desk(store, NOW, surgeon, ZONE)


@pytest.mark.parametrize("part", PARTS)
def test_a_part_is_a_draft_until_its_text_is_signed(store: Store, desk: Desk, part: str) -> None:
    assert protocol(store, part).is_draft
    signing.sign(desk, part, fingerprint(draft_text(part)))
    assert not protocol(store, part).is_draft


def test_another_text_than_the_one_read_is_not_signed(store: Store, desk: Desk) -> None:
    read = protocol(store, "rulebook").fingerprint
    signing.save(desk, "rulebook", draft_text("rulebook").replace("mmhg = 40", "mmhg = 42"))
    with pytest.raises(CareError, match="read it again"):
        signing.sign(desk, "rulebook", read)
    assert protocol(store, "rulebook").is_draft


def test_a_change_ends_the_signature_and_the_words_of_before_bring_it_back(store: Store, desk: Desk) -> None:
    draft = draft_text("rulebook")
    signing.sign(desk, "rulebook", fingerprint(draft))
    signing.save(desk, "rulebook", draft.replace("mmhg = 40", "mmhg = 42"))
    assert protocol(store, "rulebook").is_draft
    signing.save(desk, "rulebook", draft)
    assert not protocol(store, "rulebook").is_draft


def test_a_nurse_signs_nothing(store: Store, nurse: Actor) -> None:
    with pytest.raises(CareError, match="only a surgeon"):
        signing.sign(Desk(store, NOW, nurse, ZONE), "rulebook", fingerprint(draft_text("rulebook")))


def test_what_is_no_part_is_neither_saved_nor_signed(desk: Desk) -> None:
    with pytest.raises(NotFound):
        signing.sign(desk, "menu", "x")
    with pytest.raises(CareError, match="accepted are: rulebook, reviews, postures"):
        signing.save(desk, "menu", "x = 1")


@pytest.mark.parametrize(("text", "said"), [("rules = [", "TOML"), ("", "version"), ("version = 7", "version")])
def test_a_text_that_cannot_be_used_is_not_kept(store: Store, desk: Desk, text: str, said: str) -> None:
    with pytest.raises(CareError, match=said):
        signing.save(desk, "rulebook", text)
    assert protocol(store, "rulebook").text == draft_text("rulebook")
