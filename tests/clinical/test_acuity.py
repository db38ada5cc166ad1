"""Visual acuity against the logMAR definition, the 4 m chart's letter score, and published conversions.

The chart: Ferris, Kassoff, Bresnick, Bailey. New visual acuity charts for clinical research. Am J Ophthalmol 1982;94:91
(five letters a line, lines 0.1 logMAR apart; score of 85 at 20/20 by the protocol of that chart; from memory). The steps of
decimal acuity: ISO 8596, Ophthalmic optics, Visual acuity testing, table of grades (from memory).
"""

import json
import math
from pathlib import Path
from typing import Any

import logmar as other_converter
import pytest
import visual_acuity_conversion
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import acuity, vision
from followup.clinical.errors import Ambiguous, OutOfRange, Unknown, Unreadable

# Definition: logMAR = log10(MAR), MAR = denominator / distance; letters = 85 - 50 logMAR (Ferris 1982, as above).
STANDARD = [
    ("6/6", 0.00, 85),
    ("20/20", 0.00, 85),
    ("1.0 decimal", 0.00, 85),
    ("6/12", 0.301, 70),
    ("20/40", 0.301, 70),
    ("6/18", 0.477, None),
    ("20/70", 0.544, None),
    ("6/24", 0.602, 55),
    ("20/80", 0.602, 55),
    ("6/60", 1.000, 35),
    ("20/200", 1.000, 35),
    ("3/60", 1.301, 20),
    ("20/400", 1.301, 20),
    ("1/60", 1.778, None),
    ("20/1200", 1.778, None),
    ("4/6.3", 0.197, None),
    ("6/9.5", 0.200, None),
    ("4/40", 1.0, 35),
    ("4/4", 0.0, 85),
]


@pytest.mark.parametrize(("text", "logmar", "letters"), STANDARD)
def test_chart_readings_give_their_defined_logmar(text: str, logmar: float, letters: int | None) -> None:
    reading = acuity.read(text.removesuffix(" decimal"), "decimal" if "decimal" in text else None)
    assert reading.logmar == pytest.approx(logmar, abs=0.0006)
    if letters is not None:
        assert reading.letters == letters


# Definition of the letter score (Ferris 1982, as above), 85 - 50 logMAR: 85 -> 0.00, 70 -> 0.30, 50 -> 0.70, 20 -> 1.30, 0 -> 1.70.
@pytest.mark.parametrize(("score", "logmar"), [(85, 0.0), (70, 0.3), (50, 0.7), (20, 1.3), (0, 1.7)])
def test_letter_scores_give_their_logmar(score: int, logmar: float) -> None:
    assert acuity.read(f"{score} letters").logmar == pytest.approx(logmar)


def test_mean_letter_score_of_a_trial_is_read_exactly() -> None:
    # JAMA 2020;324:2383 (vitrectomy or anti-VEGF for vitreous haemorrhage), primary outcome: 63.0 letters; logMAR 0.44 by definition.
    assert acuity.read("63.0 letters").logmar == pytest.approx(0.44)


# SB06: decimal 0.014 and 0.005 (the logs derived). La09: logMAR 1.98 and 2.28 are decimal 0.0105 and 0.0052.
@pytest.mark.parametrize(("decimal", "logmar"), [(0.014, 1.854), (0.005, 2.301), (0.0105, 1.98), (0.0052, 2.28)])
def test_low_vision_decimals_match_the_published_ones(decimal: float, logmar: float) -> None:
    assert acuity.read(str(decimal), "decimal").logmar == pytest.approx(logmar, abs=0.005)
    assert acuity.read(str(logmar), "logmar").decimal == pytest.approx(decimal, rel=0.011)


