"""What the fine print of the handbook decides, held against the reader and the strokes."""

from fractions import Fraction

import pytest

from wristwork.pattern import Pattern, PatternError, read_course, read_one
from wristwork.pattern.model import Drum, Level
from wristwork.pattern.write import lane_text
from wristwork.technique.strokes import strokes


def time_of(lines: str) -> str:
    return str(read_one(f"title: t\nid: abc\n{lines}").time)


@pytest.mark.parametrize(
    ("lines", "time"),
    {
        "a frame is no bar line": ("hands: | RL RL RL RL RL RL RL RL |", "4/4"),
        "bar lines tell the time": ("hands: RL RL | RL RL", "2/4"),
        "told from the lane with bar lines": ("hands: RL RL RL RL\nfeet: R L | R L", "2/4"),
        "otherwise from the hands": ("hands: RL RL RL\nfeet: R L R L R L", "3/4"),
    }.values(),
)
def test_the_time_signature(lines, time):
    assert time_of(lines) == time


@pytest.mark.parametrize(
    "lines",
    [
        "hands: RL RL || RL RL",
        "hands: -LRL RLRL",
        "hands: lBRL RLRL",
        "hands: R/----LRL RLRL",
        "hands: RL RL RL RL RL\ntime: 33/4",
        "hands: RLR over2 RL RL",
        "hands: " + "RLRL " * 260,
    ],
)
def test_what_is_an_error(lines):
    with pytest.raises(PatternError):
        read_one(f"title: t\nid: abc\n{lines}")


def grown(change: str, hands: str) -> Pattern | None:
    """What grows out of these hands by a change, or None where that is an error."""
    parent = f"```pattern\nid: one\ntitle: One\nhands: {hands}\n```"
    child = f"```pattern\nid: two\ntitle: Two\nfrom: one\nchange: {change}\n```"
    return read_course({"page.md": f"{parent}\n{child}"}).fences[1].pattern


@pytest.mark.parametrize(
    ("change", "hands", "result"),
    [
        ("other hand leads", "BRlRB> RLRL", "BLrLB> LRLR"),
        ("accent 1 3", "R>(L)(R)L> RLRL", "R>(L)R>L RLRL"),
        ("diddle the taps", "B.lRR> (R)RzR/3L", "B/.lR/R> (R)RzR/3L/"),
        ("flam the accents", "B>.R>lR> RLRL", "B>.lR>lR> RLRL"),
        ("start on 2", "R-LR LRLR", ".LRL RLRR"),
    ],
)
def test_changes(change, hands, result):
    assert lane_text(grown(change, hands).hands) == result


def test_putting_slots_together_anew():
    seven = "RL RL RL R"
    sixty_seven = "RLRL " * 15 + "RL RL R L R"
    assert grown("in sixteenths", seven).bars == 7
    assert grown("accents off", sixty_seven).bars == 5
    assert grown("in sixteenths", sixty_seven) is None


def test_turns_of_both_hands():
    text = "title: t\nid: abc\nhands: B>RB>L\ntime: 1/4\nplace: accents on high tom then floor tom"
    struck = [(stroke.at, stroke.on) for stroke in strokes(read_one(text)) if stroke.level is Level.ACCENT]
    half = Fraction(1, 2)
    assert struck == [(0, Drum.HIGH_TOM), (0, Drum.HIGH_TOM), (half, Drum.FLOOR_TOM), (half, Drum.FLOOR_TOM)]
