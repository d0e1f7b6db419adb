"""A student's file: plain lines, forgiving, and told with place and remedy where it can't be read."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.languages.catalogues import language
from wristwork.languages.say import say, speaking
from wristwork.people.links import Item, Report, Row
from wristwork.people.notes import ASKED, SENT, Note, heard, own_words, read_note, sent
from wristwork.people.student import HINT, is_student_file, read_student

DAY = date(2026, 9, 14)
WORDS = st.text(alphabet="abc <>&\"'é手\n;:,#-\u2028", max_size=40)
FILE = """\
---
Name: "Zoë & Jo"
week: 3
# she is quick
level: 4
hand: Left
surface: pad
---

Hand: this is about her hand, and no setting.

- 2026-09-14 sent week 3: slow-singles 60 to 72 for 5 minutes; flam-tap 52 to 52 for 1 minute; something else
2026-09-15 lost her sticks
2026-09-21 heard week 3, 84 minutes in 14 days: slow-singles clean at 66, last at 63, 20 min, done on 2026-09-20
"""


def test_a_surface_may_be_said_in_the_language_of_the_course():
    text = "name: Jo\nsurface: Übungspad\n"
    with speaking(language("de")):
        assert read_student("jo.md", text).problems == ()
    assert [problem.found for problem in read_student("jo.md", text).problems] == ["surface: Übungspad"]


def test_a_file_is_read_as_it_was_typed():
    student = read_student("students/zoe.md", FILE)
    assert student.problems == ()
    assert (student.key, student.name, student.week, student.level) == ("zoe", "Zoë & Jo", 3, 4)
    assert (student.hand, student.surface) == ("left", "pad")
    assert [note.verb for note in student.notes] == ["sent", "", "heard"]
    assert student.notes[0].items == (Item("slow-singles", 60, 72, 5), Item("flam-tap", 52, 52, 1))
    assert student.notes[1].words == "lost her sticks"
    assert student.notes[2].rows == (Row("slow-singles", 66, 63, 20, True, date(2026, 9, 20)),)
    assert student.notes[2].minutes == (84, 14)
    assert student.clean == {"slow-singles": 63}


@pytest.mark.parametrize("text", ["", "\n", "Just words.\n", "---\n---\n", "\ufeffname:\n"])
def test_a_file_with_next_to_nothing_is_a_student_called_like_the_file(text):
    student = read_student("students/jo.md", text)
    assert (student.name, student.problems) == ("jo", ())


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (
            "hand: lefty",
            "students/jo.md:2: hand: lefty\n    hand: lefty\n    ^ write the hand that leads: right or left",
        ),
        (
            "week: three",
            "students/jo.md:2: week: three\n    week: three\n    ^ write the number of a week, as in week: 3",
        ),
        ("level: 11", "students/jo.md:2: level: 11\n    level: 11\n    ^ write a grade from 1 to 10, as in level: 3"),
        ("hnad: left", "students/jo.md:2: 'hnad:'\n    hnad: left\n    ^ write hand:"),
        ("name: Joe", "students/jo.md:2: name: stands here a second time\n    name: Joe\n    ^ keep one of the two"),
        (
            "2026-02-30 sent week 3",
            "students/jo.md:2: 2026-02-30 is no day\n    2026-02-30 sent week 3\n"
            "    ^ write the year, the month and the day, as in 2026-09-14",
        ),
        (
            "2026-09-14 snet week 3",
            "students/jo.md:2: 'snet' behind the day\n    2026-09-14 snet week 3\n"
            "    ^ write sent, or begin your own words with another one",
        ),
    ],
)
def test_a_slip_is_told_with_its_place_and_what_to_write(line, words):
    (problem,) = read_student("students/jo.md", f"name: Jo\n{line}\n").problems
    assert str(problem) == words


@given(WORDS)
def test_no_words_of_a_student_make_a_second_line_or_another_note(words):
    line = str(own_words(DAY, ASKED, words))
    assert len(line.splitlines()) == 1
    note = read_note(line)
    assert isinstance(note, Note)
    assert (note.day, note.verb) == (DAY, ASKED)


def test_what_is_noted_is_read_back():
    items = (Item("slow-singles", 60, 72, 5), Item("a-1", 20, 320, 1))
    first, link = sent(DAY, 3, items, "https://drums.example/practice/#AQ")
    assert read_note(str(first)) == first
    assert (first.verb, first.week, first.items) == (SENT, 3, items)
    assert read_note(str(link)) == link
    rows = (
        Row("slow-singles", 66, 63, 20, True, date(2026, 9, 20), "heard at 66, within 9 ms, right hand 5 dB louder"),
        Row("flam-tap", None, None, 5),
        Row("flat", 60, 60, 0, True),
    )
    note = heard(DAY, Report(3, 84, 14, rows))
    assert read_note(str(note)) == note
    assert (note.week, note.minutes) == (3, (84, 14))
    assert note.rows == (rows[0], rows[1], Row("flat", 60, None, 0, True))


def test_a_page_of_a_course_is_no_file_of_a_student():
    assert is_student_file(FILE)
    assert is_student_file(
        "name: Jo\n\n# Words of your own may stand anywhere. What is sent and heard comes below, a line each.\n"
    )
    with speaking(language("de")):
        assert is_student_file(f"name: Jo\n\n{say(HINT)}\n")
    assert is_student_file(f"name: Jo\n\n{language('de').words.gettext(HINT)}\n")
    assert not is_student_file("---\nweek: 3\ntitle: Doubles\n---\n\n2026-09-14 sent week 3\n")
    assert not is_student_file("name: Jo\n\nLetters that were sent on 2026-09-14.\n")