# What people really write: common practice, no source. A letter counts 0.02: a fifth of a line of 0.1 (Bailey, Bullimore,
# Raasch, Taylor. Clinical grading and the effects of scaling. Invest Ophthalmol Vis Sci 1991;32:422, from memory).
@pytest.mark.parametrize(
    ("text", "logmar"),
    [
        ("6/12-2", 0.341),
        ("6/9.5 +1", 0.1796),
        ("20/40-1", 0.321),
        ("6⁄12−2", 0.341),
        (" 6 / 12 ", 0.301),
        ("logMAR 0.30", 0.30),
        ("0.3 LogMAR", 0.30),
        ("LOGMAR -0.1", -0.1),
        ("70 Letters", 0.30),
        ("-0.1", -0.1),
        ("72", 0.26),
        ("Snellen 6/12", 0.301),
        ("logmar .3", 0.3),
    ],
)
def test_reads_what_people_write(text: str, logmar: float) -> None:
    reading = acuity.read(text)
    assert reading.logmar == pytest.approx(logmar, abs=0.0006)
    assert reading.typed == text


@pytest.mark.parametrize(
    ("text", "category", "distance"),
    [
        ("CF", "CF", None),
        ("CF 1m", "CF", 1.0),
        ("cf @ 30 cm", "CF", 0.3),
        ("CF at 2 ft", "CF", 0.6096),
        ("Counting Fingers", "CF", None),
        ("hm", "HM", None),
        ("hand movements", "HM", None),
        ("PL", "LP", None),
        ("LP", "LP", None),
        ("NPL", "NLP", None),
        ("nlp", "NLP", None),
        ("no light perception", "NLP", None),
    ],
)
def test_reads_the_low_categories(text: str, category: str, distance: float | None) -> None:
    reading = acuity.read(text)
    assert reading.category == category
    assert reading.distance_m == (None if distance is None else pytest.approx(distance))
    assert (reading.letters, reading.snellen_6m, reading.snellen_20ft) == (None, None, None)


def test_stand_ins_are_those_of_the_named_table() -> None:
    # Bach (web page at michaelbach.de, conversion table): CF 1.9, HM 2.3, LP 2.7, NLP 3.0.
    assert {name: acuity.read(name).logmar for name in vision.CATEGORIES} == {"CF": 1.9, "HM": 2.3, "LP": 2.7, "NLP": 3.0}
    assert vision.STAND_INS_VERSION
    published = {(f.name, f.source): f.value for f in vision.OTHER_STAND_INS}
    assert published[("counting fingers", "SB06")] == 1.85
    assert published[("hand movements", "La09")] == 2.28


# Common practice, no source: nobody writes the notation beside these.
@pytest.mark.parametrize("text", ["0.3", "0,3", "0.5", "1", "1.0", "0", "2", "60", "6", "70", "20"])
def test_a_bare_number_with_two_readings_is_asked_about(text: str) -> None:
    with pytest.raises(Ambiguous, match=r"can be read as .* or .*; say which"):
        acuity.read(text)


VECTORS = json.loads((Path(__file__).parent / "data" / "acuity-vectors.json").read_text(encoding="utf-8"))


# The same texts are looked up in the browser's table: tests/phone/test_staff_entry.py. The source stands in each.
@pytest.mark.parametrize("vector", VECTORS, ids=lambda v: f"{v['text']} {v.get('notation', '')}")
def test_the_texts_that_the_browser_is_tried_with(vector: dict[str, Any]) -> None:
    text, notation = vector["text"], vector.get("notation")
    if vector.get("ask"):
        with pytest.raises(Ambiguous):
            acuity.read(text, notation)
        return
    if vector.get("unreadable"):
        with pytest.raises((Unreadable, OutOfRange)):
            acuity.read(text, notation)
        return
    reading = acuity.read(text, notation)
    assert reading.typed == text
    assert reading.correction == vector.get("correction")
    if "category" in vector:
        assert reading.category
        assert vision.CATEGORY_WORDS[reading.category] == vector["category"]
    else:
        assert reading.logmar == pytest.approx(vector["logmar"], abs=0.0011)


