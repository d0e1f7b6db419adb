from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wristwork.pattern.model import Gap, Group, Lane, Note, Side, TimeSignature, events
from wristwork.pattern.values import (
    Piece,
    Ratio,
    group_value,
    group_values,
    is_one_value,
    rest_pieces,
    silences,
)
from wristwork.pattern.written import Slashes, note_pieces, slashes_for, unheld_slashes, written_notes

FOUR_FOUR = TimeSignature(4, 4)
SIX_EIGHT = TimeSignature(6, 8)


def lane(text: str) -> Lane:
    """Groups of R, R/ (a slash), - and . ; ``:2`` after a group stretches it over two beats."""
    groups = []
    for word in text.split():
        word, _, beats = word.partition(":")
        slots = []
        for letter in word:
            if letter == "/":
                slots[-1] = Note((Side.RIGHT,), strokes=2)
            else:
                slots.append({"R": Note((Side.RIGHT,)), "-": Gap.HOLD, ".": Gap.REST}[letter])
        groups.append(Group(tuple(slots), int(beats or 1)))
    return Lane(tuple(groups))


def written(text: str, time: TimeSignature = FOUR_FOUR) -> list[list[F]]:
    """The values each note of a lane is written with."""
    read = lane(text)
    groups = group_values(read, time)
    return [[piece.value for piece in note_pieces(event, groups, time)] for event in events(read) if event.what]


@pytest.mark.parametrize(
    ("slots", "value", "ratio"),
    [
        (1, F(1, 4), None),
        (2, F(1, 8), None),
        (3, F(1, 8), Ratio(3, 2)),
        (4, F(1, 16), None),
        (5, F(1, 16), Ratio(5, 4)),
        (6, F(1, 16), Ratio(6, 4)),
        (7, F(1, 16), Ratio(7, 4)),
        (8, F(1, 32), None),
        (9, F(1, 32), Ratio(9, 8)),
        (10, F(1, 32), Ratio(10, 8)),
        (11, F(1, 32), Ratio(11, 8)),
        (12, F(1, 32), Ratio(12, 8)),
    ],
)
@pytest.mark.parametrize("lower", [2, 4, 8, 16])
def test_a_simple_beat_holds_its_values_and_the_other_beats_hold_the_same_ones_shifted(slots, value, ratio, lower):
    assert group_value(slots, F(1, lower), 1) == (value * 4 / lower, ratio)


@pytest.mark.parametrize(
    ("slots", "value", "ratio"),
    [
        (1, F(3, 8), None),
        (2, F(1, 8), Ratio(2, 3)),
        (3, F(1, 8), None),
        (4, F(1, 8), Ratio(4, 3)),
        (5, F(1, 8), Ratio(5, 3)),
        (6, F(1, 16), None),
        (7, F(1, 16), Ratio(7, 6)),
        (11, F(1, 16), Ratio(11, 6)),
        (12, F(1, 32), None),
    ],
)
@pytest.mark.parametrize("lower", [8, 16])
def test_a_dotted_beat(slots, value, ratio, lower):
    assert group_value(slots, F(3, lower), 1) == (value * 8 / lower, ratio)


@pytest.mark.parametrize(
    ("slots", "beats", "beat", "expected"),
    [
        (3, 2, F(1, 4), (F(1, 4), Ratio(3, 2))),
        (2, 2, F(1, 4), (F(1, 4), None)),
        (1, 3, F(1, 4), (F(3, 4), None)),
        (2, 3, F(1, 4), (F(1, 4), Ratio(2, 3))),
        (4, 3, F(1, 4), (F(1, 4), Ratio(4, 3))),
        (1, 4, F(1, 4), (F(1), None)),
        (1, 4, F(1, 2), (F(2), None)),
        (3, 4, F(1, 4), (F(1, 2), Ratio(3, 2))),
        (2, 2, F(3, 8), (F(3, 8), None)),
        (3, 2, F(3, 8), (F(1, 4), None)),
        (3, 3, F(3, 8), (F(3, 8), None)),
        (5, 3, F(3, 8), (F(3, 8), Ratio(5, 3))),
        (9, 3, F(3, 8), (F(1, 8), None)),
        (4, 4, F(3, 8), (F(3, 8), None)),
    ],
)
def test_a_group_over_several_beats(slots, beats, beat, expected):
    assert group_value(slots, beat * beats, beats) == expected


