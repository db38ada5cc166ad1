"""How somebody is looked up: names without accents, numbers with or without their signs, dates as people write them."""

from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from followup.care.reading.finding import date_beside, dates_in, plain, terms, words_of

TODAY = date(2027, 3, 5)
BORN = date(1952, 3, 14)


@pytest.mark.parametrize(
    "written",
    ["14.3.1952", "14.03.52", "14/3/1952", "3/14/1952", "1952-03-14", "14 March 1952", "14. mar 52", "March 14, 1952",
     "14031952", "19520314", " 14-3-1952 ", "14-Mar-1952", "14th March 1952", "March 14th, 1952", "14. März 1952",
     "14 de marzo de 1952", "١٤ مارس ١٩٥٢", "14,3,1952"],
)  # fmt: skip
def test_a_birth_date_in_any_usual_writing(written: str) -> None:
    assert BORN in dates_in(written, TODAY)


@pytest.mark.parametrize(
    "written",
    ["", "Garten", "31.2.1952", "14.3", "1952", "H-20-17", "99/99/9999", "14 Mai 1952x", "14 Smith 1952", "14.3.1952 Smith"],
)
def test_what_is_no_date_is_none(written: str) -> None:
    assert dates_in(written, TODAY) == set()


def test_september_has_four_letters_too() -> None:
    assert dates_in("3 Sept 1952", TODAY) == dates_in("Sept. 3, 1952", TODAY) == {date(1952, 9, 3)}


@pytest.mark.parametrize(
    "written", ["Größl 14.3.1952", "14.3.52 größl", "Größl, 14 March 1952", "March 14, 1952 Größl", "größl *14031952"]
)
def test_a_birth_date_is_told_from_the_name_beside_it(written: str) -> None:
    assert date_beside(written, TODAY) == (["grossl"], {BORN})


@pytest.mark.parametrize("written", ["Größl", "Größl 1952", "H-20-17 Größl", "+00 660 12-34", ""])
def test_a_number_beside_a_name_is_no_date(written: str) -> None:
    assert date_beside(written, TODAY) == ([], set())


def test_two_digits_are_never_a_year_to_come() -> None:
    assert dates_in("1.2.27", TODAY) == {date(2027, 2, 1), date(2027, 1, 2)}
    assert dates_in("1.2.28", TODAY) == {date(1928, 2, 1), date(1928, 1, 2)}


@pytest.mark.parametrize(
    ("name", "typed"), [("Żółć Größl", "zolc grossl"), ("Søren", "SOREN"), ("Çelik", "celik"), ("İnan", "inan")]
)
def test_accents_and_case_are_set_aside(name: str, typed: str) -> None:
    assert words_of(name) == words_of(typed)


def test_any_part_of_a_word_begins_a_term() -> None:
    known = terms(["Maria Baumgarten"], ["H-20-17", "+43 660 123"])
    for part in ("maria", "garten", "umgar", "h2017", "2017", "43660", "660123"):
        assert any(term.startswith(part) for term in known), part


@given(st.text())
@example("㍱")
def test_plain_text_stays_plain(text: str) -> None:
    assert plain(plain(text)) == plain(text)