def test_a_partial_line_without_its_letters_says_so() -> None:
    # Common practice, no source: one letter, the fewest it can mean; between this line and the next.
    for text in ("6/9p", "6/9 part", "6/9-", "0.8p"):
        assert (acuity.read(text).partial, acuity.read(text).partial_unsaid) == (-1, True)
    for text in ("6/9-1", "6/9", "6/6-1+2", "6/12 (-2)"):
        assert not acuity.read(text).partial_unsaid
    assert acuity.read("6/9").logmar < acuity.read("6/9p").logmar < acuity.read("6/12").logmar
    assert acuity.read("6/6-1+2").partial == 1


def test_fingers_at_the_face_are_nearer_than_a_metre() -> None:
    # ICD-10 H54: category 3 needs 1 m. 30 cm: common practice, no source.
    assert (acuity.read("CF face").distance_m, acuity.read("CF face").who_category) == (0.3, "blindness 4")
    assert acuity.read("CF 1 metre").who_category == "blindness 3"
    assert acuity.read("CF 2 feet").distance_m == pytest.approx(0.6096)


def test_a_sign_behind_light_perception_is_asked_about() -> None:
    with pytest.raises(Ambiguous, match="light perception or no light perception"):
        acuity.read("PL-")
    assert acuity.read("PL+").category == "LP"


# Second opinion: the package `logmar` (pure arithmetic).
@pytest.mark.parametrize(
    "text", ["6/6", "6/7.5", "6/9", "6/18", "6/36", "6/60", "3/60", "20/25", "20/32", "20/63", "20/70", "20/400"]
)
def test_fractions_as_another_converter_has_them(text: str) -> None:
    assert acuity.read(text).logmar == pytest.approx(other_converter.snellen_to_logmar(text), abs=1e-9)
    assert acuity.read(text).decimal == pytest.approx(other_converter.snellen_to_decimal(text))


# Second opinion: the table that the package `visual-acuity-conversion` carries (rounded to a third of a line).
def test_every_row_of_a_published_table() -> None:
    rows = visual_acuity_conversion.VA_CONVERSION_TABLE
    tried = 0
    for row in rows:
        if not isinstance(row["logMAR"], int | float) or "/" not in str(row["Snellen 6 m"]) or row["logMAR"] > 1.6:
            continue
        tried += 1
        by_decimal = acuity.read(str(row["Decimal VA"]), "decimal")
        assert by_decimal.logmar == pytest.approx(row["logMAR"], abs=0.03), row
        assert acuity.read(row["Snellen 6 m"]).logmar == pytest.approx(row["logMAR"], abs=0.03), row
        assert acuity.read(row["Snellen 20 ft"]).logmar == pytest.approx(row["logMAR"], abs=0.03), row
    assert tried > 15


def test_the_question_names_both_readings() -> None:
    with pytest.raises(Ambiguous, match=r"letters \(6/19\) or the line 6/60 or the line 20/60; say which notation: snellen"):
        acuity.read("60")
    with pytest.raises(Ambiguous, match=r"decimal \(6/20\) or logMAR \(6/12\)"):
        acuity.read("0.3")


def test_the_notation_settles_a_bare_number() -> None:
    assert acuity.read("0,5", "decimal").logmar == pytest.approx(0.30103, abs=1e-5)
    assert acuity.read("0.5", "logmar").logmar == 0.5
    assert acuity.read("5", "letters").logmar == pytest.approx(1.6)


def test_the_best_and_the_worst_that_a_chart_shows_are_accepted() -> None:
    assert (acuity.read("-0.5", "logmar").logmar, acuity.read("3", "logmar").logmar) == (-0.5, 3)