@pytest.mark.parametrize(
    ("group", "slots", "ratio"),
    [
        ("R-R-R-", 3, Ratio(3, 2)),
        ("R-----", 1, None),
        ("......", 1, None),
        ("R--R--", 2, None),
        ("R-RRR-", 6, Ratio(6, 4)),
        ("R.R.R.", 6, Ratio(6, 4)),
        ("R--R--R--", 3, Ratio(3, 2)),
        ("R-R-R-R-R-", 5, Ratio(5, 4)),
    ],
)
def test_a_group_is_written_on_the_coarsest_grid_that_holds_it(group, slots, ratio):
    (found,) = group_values(lane(group), FOUR_FOUR)
    assert (found.slots, found.ratio) == (slots, ratio)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("R-RR", [[F(1, 8)], [F(1, 16)], [F(1, 16)]]),
        ("R--R", [[F(3, 16)], [F(1, 16)]]),
        ("R R- -R R R", [[F(1, 4)], [F(1, 4), F(1, 8)], [F(1, 8)], [F(1, 4)], [F(1, 4)]]),
        ("R- -R R R", [[F(3, 8)], [F(1, 8)], [F(1, 4)], [F(1, 4)]]),
        ("R---- --- R R", [[F(1, 2)], [F(1, 4)], [F(1, 4)]]),
        ("RR -R R R", [[F(1, 8)], [F(1, 8), F(1, 8)], [F(1, 8)], [F(1, 4)], [F(1, 4)]]),
        ("RR-R:2 R R", [[F(1, 8)], [F(1, 8), F(1, 8)], [F(1, 8)], [F(1, 4)], [F(1, 4)]]),
        ("R R - R", [[F(1, 4)], [F(1, 4), F(1, 4)], [F(1, 4)]]),
        ("R - - R", [[F(3, 4)], [F(1, 4)]]),
        ("R---R--- R R", [[F(1, 8)], [F(1, 8)], [F(1, 4)], [F(1, 4)]]),
        ("R----RRR", [[F(1, 8), F(1, 32)], [F(1, 32)], [F(1, 32)], [F(1, 32)]]),
        ("R R R R -RR R R R", [[F(1, 4)]] * 3 + [[F(1, 4), F(1, 8)]] + [[F(1, 8)]] * 2 + [[F(1, 4)]] * 3),
        ("R - -R R", [[F(1, 2), F(1, 8)], [F(1, 8)], [F(1, 4)]]),
        ("RR - - -", [[F(1, 8)], [F(1, 8), F(1, 4), F(1, 2)]]),
        ("R R R R - R R R", [[F(1, 4)]] * 3 + [[F(1, 4), F(1, 4)]] + [[F(1, 4)]] * 3),
    ],
)
def test_the_values_notes_are_written_with(text, values):
    assert written(text) == values


@pytest.mark.parametrize(
    ("text", "time", "values"),
    [
        ("RRR:2", SIX_EIGHT, [[F(1, 4)], [F(1, 8), F(1, 8)], [F(1, 4)]]),
        ("R-R --R", SIX_EIGHT, [[F(1, 4)], [F(1, 8), F(1, 4)], [F(1, 8)]]),
        ("R - R", TimeSignature(3, 4), [[F(1, 2)], [F(1, 4)]]),
        ("R R -", TimeSignature(3, 4), [[F(1, 4)], [F(1, 2)]]),
        ("R R R R - R", TimeSignature(6, 4), [[F(1, 4)]] * 3 + [[F(1, 2)]] + [[F(1, 4)]]),
        ("R R R - R R", TimeSignature(6, 4), [[F(1, 4)]] * 2 + [[F(1, 4), F(1, 4)]] + [[F(1, 4)]] * 2),
    ],
)
def test_no_value_hides_a_beat_or_the_middle_of_the_bar(text, time, values):
    assert written(text, time) == values


@pytest.mark.parametrize(
    ("value", "strokes", "slashes"),
    [
        (F(1, 4), 2, Slashes(1)),
        (F(1, 4), 4, Slashes(2)),
        (F(1, 8), 2, Slashes(1)),
        (F(1, 16), 4, Slashes(2)),
        (F(1, 2), 2, None),
        (F(1, 2), 4, Slashes(1)),
        (F(1), 4, None),
        (F(1), 2, None),
        (F(3, 8), 2, None),
        (F(3, 8), 3, Slashes(1)),
        (F(3, 16), 3, Slashes(1)),
        (F(3, 16), 4, None),
        (F(1, 4), 3, Slashes(1, three=True)),
        (F(1, 16), 3, Slashes(1, three=True)),
        (F(1, 2), 3, None),
        (F(3, 4), 3, None),
    ],
)
def test_slashes_are_those_by_which_a_reader_plays_what_we_play(value, strokes, slashes):
    assert slashes_for(value, strokes) == slashes


@pytest.mark.parametrize(
    ("text", "time", "notes"),
    [
        ("R/-RR", FOUR_FOUR, [([F(1, 8)], 1)]),
        ("R/ - R R", FOUR_FOUR, [([F(1, 4)], 0), ([F(1, 4)], 0)]),
        ("R/--R", FOUR_FOUR, [([F(3, 32)], 0), ([F(3, 32)], 0)]),
        ("RR/ -R R R", FOUR_FOUR, [([F(1, 8)], 0), ([F(1, 8)], 0)]),
        ("R/--", SIX_EIGHT, [([F(3, 16)], 0), ([F(3, 16)], 0)]),
        ("R/ R", TimeSignature(2, 2), [([F(1, 4)], 0), ([F(1, 4)], 0)]),
        ("R R/ - -", FOUR_FOUR, [([F(1, 4), F(1, 8)], 0), ([F(1, 8), F(1, 4)], 0)]),
        ("R/-R:2 R R", FOUR_FOUR, [([F(1, 4)], 0), ([F(1, 4)], 0)]),
    ],
)
def test_where_slashes_would_mislead_the_strokes_are_written_out(text, time, notes):
    read = lane(text)
    groups = group_values(read, time)
    event = next(event for event in events(read) if event.what and event.what.strokes > 1)
    found = written_notes(event, groups, time)
    assert [([piece.value for piece in note.pieces], note.slashes.count) for note in found] == notes


