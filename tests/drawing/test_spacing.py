import re
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import pattern_texts
from wristwork.drawing import diagram
from wristwork.drawing.gutter import _in_two
from wristwork.drawing.layout import lay_out
from wristwork.drawing.score import read_score
from wristwork.drawing.spacing import HALF_A_LINE, WIDEST, Extent, SpacedRow, settle, space
from wristwork.pattern import read_one
from wristwork.pattern.model import DiagramRow, Drum
from wristwork.technique.strokes import Limb

ALL = frozenset(DiagramRow)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 200), st.floats(5, 30)), min_size=1, max_size=8))
def test_settled_texts_keep_their_order_and_their_distance(labels):
    wanted = sorted(place for place, _ in labels)
    widths = [width for _, width in labels]
    room = sum(widths) + 3 * len(widths) + 240
    places = settle(wanted, widths, 3, 1, room)
    edges = [(x - w / 2, x + w / 2) for x, w in zip(places, widths, strict=True)]
    assert edges[0][0] >= 1 - 1e-6
    assert edges[-1][1] <= room + 1e-6
    assert all(after[0] - before[1] >= 3 - 1e-6 for before, after in pairwise(edges))


def test_texts_that_have_room_stay_where_they_belong():
    assert settle([20, 60, 100], [10, 10, 10], 3, 1, 120) == [20, 60, 100]


def test_two_texts_that_meet_give_way_by_the_same():
    assert settle([50, 54], [20, 20], 4, 0, 200) == [40, 64]


def test_a_row_pushes_columns_apart_evenly():
    row = SpacedRow([Extent(0, 10, 10), Extent(0.25, 30, 30), Extent(0.5, 10, 10)], gap=4)
    spacing = space(1, 4, [row], [0, 0.25, 0.5, 0.75], 0, 0)
    assert spacing.x(0.25) - spacing.x(0) == pytest.approx(44)
    assert spacing.x(0.75) - spacing.x(0.5) == pytest.approx(44)


def test_equal_beats_are_equally_wide():
    layout = lay_out(read_score(read_one("title: Evenly\nhands: RLRL RLRL RLRL RLRL")), ALL)
    assert layout.cuts[1].spacing == layout.cuts[2].spacing


@pytest.mark.parametrize("slots", range(1, 13))
def test_any_beat_of_twelve_slots_or_less_fits_a_phone(slots):
    hands = " ".join(["R>" + "LR" * 6][0][: slots + 1] for _ in range(2))
    layout = lay_out(read_score(read_one(f"title: Fits\ntime: 2/4\nhands: {hands}")), ALL)
    assert all(cut.spacing.width <= WIDEST for cut in layout.cuts)


def test_a_beat_of_four_leaves_room_for_two_on_a_phone_and_four_on_a_desktop():
    layout = lay_out(read_score(read_one("title: Paradiddle\nhands: R>LRR L>RLL R>LRR L>RLL")), ALL)
    assert layout.cuts[0].spacing.width + layout.cuts[1].spacing.width + 44 < 390 - 32
    assert layout.offsets[-1] + 44 < 680


@settings(max_examples=60, deadline=None)
@given(pattern_texts())
def test_columns_grow_with_time_and_stay_inside(text):
    layout = lay_out(read_score(read_one(text)), ALL)
    for cut in layout.cuts:
        assert cut.spacing.pace > 0
        xs = [label.x for label in cut.count]
        assert xs == sorted(xs)
        assert all(0 < x < cut.spacing.width for x in xs)
        for chord in (*cut.hands, *cut.feet):
            assert 0 < cut.column(chord.chord) < cut.spacing.width


@settings(max_examples=60, deadline=None)
@given(pattern_texts())
def test_no_cut_is_wider_than_a_phone(text):
    layout = lay_out(read_score(read_one(text)), ALL)
    for cut in layout.cuts:
        if cut.cut.slots <= 12:
            assert cut.spacing.width <= WIDEST


def _drum_drifts(text: str) -> list[float]:
    """How far the name of each drum stands from its note, in pixels."""
    cuts = lay_out(read_score(read_one(text)), ALL).cuts
    return [
        placed.x - cut.spacing.x(placed.label.cut_beat) - placed.label.shift
        for cut in cuts
        for found in cut.drums.values()
        for placed in found
    ]