@pytest.mark.parametrize(
    ("text", "notation", "error", "says"),
    [
        ("6/0", None, OutOfRange, "zero"),
        ("0/6", None, OutOfRange, "zero"),
        ("20/", None, Unreadable, "whole Snellen"),
        ("/20", None, Unreadable, "whole Snellen"),
        ("", None, Unreadable, "no acuity"),
        ("abc", None, Unreadable, "not an acuity"),
        ("ph", None, Unreadable, "“ph” is not an acuity"),
        ("6/1", None, OutOfRange, "better than a chart"),
        ("1/2000", None, OutOfRange, "worse than a chart"),
        ("101 letters", None, OutOfRange, "between 0 and 100"),
        ("-1", "letters", OutOfRange, "between 0 and 100"),
        ("0", "decimal", OutOfRange, "above 0"),
        ("3.5", "logmar", OutOfRange, "worse"),
        ("-0.51", "logmar", OutOfRange, "better"),
        ("12", "snellen", Unreadable, "fraction"),
        ("6/12", "decimal", Unreadable, "written as Snellen"),
        ("70.5", "letters", Unreadable, "whole number"),
        ("500", None, OutOfRange, "no acuity in any notation"),
        ("6/12-9", None, OutOfRange, "at most 7"),
        ("6/12", "inches", Unknown, "accepted are"),
    ],
)
def test_what_cannot_be_is_refused_in_plain_words(text: str, notation: str | None, error: type, says: str) -> None:
    with pytest.raises(error, match=says):
        acuity.read(text, notation)


# WHO ICD-11, 9D90, and WHO ICD-10, H54, table of categories. 6/18 = 6/19 = 20/70 is one boundary printed three ways.
@pytest.mark.parametrize(
    ("text", "who"),
    [
        ("6/12", "none"),
        ("6/15", "mild"),
        ("6/12-1", "mild"),
        ("6/18", "mild"),
        ("6/19", "mild"),
        ("20/70", "mild"),
        ("6/24", "moderate"),
        ("6/60", "moderate"),
        ("6/75", "severe"),
        ("6/60-1", "severe"),
        ("3/60", "severe"),
        ("20/400", "severe"),
        ("2/60", "blindness 3"),
        ("1/60", "blindness 3"),
        ("CF 1m", "blindness 3"),
        ("CF", "blindness 3"),
        ("CF 30cm", "blindness 4"),
        ("20/2000", "blindness 4"),
        ("HM", "blindness 4"),
        ("LP", "blindness 4"),
        ("NLP", "blindness 5"),
    ],
)
def test_who_categories_change_at_their_boundaries(text: str, who: str) -> None:
    assert acuity.read(text).who_category == who


def test_a_person_counts_by_the_better_eye() -> None:
    assert vision.who_category_of_person(acuity.read("NLP"), acuity.read("6/9")) == "none"


# Siderov, Tiu. Variability of measurements of visual acuity in a large eye clinic. Acta Ophthalmol Scand 1999;77:673
# (from memory): 0.15 logMAR. Seven letters are noise, eight are not.
def test_seven_letters_are_noise_and_eight_are_a_change() -> None:
    before = acuity.read("70 letters")
    seven, eight = (vision.change(before, acuity.read(f"{70 - n} letters")) for n in (7, 8))
    assert not seven.exceeds_noise
    assert eight.exceeds_noise
    assert (eight.direction, eight.letters, eight.lines) == ("worse", pytest.approx(-8), pytest.approx(-1.6))


def test_fifteen_letters_are_three_lines_and_double_the_angle() -> None:
    # Definition: 10 ** 0.3 is 2.
    lost = vision.change(acuity.read("85 letters"), acuity.read("70 letters"))
    assert lost.logmar == pytest.approx(0.30)
    assert lost.lines == pytest.approx(-3)
    assert pytest.approx(2, abs=0.01) == 10**0.30


@pytest.mark.parametrize(
    ("before", "after", "direction"), [("6/60", "CF", "worse"), ("HM", "CF", "better"), ("LP", "LP", "same")]
)
def test_categories_compare_by_rank_not_by_their_stand_in(before: str, after: str, direction: str) -> None:
    change = vision.change(acuity.read(before), acuity.read(after))
    assert (change.direction, change.logmar, change.letters) == (direction, None, None)
    assert change.exceeds_noise == (direction != "same")


def test_a_chart_reading_below_a_stand_in_still_ranks_above_counting_fingers() -> None:
    assert acuity.read("CF").worse_than(acuity.read("20/2000"))