@pytest.mark.parametrize(
    ("value", "halvings", "dotted"),
    [
        (F(2), -1, False),
        (F(3, 2), 0, True),
        (F(1), 0, False),
        (F(3, 8), 2, True),
        (F(1, 4), 2, False),
        (F(1, 128), 7, False),
    ],
)
def test_a_value_knows_its_note_head(value, halvings, dotted):
    piece = Piece(F(0), F(1), value, 0)
    assert (piece.halvings, piece.dotted) == (halvings, dotted)


def test_a_note_held_for_many_bars_is_cut_at_every_bar_line_without_delay():
    values = written("R" + " -" * 255)
    assert values == [[F(1)] * 64]


def test_a_note_over_three_dotted_beats_is_tied_since_no_value_holds_it():
    assert written("R:3", TimeSignature(9, 8)) == [[F(3, 4), F(3, 8)]]


@pytest.mark.parametrize(
    ("text", "time", "held"),
    [
        ("R/", FOUR_FOUR, True),
        ("R/-RR", FOUR_FOUR, True),
        ("R/----RRR", FOUR_FOUR, False),
        ("R/----", FOUR_FOUR, True),
        ("R/ R R R/ - R R R", FOUR_FOUR, False),
        ("R R/ - R", FOUR_FOUR, True),
        ("RRR/ -- R R", FOUR_FOUR, False),
        ("R/----- R-----", SIX_EIGHT, True),
        ("R/----R RRR", SIX_EIGHT, False),
        ("R/:4", TimeSignature(4, 2), True),
        ("R/:3", TimeSignature(9, 8), False),
        ("R/ -R R R", FOUR_FOUR, True),
    ],
)
def test_a_slash_needs_one_value_that_holds_the_note(text, time, held):
    assert (unheld_slashes(lane(text), time) == ()) is held


@pytest.mark.parametrize(
    ("text", "time", "values"),
    [
        (".", FOUR_FOUR, [F(1, 4)]),
        ("....", FOUR_FOUR, [F(1, 4)]),
        ("R...", FOUR_FOUR, [F(1, 16), F(1, 8)]),
        ("...R", FOUR_FOUR, [F(1, 8), F(1, 16)]),
        ("R..R", FOUR_FOUR, [F(1, 16), F(1, 16)]),
        ("..RR", FOUR_FOUR, [F(1, 8)]),
        (".......R", FOUR_FOUR, [F(1, 8), F(3, 32)]),
        ("R..", FOUR_FOUR, [F(1, 4)]),
        (".-- .. R R", FOUR_FOUR, [F(1, 4), F(1, 4)]),
        (".:4", FOUR_FOUR, [F(1)]),
        ("R...:2", FOUR_FOUR, [F(1, 8), F(1, 4)]),
        ("...", SIX_EIGHT, [F(3, 8)]),
        ("R..", SIX_EIGHT, [F(1, 8), F(1, 8)]),
        ("..R", SIX_EIGHT, [F(1, 4)]),
        ("R.....", SIX_EIGHT, [F(1, 16), F(1, 8), F(1, 8)]),
        (".....R", SIX_EIGHT, [F(1, 4), F(1, 16)]),
        ("R....R", SIX_EIGHT, [F(1, 16), F(1, 8), F(1, 16)]),
        (".:3", TimeSignature(9, 8), [F(3, 4), F(3, 8)]),
    ],
)
def test_rests_are_the_fewest_that_hide_no_middle_of_a_beat(text, time, values):
    read = lane(text)
    groups = group_values(read, time)
    (silence,) = silences(events(read))
    assert [piece.value for piece in rest_pieces(silence, groups)] == values


_slots = st.lists(st.sampled_from("R-."), min_size=1, max_size=12).map("".join)
_times = st.builds(TimeSignature, st.integers(1, 12), st.sampled_from([2, 4, 8, 16]))


@settings(max_examples=100, deadline=None)
@given(st.lists(_slots, min_size=4, max_size=8), _times)
def test_written_pieces_fill_each_note_exactly(words, time):
    read = lane(" ".join(words))
    read_events = events(read)
    groups = group_values(read, time)
    for event in read_events:
        if event.what:
            pieces = note_pieces(event, groups, time)
            assert_fills(pieces, event.at, event.end)
            assert all(piece.end <= (piece.at // time.beats + 1) * time.beats for piece in pieces)
    for silence in silences(read_events):
        assert_fills(tuple(rest_pieces(silence, groups)), silence.start, silence.end)


def assert_fills(pieces, start, end):
    assert (pieces[0].at, pieces[-1].end) == (start, end)
    assert all(a.end == b.at for a, b in pairwise(pieces))
    assert all(is_one_value(piece.value) for piece in pieces)
