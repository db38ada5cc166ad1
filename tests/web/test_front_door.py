"""What whoever comes by reads in their own language, and where browsers and others look without being told to."""

from datetime import datetime, timedelta

import pytest
from flask import Flask
from flask.testing import FlaskClient
from pydantic import ValidationError

from followup.config import Clinic, Settings
from followup.records import Store
from followup.web import create_app
from tests.conftest import NOW, Browser
from tests.pages import parsed

DIRECTIONS = {"en": "ltr", "de": "ltr", "es": "ltr", "ar": "rtl"}
HEADINGS = {
    "/": {"en": "After surgery with gas or oil in the eye", "de": "Nach einer Operation mit Gas oder Öl im Auge"},
    "/enrol": {"en": "Set up this phone"},
    "/none": {"en": "Not possible", "de": "Nicht möglich", "es": "No es posible"},
}


@pytest.mark.parametrize("path", HEADINGS)
@pytest.mark.parametrize("language", DIRECTIONS)
def test_the_door_enrolment_and_errors_speak_the_browser_s_language(client: FlaskClient, path: str, language: str) -> None:
    answer = client.get(path, headers={"Accept-Language": f"{language};q=0.9, fr;q=0.8"})
    page = parsed(answer.text)
    assert (page.one("html").get("lang"), page.one("html").get("dir")) == (language, DIRECTIONS[language])
    said = page.one("h1").words
    assert said == HEADINGS[path].get(language, said)
    assert language == "en" or said != HEADINGS[path]["en"]


@pytest.mark.parametrize("path", HEADINGS)
def test_another_language_is_one_tap_away_and_stays_on_the_page(client: FlaskClient, path: str) -> None:
    page = parsed(client.get(path).text)
    offered = {link.get("lang"): link.get("href") for link in page.one("nav", class_="languages").all("a")}
    assert set(offered) == set(DIRECTIONS)
    arabic = parsed(client.get(path + offered["ar"]).text)
    assert arabic.one("html").get("dir") == "rtl"
    assert [link.get("lang") for link in arabic.all("a", aria_current="true")] == ["ar"]


def test_the_code_of_the_card_stays_when_the_language_is_changed(client: FlaskClient, discharged: tuple[str, str]) -> None:
    page = parsed(client.get(f"/enrol?code={discharged[1]}").text)
    german = next(link.get("href") for link in page.all("a", lang="de"))
    assert parsed(client.get(f"/enrol{german}").text).one("input", name="code").get("value") == discharged[1]


def test_a_language_that_nobody_translated_gets_the_clinic_s(settings: Settings, store: Store) -> None:
    clinic = settings.clinic.model_copy(update={"language": "es"})
    client = create_app(settings.model_copy(update={"clinic": clinic}), store).test_client()
    assert parsed(client.get("/", headers={"Accept-Language": "fi"}).text).one("html").get("lang") == "es"


@pytest.mark.parametrize("path", ["/", "/none", "/enrol"])
def test_whoever_comes_by_finds_the_numbers_to_call(client: FlaskClient, path: str) -> None:
    page = parsed(client.get(path, headers={"Accept-Language": "ar"}).text)
    dialled = {link.get("href") for link in page.all("a") if link.get("href").startswith("tel:")}
    assert dialled == {"tel:+001234", "tel:112"}


def test_staff_read_english_whatever_their_browser_speaks(as_nurse: FlaskClient) -> None:
    for path in ("/", "/none", "/clinic/", "/clinic/eyes/none"):
        assert parsed(as_nurse.get(path, headers={"Accept-Language": "de"}).text).one("html").get("lang") == "en", path


def test_a_phone_that_is_set_up_goes_to_its_own_pages(as_patient: FlaskClient) -> None:
    assert as_patient.get("/").headers["Location"] == "/me/"


def test_a_form_that_was_open_too_long_says_so_in_the_reader_s_language(app: Flask, discharged: tuple[str, str]) -> None:
    phone = app.test_client()
    assert isinstance(phone, Browser)
    phone.tokens = False
    answer = phone.post("/enrol", data={"code": discharged[1]}, headers={"Accept-Language": "de"})
    assert answer.status_code == 400
    assert parsed(answer.text).one("html").get("lang") == "de"


def test_the_icon_is_found_without_being_named(client: FlaskClient) -> None:
    answer = client.get("/favicon.ico")
    assert (answer.status_code, answer.mimetype) == (200, "image/png")
    assert answer.data.startswith(b"\x89PNG\r\n\x1a\n")  # ISO/IEC 15948 5.2


@pytest.mark.parametrize(
    ("contact", "line"),
    [
        ("safety@test.invalid", "mailto:safety@test.invalid"),
        ("https://eyes.test.invalid/safety", "https://eyes.test.invalid/safety"),
    ],
)
def test_whom_to_tell_of_a_weakness_is_named_as_the_standard_says(
    settings: Settings, store: Store, contact: str, line: str
) -> None:
    """RFC 9116 2.5: one Contact at least (a URI), exactly one Expires, less than a year ahead; 3: as text in UTF-8."""
    clinic = settings.clinic.model_copy(update={"security_contact": contact})
    answer = (
        create_app(settings.model_copy(update={"clinic": clinic}), store, lambda: NOW)
        .test_client()
        .get("/.well-known/security.txt")
    )
    assert answer.content_type == "text/plain; charset=utf-8"
    fields = [tuple(row.split(": ", 1)) for row in answer.text.splitlines()]
    assert ("Contact", line) in fields
    (expires,) = [value for name, value in fields if name == "Expires"]
    assert timedelta(days=30) < datetime.fromisoformat(expires) - NOW < timedelta(days=365)
    assert ("Canonical", "http://127.0.0.1:8000/.well-known/security.txt") in fields


def test_a_clinic_that_names_nobody_has_no_such_file(client: FlaskClient) -> None:
    assert client.get("/.well-known/security.txt").status_code == 404


@pytest.mark.parametrize("contact", ["call us", "http://eyes.test.invalid", "https://eyes.test.invalid/a b"])
def test_a_contact_that_cannot_be_is_said(contact: str) -> None:
    with pytest.raises(ValidationError, match="neither an e-mail nor an https address"):
        Clinic(name="x", phone="1", security_contact=contact)


def test_a_password_keeper_is_led_to_the_page_that_changes_it(client: FlaskClient, as_nurse: FlaskClient) -> None:
    for asking in (client, as_nurse):
        answer = asking.get("/.well-known/change-password")
        assert (answer.status_code, answer.headers["Location"]) == (302, "/my-account")