@given(st.integers(0, 100))
def test_every_letter_survives_the_round_trip_through_every_notation(letters: int) -> None:
    reading = acuity.read(f"{letters} letters")
    assert reading.snellen_6m
    assert reading.snellen_20ft
    for text, notation in (
        (reading.snellen_6m, None),
        (reading.snellen_20ft, None),
        (f"{reading.decimal:.6f}", "decimal"),
        (f"{reading.logmar:.3f}", "logmar"),
    ):
        assert acuity.read(text, notation).letters == letters


@given(st.floats(-0.3, 1.7))
def test_printed_fractions_stay_within_half_a_letter(logmar: float) -> None:
    for distance in (6, 20):
        assert acuity.read(vision.snellen(logmar, distance)).logmar == pytest.approx(logmar, abs=0.0125)


def test_clinic_denominators_are_printed_where_they_fit() -> None:
    # Names of the lines of the chart (Ferris 1982, as above; 6 m and 20 ft from memory).
    table = [
        (0.1, "6/7.5", "20/25"),
        (0.2, "6/9.5", "20/32"),
        (0.5, "6/19", "20/63"),
        (0.6, "6/24", "20/80"),
        (0.8, "6/38", "20/125"),
        (0.9, "6/48", "20/160"),
        (1.3, "6/120", "20/400"),
    ]
    for logmar, metres, feet in table:
        assert (vision.snellen(logmar, 6), vision.snellen(logmar, 20)) == (metres, feet)


def test_offline_table_says_what_the_reader_says() -> None:
    table = acuity.table()
    for key, (logmar, metres, feet, letters) in table.items():
        notation, _, bare = key.rpartition(":")
        reading = acuity.read(bare, notation or None)
        assert (logmar, metres, feet, letters) == (
            round(reading.logmar, 3),
            reading.snellen_6m,
            reading.snellen_20ft,
            reading.letters,
        )
    assert len(table) > 1000


@given(st.floats(-0.5, 3.0), st.floats(-0.5, 3.0))
def test_worse_logmar_never_gets_a_milder_category(a: float, b: float) -> None:
    better, worse = (acuity.read(f"{x:.4f}", "logmar") for x in sorted((a, b)))
    assert vision.WHO_ORDER.index(better.who_category) <= vision.WHO_ORDER.index(worse.who_category)
    assert math.isclose(better.decimal, 10**-better.logmar)


# Lines by their lower number: as charts print them (6 m and 20 ft; ISO 8596 and common practice).
@pytest.mark.parametrize(
    ("typed", "chart", "whole"),
    [
        ("12", "6/", "6/12"), ("12-1", "6/", "6/12-1"), ("9p", "6/", "6/9p"), ("60", "6/", "6/60"), (" 7,5 ", "6/", "6/7,5"),
        ("40", "20/", "20/40"), ("70", "20/", "20/70"), ("12 ph", "6/", "6/12 ph"), ("PH 12", "6/", "ph 6/12"),
        ("70", "6/", "70"), ("6/12", "6/", "6/12"), ("20/40", "6/", "20/40"), ("CF", "6/", "CF"), ("0.5", "6/", "0.5"),
        ("1.0", "6/", "1.0"), ("12", "", "12"), ("12", "letters", "12"), ("12", "decimal", "12"), ("", "6/", ""),
    ],
)  # fmt: skip
def test_a_line_is_called_by_its_lower_number_on_a_chart_that_has_it(typed: str, chart: str, whole: str) -> None:
    assert acuity.on_chart(typed, chart) == whole


@pytest.mark.parametrize(
    ("typed", "notation", "chart"),
    [
        ("6/12", None, "6/"),
        ("20/40", None, "20/"),
        ("70", "letters", "letters"),
        ("0.5", "decimal", "decimal"),
        ("CF", None, ""),
    ],
)
def test_the_chart_of_a_reading_is_the_next_ones(typed: str, notation: str | None, chart: str) -> None:
    assert acuity.chart_of(typed, notation) == chart
