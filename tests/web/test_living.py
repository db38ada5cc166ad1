"""What the patient reads beside the plan: advice with its sources, and what is stored."""

import pytest
import textstat
from flask.testing import FlaskClient

from followup.web.context import LANGUAGES
from followup.web.patient import living
from followup.web.patient.living import TOPICS
from tests.pages import parsed


def test_every_topic_names_its_source_or_says_that_there_is_none(client: FlaskClient) -> None:
    page = client.get("/me/later").text
    for topic in TOPICS:
        assert all(words in page for words in (topic.title, *topic.says))
        assert topic.source in page
    assert page.count("Common practice. There is no study of it.") == sum(not topic.source for topic in TOPICS)
    assert page.count("The word of your clinic comes first.") == 2  # above all advice, and in the calendar


def test_what_patients_asked_about_is_there() -> None:
    told = " ".join(f"{topic.title} {' '.join(topic.says)}" for topic in TOPICS).lower()
    for about in ("sleep", "neck", "back", "breath", "wash", "drive", "shield", "sugar"):
        assert about in told


# Where on the phone, and what is said there.
SAID = [
    ("/me/", "visits", ("Bring this phone or your card", "Do not drive there")),
    ("/me/", "bubble", ("Hold your head as your plan says", "Lights may dazzle")),
    (
        "/me/later",
        "install",
        ("a square with an arrow", "three dots", "add it to the home screen", "to a page that was put there"),
    ),
]


@pytest.mark.parametrize(("path", "section", "words"), SAID, ids=["visits", "oil", "install"])
def test_what_to_bring_how_oil_is_and_where_to_put_the_page_is_said(
    client: FlaskClient, path: str, section: str, words: tuple[str, ...]
) -> None:
    told = parsed(client.get(f"{path}?language=en").text).one("section", id=section)
    assert [said for said in words if said not in told.words] == []


def test_each_kind_of_phone_has_its_picture_and_its_steps(client: FlaskClient) -> None:
    install = parsed(client.get("/me/later").text).one("section", id="install")
    assert [(kind.tag, len(kind.all("li"))) for kind in install if kind.tag in ("h2", "svg", "ol")] == [
        *(("h2", 0), ("svg", 0), ("ol", 3)),
        *(("h2", 0), ("svg", 0), ("ol", 3)),
    ]


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.title)
def test_each_topic_is_plain_and_short(topic: living.Topic) -> None:
    # Outside check: textstat's Flesch-Kincaid grade.
    assert textstat.flesch_kincaid_grade(" ".join(topic.says)) <= 6
    assert sum(len(words.split()) for words in topic.says) <= 60


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_what_is_stored_is_said_before_the_first_entry_and_later_again(client: FlaskClient, language: str) -> None:
    english = ("What is stored", "Who sees it", "How to leave", "you can take back")
    for path in ("/enrol", "/me/later"):
        page = client.get(f"{path}?language={language}").text
        assert page.count("<h2>") >= 3
        assert all((words in page) == (language == "en") for words in english), path
