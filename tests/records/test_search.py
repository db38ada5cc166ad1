"""People are found by an index, also among thousands. Common practice, no source."""

import random
from datetime import date, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.patients import following
from followup.care.reading import person
from followup.care.today import lists
from followup.config import Settings
from followup.records import Store, eyes, patients
from followup.web import create_app
from tests.conftest import NOW, ZONE

TODAY = date(2027, 3, 5)
FIRST = ("Ángel", "Zoë", "Jürgen", "Łucja", "Søren", "Anna-Lena", "Đorđe", "Maeve", "Iñigo", "Chloé")
LAST = ("Größl", "O’Hara", "Núñez", "Østergård", "Čapek", "van den Berg", "Müller", "Ødegaard", "Şahin", "d’Angelo")


def add(store: Store, number: str, name: str, born_on: date = date(1950, 1, 1), phone: str = "") -> str:
    id = patients.add(store, NOW, number, name, born_on, phone, "en")
    person.index(store, id)
    return id


def names(store: Store, words: str) -> list[str]:
    return [f.patient.name for f in lists.find(store, words, TODAY).shown]


@pytest.fixture
def crowd(store: Store) -> list[str]:
    """Three thousand people."""
    chance = random.Random(7)
    with store.transaction():
        return [
            add(
                store,
                f"H{n:05}",
                f"{chance.choice(FIRST)} {chance.choice(LAST)}",
                date(1930, 1, 1) + timedelta(days=chance.randrange(20_000)),
                f"+00 660 {n:07}",
            )
            for n in range(3000)
        ]


@pytest.mark.parametrize(
    "asked",
    ["Größl-Đurić", "grossl", "GRÖSSL", "duric", "angel", "ángel gros", "ross", "H-20 17", "h2017", "2017", "+00 660 12-34",
     "6601234", "0 660 12 34", "14.3.1952", "14/3/52", "1952-03-14", "14 March 1952", "Mar 14, 1952", "14031952",
     "grossl 14.3.52", "14 March 1952, Ángel", "14. März 1952", "H-2017 14.3.1952"],
)  # fmt: skip
def test_a_person_is_found_by_any_part(store: Store, asked: str) -> None:
    add(store, "H-2017", "Ángel Größl-Đurić", date(1952, 3, 14), "+00 660 1234")
    add(store, "K-9", "Somebody Else", date(1961, 7, 2), "+00 1 99")
    assert names(store, asked) == ["Ángel Größl-Đurić"]


@pytest.mark.parametrize(
    "asked", ["", "  ", "-", "xyz", "32.13.1952", "angel else", "%", "'", "else 14.3.1952", "grossl 15.3.1952"]
)
def test_nobody_is_found_by_what_nobody_has(store: Store, asked: str) -> None:
    add(store, "H-2017", "Ángel Größl-Đurić", date(1952, 3, 14), "+00 660 1234")
    add(store, "K-9", "Somebody Else", date(1961, 7, 2), "+00 1 99")
    assert names(store, asked) == []


def test_whoever_is_followed_comes_first_and_more_are_told_of(store: Store, crowd: list[str], nurse: Actor) -> None:
    some = lists.find(store, "muller", TODAY)
    assert (len(some.shown), some.more) == (40, True)
    last = [f.patient for f in some.shown][-1]
    eye = eyes.of_patient(store, last.id)[0]
    following.follow(Desk(store, NOW, nurse, ZONE), eye, "operation")
    again = lists.find(store, "muller", TODAY)
    assert again.shown[0].patient.id == last.id
    assert [f.followed for f in again.shown[:2]] == [True, False]
    few = lists.find(store, "H00001", TODAY)
    assert (len(few.shown), few.more) == (1, False)


def test_no_table_is_read_whole(store: Store, crowd: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    plans: list[str] = []
    rows = store.rows

    def explained(sql: str, parameters: Any = None) -> Any:
        plans.extend(str(step["detail"]) for step in rows("EXPLAIN QUERY PLAN " + sql, parameters))
        return rows(sql, parameters)

    monkeypatch.setattr(store, "rows", explained)
    for asked in ("muller jurgen", "14.3.1952", "H00042", "ABCD2345", "6600001234", "zoe", "nobody 14.3.1952"):
        lists.find(store, asked, TODAY)
    assert any("patient_terms USING PRIMARY KEY (term>? AND term<?)" in step for step in plans)
    assert any("patients_by_birth" in step for step in plans)
    whole = [step for step in plans if step.startswith("SCAN") and "CONSTANT ROW" not in step]
    assert whole == []


def test_people_from_before_the_index_are_found_once_it_is_opened(
    store: Store, settings: Settings, crowd: list[str]
) -> None:
    store.execute("DELETE FROM patient_terms")
    assert names(store, "H00042") == []
    create_app(settings, store)
    assert len(names(store, "H00042")) == 1
