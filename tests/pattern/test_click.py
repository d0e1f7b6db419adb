"""The practice click as it is typed."""

import pytest

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.pattern import read_one
from wristwork.pattern.click import parts_of_a_beat
from wristwork.pattern.clicks import Between, PracticeClick
from wristwork.pattern.course import read_course
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.problems import PatternError

HANDS = {"4/4": "RL RL RL RL", "3/4": "RL RL RL", "6/8": "RLRLRL RLRLRL"}


def click(text: str, time: str = "4/4") -> PracticeClick | None:
    return read_one(f"example: yes\ntime: {time}\nclick: {text}\nhands: {HANDS[time]}").click


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("every beat", PracticeClick()),
        ("2 and 4", PracticeClick((2, 4))),
        ("4, 2", PracticeClick((2, 4))),
        ("Beats 1 and 3", PracticeClick((1, 3))),
        ("beat 1", PracticeClick((1,))),
        ("off-beats", PracticeClick(off_beats=True)),
        ("off beats, swung eighths", PracticeClick(off_beats=True, between=Between.SWUNG)),
        ("triplets", PracticeClick(between=Between.TRIPLETS)),
        ("2 and 4, sixteenths, 2 bars on 1 off", PracticeClick((2, 4), False, Between.SIXTEENTHS, 2, 1)),
        ("1 bar on", PracticeClick(on=1, off=1)),
        ("4 bars on, 2 bars off", None),
    ],
)
def test_what_is_typed_is_what_clicks(text, found):
    if found is None:
        with pytest.raises(PatternError):
            click(text)
    else:
        assert click(text) == found


@pytest.mark.parametrize(
    ("text", "time", "told"),
    [
        ("2 an 4", "4/4", "did you mean 2 and 4?"),
        ("beat 4", "3/4", "the beats are 1 to 3"),
        ("0", "4/4", "beat 0 in bars of 4"),
        ("every beat, 2 and 4", "4/4", "say once on which beats the click sounds"),
        ("sixteenth", "4/4", "did you mean sixteenths?"),
        ("loud", "4/4", "write, say, every beat"),
        ("17 bars on 2 off", "4/4", "1 to 16 bars"),
        ("triplets", "6/8", "triplets between the beats of 6/8"),
    ],
)
def test_what_is_none_is_told_with_its_place_and_remedy(text, time, told):
    with pytest.raises(PatternError) as error:
        click(text, time)
    (problem,) = error.value.problems
    assert told in str(problem)
    assert problem.line == 3


def test_it_is_taken_over_where_it_fits():
    course = read_course(
        {
            "a.md": "```pattern\nid: one-one\ntitle: One\nclick: 2 and 4\nhands: RL RL RL RL\n```\n\n"
            "```pattern\nid: two-two\ntitle: Two\nfrom: one-one\nchange: other hand leads\n```\n\n"
            "```pattern\nid: three-three\ntitle: Three\nfrom: one-one\ntime: 3/4\nhands: RL RL RL\n```\n"
        }
    )
    patterns = {name: fence.pattern for name, fence in course.exercises.items()}
    assert patterns["two-two"].click == PracticeClick((2, 4))
    assert patterns["three-three"].click is None


@pytest.mark.parametrize(
    ("between", "time", "parts"),
    [
        (Between.NOTHING, TimeSignature(4, 4), 1),
        (Between.EIGHTHS, TimeSignature(4, 4), 2),
        (Between.EIGHTHS, TimeSignature(6, 8), 3),
        (Between.SIXTEENTHS, TimeSignature(6, 8), 6),
        (Between.TRIPLETS, TimeSignature(4, 4), 3),
        (Between.SIXTEENTHS, TimeSignature(7, 8, (2, 2, 3)), 2),
        (Between.EIGHTHS, TimeSignature(7, 8, (2, 2, 3)), 0),
    ],
)
def test_parts_of_a_beat(between, time, parts):
    assert parts_of_a_beat(between, time) == parts


def test_the_data_tells_it_to_the_player():
    pattern = read_one("id: one-one\ntitle: One\nclick: 2 and 4, swung eighths, 2 bars on 2 off\nhands: RL RL RL RL")
    told = exercise_data(pattern, Lesson(""))["click"]
    assert told == {"beats": [2, 4], "offBeats": False, "into": 2, "swung": True, "on": 2, "off": 2}
