"""What needs a look, and what does not."""

from __future__ import annotations

from datetime import date

import pytest

from wristwork.languages.catalogues import language, messages
from wristwork.languages.say import speaking
from wristwork.people.looks import looks
from wristwork.people.months import Month, read_month
from wristwork.people.sending import next_week
from wristwork.people.student import read_student

DAY = date(2026, 11, 26)
SENT = "2026-11-20 sent week 3: slow-singles 60 to 72 for 5 minutes"


def seen(*lines, head="name: Jo\n", grade=None):
    student = read_student("students/jo.md", head + "\n" + "\n".join(lines))
    assert student.problems == ()
    return [f"{look.about}: {look.words}" for look in looks(student, DAY, lambda name, tempo: grade)]


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ((), []),
        ((SENT, "2026-11-25 asked Which hand begins?"), []),
        (("2026-11-25 asked My wrist hurts",), ["Hands: “hurts” on 25 November 2026: My wrist hurts"]),
        (("2026-11-25 told me of Tingling",), ["Hands: “Tingling” on 25 November 2026: told me of Tingling"]),
        (("2026-09-25 asked My wrist hurts",), []),
        (("2026-11-25 said a champagne teacher",), []),
        (
            ("2026-11-24 heard week 3: slow-singles clean at 66, heard at 66, within 9 ms, left hand 4 dB louder",),
            ["Hands: slow-singles: the left hand was 4 dB louder"],
        ),
        (("2026-11-24 heard week 3: slow-singles clean at 66, heard at 66, within 9 ms, left hand 3 dB louder",), []),
        (
            ("2026-11-10 heard week 3: slow-singles clean at 72", "2026-11-24 heard week 3: slow-singles clean at 66"),
            ["Tempo: slow-singles is clean at 66; it was at 72, heard on 10 November 2026"],
        ),
        (
            ("2026-11-10 heard week 3: slow-singles clean at 72", "2026-11-24 heard week 3: slow-singles clean at 72"),
            [],
        ),
        (
            ("2026-11-24 heard week 3: slow-singles clean at 72, last at 66",),
            ["Tempo: slow-singles is clean at 66; it was at 72 before"],
        ),
        (
            ("2026-11-10 heard week 2, 200 minutes in 14 days", "2026-11-24 heard week 3, 270 minutes in 14 days"),
            ["Load: 270 minutes in 14 days, after 200 in 14"],
        ),
        (("2026-11-10 heard week 2, 200 minutes in 14 days", "2026-11-24 heard week 3, 260 minutes in 14 days"), []),
        (("2026-11-10 heard week 2, 20 minutes in 14 days", "2026-11-24 heard week 3, 190 minutes in 14 days"), []),
        (("2026-11-05 sent week 2",), ["Quiet: nothing heard since week 2 was sent on 5 November 2026"]),
        (("2026-11-06 sent week 2",), []),
        (("2026-11-01 sent week 2", "2026-11-08 sent week 3", "2026-11-24 said (about flam-tap at 64)"), []),
        (("2026-11-01 sent week 2", "2026-11-08 sent week 3", "2026-11-24 asked Which hand begins?"), []),
        (
            ("2026-11-01 sent week 2", "2026-11-03 heard week 2"),
            ["Quiet: nothing sent since week 2 was sent on 1 November 2026"],
        ),
    ],
)
def test_what_is_seen(lines, words):
    assert seen(*lines) == words


def test_what_was_sent_above_the_level():
    words = "Grade: slow-singles at 72 is of grade 5, above the level 4; sent on 20 November 2026"
    assert seen(SENT, head="name: Jo\nlevel: 4\n", grade=5) == [words]
    assert seen(SENT, head="name: Jo\nlevel: 5\n", grade=5) == []
    assert seen(SENT, grade=5) == []


@pytest.mark.parametrize(
    ("lines", "week"),
    [
        ((), 1),
        (("2026-11-25 sent week 3",), 3),
        (("2026-11-21 sent week 3",), 4),
        (("2026-11-25 sent week 3", "2026-11-26 heard week 3"), 4),
        (("2026-11-25 sent week 3", "2026-11-20 heard week 2"), 3),
    ],
)
def test_the_week_that_comes_next(lines, week):
    assert next_week(read_student("students/jo.md", "name: Jo\n\n" + "\n".join(lines)), DAY) == week


def test_a_student_begins_in_the_week_that_their_file_says():
    assert next_week(read_student("students/jo.md", "week: 7\n"), DAY) == 7


def test_a_comma_too_many_in_a_tutors_own_signs_names_no_sign():
    text = next(message.id for message in messages() if str(message.id).startswith("pain*"))
    with speaking(language("en", [(text, "sting*, , ")])):
        assert seen("2026-11-25 asked Which hand begins?") == []
        assert seen("2026-11-25 asked It stings") == ["Hands: “stings” on 25 November 2026: It stings"]
        assert seen("2026-11-25 asked It hurts") == ["Hands: “hurts” on 25 November 2026: It hurts"]


@pytest.mark.parametrize(
    ("typed", "month"),
    [
        ("September", Month(2026, 9)),
        ("sep", Month(2026, 9)),
        ("november", Month(2026, 11)),
        ("December", Month(2025, 12)),
        ("September 2024", Month(2024, 9)),
        ("2026-09", Month(2026, 9)),
        ("2026-13", None),
        ("Ju", None),
        ("ma", None),
        ("Mai", None),
        ("", None),
    ],
)
def test_a_month_as_it_is_typed(typed, month):
    assert read_month(typed, DAY) == month
