"""Pressure against its definition and the published bands and schemes."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import pressure
from followup.clinical.errors import OutOfRange, Unknown, Unreadable


# BIPM, The International System of Units, 8th edition 2006, table 8: 1 mmHg is 133.322 Pa.
@pytest.mark.parametrize(
    ("mmhg", "kpa"), [(1, 0.133322), (5, 0.667), (6.5, 0.867), (10, 1.333), (21, 2.800), (24, 3.2), (30, 4.0), (40, 5.333)]
)
def test_kilopascals_by_definition(mmhg: float, kpa: float) -> None:
    assert pressure.kpa(mmhg) == pytest.approx(kpa, abs=0.0006)
    assert pressure.read(f"{kpa} kPa") == pytest.approx(mmhg, abs=0.06)


def test_four_kilopascals_are_thirty() -> None:
    assert pressure.read("4.0 kPa") == 30.0
    assert pressure.read("31") == 31
    assert pressure.read("15,5 mmHg") == 15.5


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("310", OutOfRange),
        ("-3", Unreadable),
        ("15/16", Unreadable),
        ("2,0 bar", Unreadable),
        ("high", Unreadable),
        ("", Unreadable),
        ("90.5", OutOfRange),
    ],
)
def test_impossible_pressures_are_refused(text: str, error: type) -> None:
    with pytest.raises(error):
        pressure.read(text)


# How people write it: common practice, no source. 1 kPa is 7.5006 mmHg, from the same table.
@pytest.mark.parametrize(
    ("text", "mmhg"), [("2,0 kPa", 15.0), ("2,0kpa", 15.0), ("15 mmHg", 15), ("15 mm Hg", 15), ("15,5", 15.5), (" 15 ", 15)]
)
def test_pressures_as_people_write_them(text: str, mmhg: float) -> None:
    assert pressure.read(text) == mmhg


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("<5", "is a bound"),
        ("> 50", "is a bound"),
        ("≤5", "is a bound"),
        ("soft", "finger estimate"),
        ("feels hard", "finger estimate"),
        ("digitally normal", "finger estimate"),
        ("finger pressure", "finger estimate"),
        ("high", "is not a pressure; write it in mmHg"),
    ],
)
def test_what_is_no_number_is_asked_back(text: str, says: str) -> None:
    with pytest.raises(Unreadable, match=says):
        pressure.read(text)


def test_the_range_of_a_tonometer_is_accepted() -> None:
    # Common practice, no source: beyond the dial of an applanation tonometer (0 to 80, from memory).
    assert (pressure.read("0"), pressure.read("90")) == (0, 90)


# Bands: hypotony under 6 [TSV25]; raised over 21, spike 30 or more, severe 40 or more [Bern12, SO18; Gosse et al., Open
# Ophthalmol J 2013;7:42]; 10 to 21 from memory.
@pytest.mark.parametrize(
    ("mmhg", "band"),
    [
        (0, "hypotony"),
        (5, "hypotony"),
        (5.1, "low"),
        (9.9, "low"),
        (10, "normal"),
        (21, "normal"),
        (21.5, "raised"),
        (29.9, "raised"),
        (30, "spike"),
        (39.9, "spike"),
        (40, "severe"),
        (62, "severe"),
    ],
)
def test_bands_change_where_published(mmhg: float, band: str) -> None:
    assert pressure.band(mmhg) == band


def test_nice_refers_from_24() -> None:
    # NICE guideline NG81, Glaucoma: diagnosis and management, recommendations on referral: 23 below, 24 refer.
    assert pressure.REFER_FROM.value == 24


def test_a_clinic_may_set_its_own_bands() -> None:
    assert pressure.band(28, pressure.Bands(spike_from=28)) == "spike"


def test_bands_that_do_not_rise_are_refused() -> None:
    with pytest.raises(OutOfRange, match="must rise"):
        pressure.Bands(spike_from=45)


# Asked about beyond 3 and 50 mmHg: common practice, no source.
@pytest.mark.parametrize(("mmhg", "asked"), [(2.9, True), (3, False), (50, False), (52, True)])
def test_unlikely_readings_are_asked_about(mmhg: float, asked: bool) -> None:
    assert pressure.unlikely(mmhg) == asked


def test_rise_needs_a_baseline() -> None:
    assert pressure.rise(31, 15) == 16
    assert pressure.rise(31, None) is None


# Lew88 (level after 6 weeks of dexamethasone): 19 low, 25 intermediate, 32 high.
@pytest.mark.parametrize(
    ("level", "grade"), [(19, "low"), (20, "intermediate"), (25, "intermediate"), (31, "intermediate"), (32, "high")]
)
def test_level_scheme(level: float, grade: str) -> None:
    assert pressure.steroid_response(level, 15, timedelta(weeks=6)).level == grade


# Arm67 (protocol and bands from memory): 5 low, 6 and 15 intermediate, 16 high.
@pytest.mark.parametrize(("rise", "grade"), [(5, "low"), (6, "intermediate"), (15, "intermediate"), (16, "high")])
def test_rise_scheme(rise: float, grade: str) -> None:
    answer = pressure.steroid_response(14 + rise, 14, timedelta(weeks=4))
    assert (answer.rise, answer.pattern, answer.days_on_drops) == (grade, rise >= 6, 28)


def test_a_rise_before_two_weeks_of_drops_is_no_steroid_pattern() -> None:
    # Usual onset 2 to 6 weeks (from memory).
    assert not pressure.steroid_response(28, 15, timedelta(days=13)).pattern
    assert pressure.steroid_response(28, 15, timedelta(days=14)).pattern


# Agreement with applanation: air puff -3.8 to +4.3 [Cook12]; pen bias 0.6, +/- 6.5 [BJO05]; rebound -3.3 to +4.0 [Reb13].
@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("non-contact", -3.8, 4.3), ("applanation-pen", -5.9, 7.1), ("rebound", -3.3, 4.0), ("applanation", -2.6, 2.6)],
)
def test_instruments_carry_their_published_agreement(name: str, low: float, high: float) -> None:
    instrument = pressure.INSTRUMENTS[name]
    assert instrument.low_mmhg
    assert instrument.high_mmhg
    assert (instrument.low_mmhg.value, instrument.high_mmhg.value) == (low, high)


# The published limits of agreement with applanation: rebound -3.3 to 4.0 [Reb13], air puff -3.8 to 4.3 [Cook12],
# applanation twice ± 2.6, applanation pen 0.6 ± 6.5 [BJO05]. Combined as independent: derived.
@pytest.mark.parametrize(
    ("before", "after", "instruments", "really"),
    [
        (15, 18.6, ("applanation", "applanation"), False),
        (15, 18.8, ("applanation", "applanation"), True),
        (15, 19.7, ("applanation", "rebound"), False),
        (15, 19.8, ("applanation", "rebound"), True),
        (19.2, 15, ("applanation", "rebound"), False),
        (19.3, 15, ("applanation", "rebound"), True),
        (15, 19.2, ("rebound", "applanation"), False),
        (15, 19.3, ("rebound", "applanation"), True),
        (15, 22.5, ("applanation", None), False),
        (15, 22.6, ("applanation", None), True),
        (15, 60, ("palpation", "applanation"), False),
        (15, 60, ("applanation", "palpation"), False),
    ],
)
def test_a_change_between_instruments_counts_beyond_their_agreement(
    before: float, after: float, instruments: tuple[str | None, str | None], really: bool
) -> None:
    assert pressure.really_changed(before, after, *instruments) is really


def test_an_instrument_nobody_has_is_refused() -> None:
    with pytest.raises(Unknown, match="instrument"):
        pressure.really_changed(15, 20, "thumb", "rebound")


@given(st.floats(0, 90), st.floats(0, 90))
def test_higher_pressure_never_gets_a_lower_band(a: float, b: float) -> None:
    order = ("hypotony", "low", "normal", "raised", "spike", "severe")
    low, high = sorted((a, b))
    assert order.index(pressure.band(low)) <= order.index(pressure.band(high))