def test_a_beat_grows_so_that_the_name_of_a_drum_stands_under_its_note():
    drifts = _drum_drifts(
        "title: Down the toms\nhands: RL RL RL RL\n"
        "place: all on snare then snare then high tom then high tom then mid tom then mid tom then floor tom"
    )
    assert len(drifts) == 8
    assert all(abs(drift) <= 3.1 for drift in drifts)


def test_a_beat_does_not_grow_for_the_name_of_a_drum_past_half_a_line_of_a_phone():
    row = SpacedRow([Extent(0, 60, 60)], 0, free=True)
    bare = space(1, 4, [SpacedRow([], 0)], [0], 0, 0)
    grown = space(1, 4, [row], [0], 0, 0)
    assert (grown.pace, grown.width) == (bare.pace, HALF_A_LINE)


def test_names_are_full_in_the_whole_diagram_or_initials_in_the_whole_diagram():
    layout = lay_out(read_score(read_one("title: Dense\ntime: 2/4\nhands: R>LRL R>RLLRRLLRRLL")), ALL)
    words = {label.label.text for cut in layout.cuts for found in cut.names.values() for label in found}
    assert words <= set("FDTU")
    layout = lay_out(read_score(read_one("title: Not dense\ntime: 2/4\nhands: R>LRL RLRL")), ALL)
    words = {label.label.text for cut in layout.cuts for found in cut.names.values() for label in found}
    assert words == {"down", "tap", "up"}


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("right on hi-hat, left on snare", [("hi-hat", 0), ("snare", 0)]),
        ("all on snare", [("snare", 0), ("snare", 0)]),
    ],
)
def test_a_drum_is_named_where_a_hand_goes_to_it(place, told):
    layout = lay_out(read_score(read_one(f"title: Two bars\ntime: 2/4\nhands: RL RL RL RL\nplace: {place}")), ALL)
    found = [(label.label.text, cut.cut.start) for cut in layout.cuts for row in cut.drums.values() for label in row]
    assert found == told


def test_where_a_line_begins_the_drums_are_named_that_the_hands_go_on_with():
    text = "title: Two drums\nhands: RLRL R.R. RLRL RLRL\nplace: right on ride bell, left on snare, beat 4 on crash"
    drawn = diagram(read_one(text))
    told = [re.findall(r"<text[^>]*>([^<]*)</text>", gutter.split("ww-staying", 1)[-1]) for gutter in drawn.gutters]
    names = {"ride", "bell", "snare"}
    assert [names & {*found} for found in told] == [set(), names, names, set()]
    assert drawn.html().count("crash") == drawn.svg().count(">crash<") == 2


def test_a_drum_keeps_its_line_where_names_make_way_for_each_other():
    hands = "R>LRR L>RLL R>LRR L>RLL | R>LRR L>RLL R>LRR L>RLL"
    place = "left accents on floor tom, right accents on crash, taps on snare"
    layout = lay_out(read_score(read_one(f"title: Steady\nhands: {hands}\nplace: {place}")), ALL)
    lines = {(label.label.text, label.line) for cut in layout.cuts for label in cut.drums[Limb.LEFT_HAND]}
    assert lines == {("snare", 0), ("floor tom", 1)}


@settings(max_examples=60, deadline=None)
@given(pattern_texts())
def test_no_names_of_drums_meet(text):
    for cut in lay_out(read_score(read_one(text)), ALL).cuts:
        for labels in cut.drums.values():
            for one, other in combinations(labels, 2):
                apart = abs(one.x - other.x) - (one.label.width + other.label.width) / 2
                assert one.line != other.line or apart >= 0


def test_the_beats_of_a_long_note_stand_apart():
    (cut,) = lay_out(read_score(read_one("title: One long note\ntime: 4/4\nhands: R over 4")), ALL).cuts
    assert all(after.x - before.x >= 26 for before, after in pairwise(cut.count))


def test_the_name_of_a_drum_has_two_lines_at_most_at_the_start_of_a_line():
    lines = {drum: _in_two(drum) for drum in Drum}
    assert all(
        1 <= len(found) <= 2 and "".join(found).replace(" ", "") == drum.replace(" ", "")
        for drum, found in lines.items()
    )
    assert lines[Drum.HI_HAT] == ("hi-hat",)
    assert lines[Drum.HALF_OPEN_HI_HAT] == ("half-open", "hi-hat")
    assert lines[Drum.CROSS_STICK] == ("cross-", "stick")
