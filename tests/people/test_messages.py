"""What comes back from students, as their chats hand it on."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.languages.catalogues import language
from wristwork.languages.say import speaking
from wristwork.people.links import Row
from wristwork.people.messages import read_message
from wristwork.people.packing import number, pack, text

TITLES = {"slow-singles": "Slow singles", "rl-talk": "Talk: <R> & *L*"}
MESSAGE = """\
Hi! Here it is.
Zoë, my practice, week 3: 84 minutes in the last 14 days
Slow singles: clean at 66, 20 min, done on 20 September 2026, heard at 66, within 9 ms, left hand 5 dB louder
Talk:  R  &  L : 12 min
Old one: clean at 80
Question: My thumb slips.
What now? <&>
"""


def test_a_message_is_read_line_by_line():
    told = read_message(MESSAGE, TITLES)
    assert told.report is not None
    assert (told.report.week, told.report.minutes, told.report.days) == (3, 84, 14)
    heard = "heard at 66, within 9 ms, left hand 5 dB louder"
    assert told.report.rows == (
        Row("slow-singles", 66, None, 20, True, date(2026, 9, 20), heard),
        Row("rl-talk", None, None, 12),
    )
    assert (told.name, told.unknown) == ("Zoë", ("Old one",))
    assert told.question == "My thumb slips. What now? <&>"
    assert told.words == "Hi! Here it is. Old one: clean at 80"


def test_a_link_is_read_among_other_words():
    head = number(3) + number(1) + number(64) + text("Faster?")
    row = text("slow-singles") + number(0) + number(70) + number(9) + number(0)
    link = f"https://drums.example/my-practice/#{pack(1, [head, row])}"
    told = read_message(f"Look: {link} Bye", TITLES)
    assert told.report is not None
    assert told.report.rows == (Row("slow-singles", 70, None, 9),)
    assert (told.question, told.words) == ("Faster?", "Look: Bye")
    assert read_message(link.partition("#")[2], TITLES).report == told.report


def test_a_link_to_an_exercise_says_which_and_how_fast():
    told = read_message("This one? https://drums.example/loft/x/slow-singles/?tempo=66&bars=2-3", TITLES)
    assert (told.links, told.words, told.report) == (("slow-singles at 66",), "This one?", None)
    assert read_message("x/slow-singles/?tempo=999", TITLES).links == ("slow-singles",)


def test_tempos_that_a_student_types_alone_are_read():
    told = read_message("Hi!\nslow singles 66\nTalk: R & L: at 72 bpm.\nSee you <3", TITLES, week=4)
    assert told.report is not None
    assert (told.report.week, told.report.minutes, told.report.days) == (4, 0, 0)
    assert told.report.rows == (Row("slow-singles", latest=66), Row("rl-talk", latest=72))
    assert (told.words, told.question) == ("Hi! See you <3", "")


def test_facts_without_the_line_over_them_are_read_in_both_languages():
    with speaking(language("de")):
        told = read_message("Slow singles: clean at 66\nrl-talk mit 70", TITLES)
    assert told.report is not None
    assert told.report.rows == (Row("slow-singles", 66), Row("rl-talk", latest=70))
    assert told.words == ""
    told = read_message("Slow singles: clean at 66, 20 min", TITLES)
    assert told.report is not None
    assert told.report.rows == (Row("slow-singles", 66, None, 20),)


@pytest.mark.parametrize(
    "words",
    [
        "slow singles took 20 min",
        "66",
        "slow singles 999",
        "my slow singles 66",
        "slow singles",
        "flam tap 66",
        "slow singles for 20",
        "slow singles not 60",
        "slow singles 20 times",
        "slow singles 66 %",
        "slow singles 66 but only on the couch and never clean",
        "talk 5",
        "slow singles 66 72",
        "slow singles66",
        "slow singles 2x 66",
    ],
)
def test_other_words_about_an_exercise_stay_words(words):
    told = read_message(words, TITLES)
    assert (told.report, told.words) == (None, words)


@pytest.mark.parametrize(
    ("line", "row", "words"),
    [
        ("- The slow singles = 66", Row("slow-singles", latest=66), ""),
        ("Slow, singles 66!", Row("slow-singles", latest=66), ""),
        ("slow singels @66bpm", Row("slow-singles", latest=66), ""),
        ("SLOW SINGLES 66 clean", Row("slow-singles", best=66), ""),
        ("slow-singles at 66, not clean", Row("slow-singles", latest=66), "Slow singles: not clean"),
        ("Slow singles 66 easy", Row("slow-singles", latest=66), "Slow singles: easy"),
    ],
)
def test_thumbs_need_not_type_quite_right(line, row, words):
    told = read_message(line, TITLES)
    assert told.report is not None
    assert (told.report.rows, told.words) == ((row,), words)


def test_clean_is_said_in_the_language_of_the_course():
    with speaking(language("de")):
        told = read_message("Slow singles bei 66 sauber\nSlow singles bei 70 Schlägen", TITLES)
    assert told.report is not None
    assert told.report.rows == (Row("slow-singles", best=66), Row("slow-singles", latest=70))


def test_the_number_at_the_end_of_a_name_is_no_part_of_a_tempo():
    titles = {"singles": "Singles", "singles-1": "Singles 1", "six": "Six"}
    told = read_message("Singles 120\nSingles 1 80\nSixty 60", titles)
    assert told.report is not None
    assert told.report.rows == (Row("singles", latest=120), Row("singles-1", latest=80))
    assert told.words == "Sixty 60"


def test_nothing_is_nothing():
    assert read_message(" \n", TITLES).is_nothing
    assert not read_message("See you", TITLES).is_nothing


@given(st.text(alphabet="My practice, week 3: 14 daysQuestion\n#x/?=<>&AQz-_", max_size=120))
def test_any_text_can_be_heard(words):
    told = read_message(words, TITLES)
    assert told.is_nothing or told.report or told.question or told.words or told.links


def test_a_message_in_the_language_of_the_course_is_read_and_an_english_one_too():
    message = """\
Zoë, mein Üben, Woche 3: 84 Minuten in den letzten 14 Tagen
Slow singles: sauber bei 66, 20 Min., gemacht am 20. September 2026, gehört bei 66, innerhalb von 9 ms
Frage: Mein Daumen?
"""
    with speaking(language("de")):
        told = read_message(message, TITLES)
        english = read_message(MESSAGE, TITLES)
    heard = "gehört bei 66, innerhalb von 9 ms"
    assert told.report is not None
    assert (told.report.week, told.report.minutes, told.report.days) == (3, 84, 14)
    assert told.report.rows == (Row("slow-singles", 66, None, 20, True, date(2026, 9, 20), heard),)
    assert (told.name, told.question, told.words) == ("Zoë", "Mein Daumen?", "")
    assert english == read_message(MESSAGE, TITLES)


def test_own_words_with_brackets_are_read_too():
    own = [("clean at {best}", "(clean) [{best}]")]
    with speaking(language("en", own)):
        told = read_message("My practice, week 1: 2 minutes in the last 14 days\nSlow singles: (clean) [66]", TITLES)
    assert told.report is not None
    assert told.report.rows == (Row("slow-singles", 66, None, 0),)
