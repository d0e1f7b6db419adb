"""Saying things in another language."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from wristwork.languages import names
from wristwork.languages.catalogues import direction, has_catalogue, language
from wristwork.languages.hearing import pattern_of
from wristwork.languages.numbers import day_of_year, decimal, number, read_whole_day, whole_day
from wristwork.languages.own_words import wrong_words
from wristwork.languages.say import say, say_count, say_html, speak, speaking, spoken
from wristwork.page.front_matter import Shape
from wristwork.pattern.model import Drum, Hairpin, Level
from wristwork.technique.strokes import Height, Limb, StrokeName


@pytest.fixture(autouse=True)
def english_again():
    yield
    speak(language("en"))


@pytest.mark.parametrize("code", ["en", "de"])
def test_the_name_of_a_kind_is_said_as_plain_text(code):
    with speaking(language(code)):
        assert type(say(Shape.LIST)) is str


def test_english_is_said_as_it_is_written():
    assert say("Grade {grade}", grade=3) == "Grade 3"
    assert say_count("{count} week", "{count} weeks", 1) == "1 week"
    assert say_count("{count} week", "{count} weeks", 4) == "4 weeks"


def test_german_is_said_in_german_and_only_within_its_block():
    with speaking(language("de")):
        assert say("Grade {grade}", grade=3) == "Stufe 3"
        assert say_count("{count} week", "{count} weeks", 1) == "1 Woche"
        assert say_count("{count} week", "{count} weeks", 4) == "4 Wochen"
    assert say("Grade {grade}", grade=3) == "Grade 3"


def test_a_kind_of_german_speaks_german():
    assert has_catalogue("de-AT")
    with speaking(language("de-AT")):
        assert say("Weeks") == "Wochen"
        assert spoken().code == "de-AT"


def test_a_language_without_words_of_ours_says_the_english_ones():
    assert not has_catalogue("xx")
    with speaking(language("xx")):
        assert say("Weeks") == "Weeks"
        assert whole_day(date(2027, 1, 20)) == "20 January 2027"


def test_what_is_html_stays_and_what_goes_in_is_escaped():
    said = say_html("<bdi>{title}</bdi> is no longer in this course", title="<b>&")
    assert said == Markup("<bdi>&lt;b&gt;&amp;</bdi> is no longer in this course")


def test_a_tutors_own_words_come_first_in_english_too():
    own = (("Grade {grade}", "Step {grade}"), ("{count} weeks", "{count} rounds"))
    with speaking(language("en", own)):
        assert say("Grade {grade}", grade=3) == "Step 3"
        assert say_count("{count} week", "{count} weeks", 1) == "1 week"
        assert say_count("{count} week", "{count} weeks", 4) == "4 rounds"
    with speaking(language("de", own)):
        assert say("Grade {grade}", grade=3) == "Step 3"
        assert say("Weeks") == "Wochen"


def test_what_scripts_say_is_among_their_words_and_nothing_else():
    german = language("de").scripts
    assert german["Play {title}"] == "{title} abspielen"
    assert german["1 pass"] == {"one": "1 Durchgang", "other": "{count} Durchgänge"}
    assert german["floor tom"] == "Standtom"
    assert "Contents" not in german
    assert language("en").scripts == {}


def test_words_that_differ_make_another_sum():
    sums = {language("de").sum, language("en").sum, language("en", [("Weeks", "Rounds")]).sum}
    assert len(sums) == 3


@pytest.mark.parametrize(
    ("text", "instead", "told"),
    [
        ("Weeks", "Rounds", ""),
        ("{count} weeks", "{count} rounds", ""),
        ("Weks", "Rounds", "nothing says 'Weks': did you mean 'Weeks'?"),
        ("qqqqqq", "x", "nothing says 'qqqqqq': write the English words that the site would have"),
        ("Grade {grade}", "Step", "'Step' and 'Grade {grade}' don't hold the same values: see to {grade}"),
        ("Weeks", "{n} Rounds", "'{n} Rounds' and 'Weeks' don't hold the same values: see to {n}"),
        ("Grade {grade}", "{{Step}} {grade}", ""),
        (
            "Grade {grade}",
            "Step {grade} {",
            "'Step {grade} {' and 'Grade {grade}' don't hold the same values: see to {grade}",
        ),
        ("Grade {grade}", "{grade:d}", "'{grade:d}' and 'Grade {grade}' don't hold the same values: see to {grade}"),
        ("Grade {grade}", "{grade} {}", "'{grade} {}' and 'Grade {grade}' don't hold the same values: see to {}"),
    ],
)
def test_own_words_for_what_nobody_says_are_told(text, instead, told):
    assert wrong_words(text, instead) == told


@pytest.mark.parametrize(
    ("code", "day", "of_year", "half", "many"),
    [
        ("en", "20 January 2027", "20 January", "0.5", "1,234.5"),
        ("de", "20. Januar 2027", "20. Januar", "0,5", "1.234,5"),
        ("es", "20 de enero de 2027", "20 de enero", "0,5", "1.234,5"),
    ],
)
def test_numbers_and_days_by_language(code, day, of_year, half, many):
    with speaking(language(code)):
        assert whole_day(date(2027, 1, 20)) == day
        assert day_of_year(date(2027, 1, 20)) == of_year
        assert decimal(0.5, 1) == half
        assert number(1234.5) == many


def test_a_number_is_rounded_as_python_rounds():
    assert decimal(0.15, 1) == f"{0.15:.1f}"


def test_which_way_a_language_is_written():
    assert [direction(code) for code in ("en", "de-AT", "ar", "he", "xx")] == ["ltr", "ltr", "rtl", "rtl", "ltr"]


def test_every_name_that_is_said_is_listed():
    assert set(names.LIMBS) == set(Limb)
    assert set(names.HEIGHTS) == set(Height)
    assert set(names.STROKES) == set(StrokeName)
    assert set(names.LEVELS) == set(Level)
    assert set(names.HAIRPINS) == set(Hairpin)
    assert set(names.DRUMS) == {*Drum, *(drum.said for drum in Drum)}


@given(st.dates(date(1970, 1, 1), date(2199, 12, 31)), st.sampled_from(["en", "de", "es", "fr"]))
def test_a_day_that_was_written_is_read(day, code):
    with speaking(language(code)):
        assert read_whole_day(whole_day(day)) == day


def test_what_is_no_day_is_none():
    assert [
        read_whole_day(text) for text in ("", "20 2027", "31 February 2027", "20 January", "May 20 May 21 2027")
    ] == [None] * 5


@given(st.text(alphabet='ab(.[{<>&" }', max_size=8).filter(lambda text: "{" not in text and "}" not in text))
def test_what_was_said_is_found_again(title):
    said = say("Week {number}, {title}", number=3, title=title)
    found = re.fullmatch(pattern_of("Week {number}, {title}", number="([0-9]+)", title="(.*)"), said)
    assert found is not None
    assert found.groups() == ("3", title)
