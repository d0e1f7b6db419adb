"""``wristwork try``: the picture in the terminal, line by line."""

from __future__ import annotations

import pytest

from tests.cli.conftest import run
from wristwork.cli.lanes import picture
from wristwork.cli.paint import Paint
from wristwork.pattern import read_one

PARADIDDLE = """\
count      1    e    &    a    2    e    &    a
sticks     R>   L    R    R    L>   R    L    L

right     ─╮                         ╭────────────  high
           │╭────────╮╭───╮╭────────╮│              low
           ╰╯        ╰╯   ╰╯        ╰╯
          down      tap  tap       up

left             ╭─────────────╮                    high
          ──────╮│             │╭────────╮╭───╮╭──  low
                ╰╯             ╰╯        ╰╯   ╰╯
               up             down      tap  tap

At 60 beats a minute: demand 28 of 100, grade 3.
  right hand 2.0 strokes and 1.5 motions a second, 0.75 s for the quickest lift, 0.50 s for the quickest stop
  left hand  2.0 strokes and 1.5 motions a second, 0.75 s for the quickest lift, 0.50 s for the quickest stop
"""


def drawn(text, width=100):
    class Plain:
        encoding = "utf-8"

        def isatty(self):
            return False

    return list(picture(read_one(f"example: yes\n{text}"), Paint.on(Plain()), width))


def named(lines, label):
    return next(line for line in lines if line.startswith(label))


def test_the_accented_paradiddle():
    done = run("try", "R>LRR L>RLL")
    assert (done.code, done.err) == (0, "")
    assert done.out == PARADIDDLE


def test_grace_notes_stand_before_their_main_note():
    lines = drawn("hands: lR>LR rL>RL")
    assert named(lines, "sticks") == "sticks     l   R>   L    R    r   L>   R    L"
    assert named(lines, "count") == "count          1    trip let      2    trip let"


def test_two_grace_notes():
    assert named(drawn("hands: llR rrL"), "sticks") == "sticks     l   l   R    r   r   L"


def test_a_double_in_one_slot_is_two_strokes():
    lines = drawn("hands: R/L/")
    assert named(lines, "sticks") == "sticks     R    R    L    L"
    assert named(lines, "count") == "count      1         &"


def test_ghosts_buzzes_both_hands_and_rests():
    lines = drawn("hands: (R)LzB.")
    assert named(lines, "sticks") == "sticks    (R)   Lz   B    ."


def test_feet_stand_below():
    lines = drawn("hands: RL RL\nfeet: R .L")
    assert named(lines, "feet") == "feet       R              L"


def test_feet_alone():
    lines = drawn("feet: R L")
    assert named(lines, "feet") == "feet       R    L"
    assert not any(line.startswith("right") for line in lines)


def test_a_hand_that_does_not_play_has_no_lane():
    lines = drawn("hands: R R R R")
    assert not any(line.startswith("left") for line in lines)


def test_the_last_stroke_leads_nowhere_when_it_is_played_once():
    done = run("try", "R>LRL", "--once", "--time", "1/4")
    assert "down      tap\n" in done.out
    assert "lift" not in done.out


def test_a_long_pattern_is_cut_before_a_beat():
    lines = drawn("hands: RLRL RLRL RLRL RLRL", width=60)
    counts = [line.split()[1:] for line in lines if line.startswith("count")]
    assert counts == [["1", "e", "&", "a", "2", "e", "&", "a"], ["3", "e", "&", "a", "4", "e", "&", "a"]]
    assert max(map(len, lines)) <= 60


def test_a_grace_note_goes_to_the_row_of_its_beat():
    lines = drawn("hands: RLRL lRLRL RLRL RLRL", width=40)
    sticks = [line for line in lines if line.startswith("sticks")]
    assert sticks[1].split()[1] == "l"


@pytest.mark.parametrize("width", [1, 20, 33])
def test_a_narrow_terminal_loses_no_stroke(width):
    lines = drawn("hands: RLRLRLRLRLRL RLRL", width=width)
    letters = "".join("".join(line.split()[1:]) for line in lines if line.startswith("sticks"))
    assert letters == "RLRLRLRLRLRL" + "RLRL"


def test_lanes_join_across_a_cut():
    """Where a row ends high the next one begins high."""
    lines = drawn("hands: RLRL RL>RL RLRL R>LRL", width=40)
    highs = [line[:-4].rstrip() for line in lines if line.endswith("high") and line.startswith("right")]
    assert highs[2].endswith("─")
    assert highs[3].removeprefix("right").lstrip().startswith("─")


def test_several_arguments_are_one_sticking():
    assert run("try", "RLRL", "LRLR").out == run("try", "RLRL LRLR").out


def test_an_error_shows_the_place_and_the_remedy():
    done = run("try", "R>LRR >RLL")
    assert (done.code, done.out) == (1, "")
    assert done.err.splitlines() == [
        "wristwork: an accent mark with no stroke before it",
        "    hands: R>LRR >RLL",
        "                 ^ put the letter first: R> or L>",
    ]


def test_all_errors_are_told():
    done = run("try", "RQ", "--place", "right on moon")
    assert done.err.count("wristwork: ") == 2


def test_other_lines_of_a_pattern():
    done = run("try", "RLR LRL", "--time", "6/8", "--tempo", "80", "--feet", "R R", "--place", "all on snare")
    assert done.code == 0
    assert "1    la   li" in done.out
    assert "At 80 beats a minute" in done.out


def test_a_form_and_what_stands_over_the_notes_are_told_in_words():
    done = run(
        "try", "R L | R{LRL} R L R | %", "--time", "4/4", "--pick-up", "2", "--repeats", "bar 1", "--feel", "swing",
        "--tempos", "90 at bar 2", "--dynamics", "p at bar 1", "--text", "soft at bar 1", "--sections", "A at bar 1",
    )  # fmt: skip
    assert (done.code, done.err) == (0, "")
    assert named(done.out.splitlines(), "count").split() == [
        "count",
        "3",
        "4",
        "1",
        "&",
        "ta",
        "la",
        "2",
        "3",
        "4",
        "1",
        "&",
        "ta",
        "la",
        "2",
        "3",
        "4",
    ]
    told = named(done.out.splitlines(), "4/4 time")
    assert "a pick-up of 2 beats; bar 1 twice. Tempos: 90 from bar 2. Sections: A from bar 1." in told
    assert "eighth notes swing" in told


def test_a_form_that_makes_no_sense_is_told_with_its_remedy():
    done = run("try", "R L R L | R L R L", "--repeats", "bars 1 to 3")
    assert done.code == 1
    assert "a repeat that goes up to bar 3, where the pattern has 2 bars" in done.err
    assert "name bars from 1 to 2" in done.err
