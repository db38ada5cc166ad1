"""The patient's languages are complete, compiled, plain English reads at sixth grade or below, and plurals are right."""

import re
from io import BytesIO

import pytest
import textstat
from babel import Locale
from babel.messages.mofile import read_mo
from flask.testing import FlaskClient

from followup.web import catalogue
from followup.web.context import LANGUAGES
from followup.web.patient.living import TOPICS
from tests.pages import parsed

OTHERS = [code for code in LANGUAGES if code != "en"]


@pytest.mark.parametrize("language", OTHERS)
def test_nothing_is_untranslated(language: str) -> None:
    assert catalogue.missing(language) == []


@pytest.mark.parametrize("language", OTHERS)
def test_the_catalogue_is_in_step_and_compiled(language: str) -> None:
    kept = {m.id for m in catalogue.read(language) if m.id}
    assert kept == set(catalogue.texts()), "run python -m followup.web.catalogue"
    compiled = (catalogue.path(language, "mo").read_bytes(), catalogue.compiled(catalogue.updated(language)))
    on_disk, today = ({str(m.id): m.string for m in read_mo(BytesIO(one)) if m.id} for one in compiled)
    assert on_disk == today  # the head names the version of the library that wrote it


@pytest.mark.parametrize("language", OTHERS)
def test_places_for_values_are_the_same_in_every_language(language: str) -> None:
    for message in catalogue.read(language):
        if isinstance(message.id, str) and message.id:
            assert set(re.findall(r"\{\w+\}", message.id)) == set(re.findall(r"\{\w+\}", str(message.string))), message.id


@pytest.mark.parametrize("language", OTHERS)
def test_medical_wording_is_marked_for_a_clinician(language: str) -> None:
    medical = [text for text, is_medical in catalogue.texts().items() if is_medical]
    assert len(medical) > 45
    kept = catalogue.read(language)
    for text in medical:
        message = kept.get(text)
        assert message
        assert catalogue.CLINICIAN in message.auto_comments


def test_english_reads_at_sixth_grade_or_below() -> None:
    # Outside check: textstat's Flesch-Kincaid grade over everything the patient reads.
    texts = [text if isinstance(text, str) else text[1] for text in catalogue.texts()]
    sentences = [re.sub(r"\{\w+\}", "ten", text) for text in texts]
    whole = " ".join(text if text.endswith((".", "?", "!")) else f"{text}." for text in sentences)
    assert textstat.flesch_kincaid_grade(whole) <= 6
    long_ones = [text for text in sentences if len(text.split()) >= 8]
    grades = {text: textstat.flesch_kincaid_grade(text) for text in long_ones}
    assert sum(grades.values()) / len(grades) <= 6
    assert {
        text: grade for text, grade in grades.items() if grade > 11
    } == {}  # one long word weighs most in a short sentence


def test_the_catalogue_is_all_that_the_patient_reads(client: FlaskClient) -> None:
    """What stands outside it would have neither a grade nor a translation."""
    known = {message.id for message in catalogue.read("de") if message.id == message.string}
    known |= {*LANGUAGES.values(), "Test Eye Clinic", *(topic.source for topic in TOPICS)}
    for path in ("/me/", "/me/later", "/enrol", "/", "/no-such-page"):
        english, german = (texts_on(client.get(f"{path}?language={language}").text) for language in ("en", "de"))
        assert {text for text in english & german if re.search("[a-z]{2}", text)} <= known, path


def texts_on(page: str) -> set[str]:
    body = parsed(page).one("body")
    return {
        child.strip(" ,\n") for element in body for child in element.children if isinstance(child, str) and child.strip()
    }


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_the_shell_speaks_the_language_with_its_direction_and_plurals(client: FlaskClient, language: str) -> None:
    page = client.get(f"/me/?language={language}").text
    direction = "rtl" if Locale(language).text_direction == "rtl" else "ltr"
    assert f'<html lang="{language}" dir="{direction}">' in page
    # Outside check: CLDR's plural categories, through Babel.
    forms = {Locale(language).plural_form(n) for n in range(201)}
    for form in forms:
        assert f'data-text="to-send.{form}"' in page
    if language != "en":
        assert "Nobody watches this round the clock" not in page


def test_the_browsers_language_counts_where_none_was_chosen(client: FlaskClient) -> None:
    assert 'lang="es"' in client.get("/me/", headers={"Accept-Language": "es-MX,es;q=0.9"}).text
    assert 'lang="en"' in client.get("/me/", headers={"Accept-Language": "fr"}).text


def test_refusals_and_rules_come_in_the_patients_language(client: FlaskClient, as_patient: FlaskClient) -> None:
    answer = client.post("/enrol?language=de", data={"code": "WRONGONE", "birth_year": "1952", "used_by": "patient"})
    assert "Wir kennen diesen Code nicht" in answer.text
    pack = as_patient.get("/api/v1/pack?language=ar").json
    words = {rule["words"] for rule in pack["eyes"][0]["symptom_rules"]}
    assert "نظر" in " ".join(words)
    assert pack["eyes"][0]["visits"][0]["words"] == "اليوم 1"
