"""The arithmetic of a sound day, against the published table and hand calculation."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wristwork.course.safety import exposure, facts
from wristwork.course.safety.exposure import DayPart, ExposureError, Protection, Weighting

# Typed from the published table, not from the code: 8 h, 4 h, 2 h, 1 h, 30, 15 and 7.5 minutes.
PUBLISHED = {85: 480, 88: 240, 91: 120, 94: 60, 97: 30, 100: 15, 103: 7.5}

levels = st.floats(min_value=40, max_value=140)
minutes = st.floats(min_value=0.1, max_value=240)


@pytest.mark.parametrize(("level", "allowed"), PUBLISHED.items())
def test_allowed_time_is_the_published_table(level, allowed):
    assert exposure.allowed_minutes(level) == pytest.approx(allowed, abs=1e-9)


def test_the_facts_hold_the_published_table():
    assert dict(facts.PUBLISHED_TIMES) == PUBLISHED


@pytest.mark.parametrize(("level", "allowed"), PUBLISHED.items())
def test_a_full_allowance_is_a_full_dose_and_85_over_the_day(level, allowed):
    assert exposure.dose([DayPart(level, allowed)]) == pytest.approx(100)
    # The two formulas round the same physics differently: 3 dB is not quite a doubling (10^0.3 = 1.995).
    assert exposure.level_ex_8h([DayPart(level, allowed)]) == pytest.approx(85, abs=0.07)


# Worked outside this code. 60 min at 85: 12.5 %; 30 min at 94: 50 %; 10 min at 110: 10 / (480 / 2^(25/3)) = 671.96 %.
@pytest.mark.parametrize(
    ("parts", "percent", "day_level"),
    [
        ([DayPart(85, 60)], 12.5, 75.9691),
        ([DayPart(85, 60), DayPart(94, 30)], 62.5, 82.9341),
        ([DayPart(85, 60), DayPart(94, 30), DayPart(110, 10)], 734.4579, 93.5791),
        ([DayPart(97, 15), DayPart(82, 240)], 75.0, 83.7266),
        ([DayPart(95, 40)], 83.9947, 84.2082),
    ],
)
def test_mixed_days_agree_with_hand_calculation(parts, percent, day_level):
    assert exposure.dose(parts) == pytest.approx(percent, rel=1e-5)
    assert exposure.level_ex_8h(parts) == pytest.approx(day_level, abs=1e-3)


@pytest.mark.parametrize(
    ("words", "from_a", "from_c"),
    [
        ("none", 0, 0),
        ("NRR 24 earmuffs", 24 * 0.75 - 7, 18),
        ("NRR 33 foam plugs", 33 * 0.5 - 7, 16.5),
        ("NRR 30 other plugs", 2, 9),
        ("NRR 12 other plugs", 0, 3.6),
        ("NRR 8 earmuffs", 0, 6),
        ("SNR 25", 21, 21),
        ("SNR 3", 0, 0),
        ("fit-tested 15", 15, 15),
    ],
)
def test_what_protection_counts_for(words, from_a, from_c):
    protection = exposure.read_protection(words)
    assert protection.attenuation() == pytest.approx(from_a)
    assert protection.attenuation(Weighting.C) == pytest.approx(from_c)
    assert exposure.protected_level(100, protection) == pytest.approx(100 - from_a)
    assert str(protection) == words


def test_other_plugs_count_for_nothing_under_the_stated_label():
    stated = facts.NRR_OTHER_COUNTS_FROM.value
    assert Protection(exposure.OTHER_PLUGS, stated).attenuation() > 0
    assert Protection(exposure.OTHER_PLUGS, stated - 0.1).attenuation() == 0


def test_protection_is_read_in_any_case_and_spacing():
    assert exposure.read_protection("  nrr  22.5 Foam   plugs ") == Protection(exposure.FOAM_PLUGS, 22.5)


@pytest.mark.parametrize("words", ["", "plugs", "NRR 22", "NRR foam plugs", "SNR -4", "SNR 25 dB", "fit-tested"])
def test_protection_that_cannot_be_read_says_how_to_write_it(words):
    with pytest.raises(ExposureError, match=r"write it like one of none, NRR 20 earmuffs"):
        exposure.read_protection(words)


def test_an_absurd_label_is_refused():
    with pytest.raises(ExposureError, match=r"protection of 80 dB: .* says 0 to 50 dB"):
        exposure.read_protection("SNR 80")


def test_the_higher_end_of_a_guess_is_counted():
    assert exposure.surface("practice pad").level == 85
    assert exposure.surface("Quiet  Kit").level == 90
    assert exposure.surface("acoustic kit").level == 110
    assert exposure.surface("electronic kit").level is None


def test_only_the_acoustic_kit_always_asks_for_protection():
    assert [known.name for known in exposure.SURFACES if known.is_loud] == ["acoustic kit"]


def test_an_unknown_surface_names_the_known_ones():
    with pytest.raises(ExposureError, match=r"surface 'table': there are practice pad, electronic kit"):
        exposure.surface("table")


def test_the_share_of_a_plan():
    assert exposure.sound_share(30, exposure.PAD) == pytest.approx(6.25)
    assert exposure.sound_share(25, exposure.ACOUSTIC_KIT) == pytest.approx(25 / 480 * 2 ** (25 / 3) * 100)
    plugs = exposure.read_protection("SNR 25")
    assert exposure.sound_share(25, exposure.ACOUSTIC_KIT, plugs) == pytest.approx(25 / 480 * 2 ** (4 / 3) * 100)
    assert exposure.sound_share(30, exposure.ACOUSTIC_KIT, measured=97) == pytest.approx(100)


def test_headphones_have_no_share_until_somebody_measures():
    assert exposure.sound_share(30, exposure.ELECTRONIC_KIT) is None
    assert exposure.sound_share(480, exposure.ELECTRONIC_KIT, measured=85) == pytest.approx(100)


@pytest.mark.parametrize(
    ("level", "length", "message"),
    [
        (-5, 10, "level of -5 dB"),
        (200, 10, "level of 200 dB"),
        (math.nan, 10, "level of nan dB"),
        (math.inf, 10, "level of inf dB"),
        (90, -1, "-1 minutes"),
        (90, 1441, "1441 minutes"),
        (90, math.nan, "nan minutes"),
    ],
)
def test_absurd_parts_are_refused(level, length, message):
    with pytest.raises(ExposureError, match=message):
        DayPart(level, length)


@pytest.mark.parametrize("count", [exposure.dose, exposure.level_ex_8h])
def test_a_day_has_24_hours(count):
    with pytest.raises(ExposureError, match="1441 minutes in all: a day has 1440"):
        count([DayPart(80, 1440), DayPart(80, 1)])


def test_a_day_without_sound_has_no_level():
    assert exposure.dose([]) == 0
    assert exposure.level_ex_8h([]) is None
    assert exposure.level_ex_8h([DayPart(85, 0)]) is None


def test_what_is_left_of_the_day():
    morning = [DayPart(85, 240)]
    assert exposure.minutes_left(morning, 85) == pytest.approx(240)
    assert exposure.minutes_left(morning, 94) == pytest.approx(30)
    assert exposure.minutes_left([DayPart(100, 20)], 85) == 0


@settings(max_examples=60)
@given(levels, minutes, minutes)
def test_louder_longer_or_less_protected_never_counts_less(level, length, more):
    one = exposure.dose([DayPart(level, length)])
    assert exposure.dose([DayPart(level, length), DayPart(level, more)]) > one
    assert exposure.dose([DayPart(min(level + 1, 140), length)]) >= one
    for kind in exposure.PROTECTION_KINDS:
        assert exposure.dose([DayPart(level, length, Protection(kind, 20))]) <= one


@settings(max_examples=60)
@given(st.lists(st.tuples(levels, minutes), min_size=1, max_size=5))
def test_the_order_of_the_day_does_not_matter(day):
    parts = [DayPart(level, length) for level, length in day]
    assert exposure.dose(parts) == pytest.approx(exposure.dose(reversed(parts)))
    assert exposure.level_ex_8h(parts) == pytest.approx(exposure.level_ex_8h(parts[::-1]))


def test_every_figure_has_a_source_or_says_whose_it_is():
    known = {entry.key for entry in facts.SOURCES} | {facts.USUAL_ADVICE, facts.OUR_SETTING}
    assert set(facts.FIGURES) == {value for value in vars(facts).values() if isinstance(value, facts.Figure)}
    assert {figure.source for figure in facts.FIGURES} <= known
