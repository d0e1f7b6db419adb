"""What is drawn, told from the markup."""

import re
from collections import Counter
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.drawing.hard_cases import HARD_CASES
from tests.drawing.sheet import read_case
from tests.strategies import pattern_texts
from wristwork.drawing import diagram
from wristwork.drawing.glyphs import outline
from wristwork.drawing.svg import fraction
from wristwork.pattern import read_one
from wristwork.pattern.model import DiagramRow
from wristwork.technique.strokes import Limb, as_written

PARADIDDLE = "title: Accented paradiddle\nhands: R>LRR L>RLL R>LRR L>RLL"


def tree(markup: str) -> ElementTree.Element:
    return ElementTree.fromstring(markup)


def marked(root: ElementTree.Element, inside: str) -> Counter:
    """How often each stroke is marked inside the groups of a row."""
    found: Counter = Counter()
    for group in root.iter("g"):
        if inside in group.get("class", "").split():
            for element in group.iter():
                if "data-at" in element.attrib:
                    found[element.get("data-at"), element.get("data-limb"), element.get("data-stroke")] += 1
    return found


def played(pattern) -> list:
    return as_written(pattern)


def key(stroke) -> tuple:
    return fraction(stroke.at), str(stroke.limb), str(stroke.name) if stroke.name else None


@settings(max_examples=60, deadline=None)
@given(pattern_texts())
def test_every_stroke_is_marked_on_the_staff_and_every_stroke_of_a_hand_in_its_lane(text):
    pattern = read_one(text)
    root = tree(diagram(pattern).html())
    every = played(pattern)
    assert marked(root, "ww-row-notation") == Counter(key(stroke) for stroke in every)
    hands = Counter(key(stroke) for stroke in every if stroke.limb.is_hand)
    assert marked(root, "ww-row-heights") == hands
    assert marked(root, "ww-row-names") <= hands


def test_every_stroke_of_a_hand_has_its_name():
    pattern = read_one("title: Names\nhands: llR>LRR L>R/LL B(L)z R//")
    hands = Counter(key(stroke) for stroke in played(pattern))
    assert marked(tree(diagram(pattern).html()), "ww-row-names") == hands


@pytest.mark.parametrize("name", HARD_CASES)
def test_every_hard_case_marks_every_stroke(name):
    pattern = read_case(name)
    root = tree(diagram(pattern).html())
    assert marked(root, "ww-row-notation") == Counter(key(stroke) for stroke in played(pattern))


def test_each_beat_tells_when_it_is():
    beats = [svg for svg in tree(diagram(read_one(PARADIDDLE)).html()).iter("svg") if svg.get("class") == "ww-beat"]
    assert [(svg.get("data-from"), svg.get("data-to")) for svg in beats] == [
        ("0/1", "1/1"),
        ("1/1", "2/1"),
        ("2/1", "3/1"),
        ("3/1", "4/1"),
    ]


def test_a_cut_lies_only_where_both_lanes_begin_a_group():
    pattern = read_one("title: Over two\nhands: RLR over 2 R L\nfeet: R R RLRL over 2")
    beats = [svg for svg in tree(diagram(pattern).html()).iter("svg") if svg.get("class") == "ww-beat"]
    assert [(svg.get("data-from"), svg.get("data-to")) for svg in beats] == [("0/1", "2/1"), ("2/1", "4/1")]


def test_the_pace_of_a_beat_leads_from_stroke_to_stroke():
    beat = next(s for s in tree(diagram(read_one(PARADIDDLE)).html()).iter("svg") if s.get("class") == "ww-beat")
    start, pace = float(beat.get("data-ww-start")), float(beat.get("data-ww-pace"))
    letters = [text for text in beat.iter("text") if "data-at" in text.attrib and text.text in ("R", "L")]
    for index, letter in enumerate(letters):
        assert float(letter.get("x")) == pytest.approx(start + pace * index / 4, abs=0.1)


@pytest.mark.parametrize(
    "shown",
    [
        (DiagramRow.COUNT,),
        (DiagramRow.COUNT, DiagramRow.STICKING, DiagramRow.HEIGHTS),
        (DiagramRow.NAMES,),
        tuple(DiagramRow),
    ],
)
def test_only_the_rows_that_are_wanted_are_drawn_and_the_others_take_no_room(shown):
    whole, part = diagram(read_one(PARADIDDLE)), diagram(read_one(PARADIDDLE), shown)
    root = tree(part.html())
    classes = {name for group in root.iter("g") for name in group.get("class", "").split()}
    assert {f"ww-row-{row}" for row in shown} == {name for name in classes if name.startswith("ww-row-")}
    assert (part.bands.height < whole.bands.height) is (set(shown) != set(DiagramRow))


def test_a_pattern_says_itself_what_to_show():
    pattern = read_one(PARADIDDLE + "\nshow: count, sticking")
    assert "ww-row-heights" not in diagram(pattern, tuple(DiagramRow)).html()


HOSTILE = ["</svg><script>alert(1)</script>", "\"quotes' & <b>", "\u202eright to left", "\x07 bell \ufffe", "x" * 5000]


@pytest.mark.parametrize("title", HOSTILE)
def test_a_hostile_title_stays_text(title):
    pattern = read_one("example: yes\nhands: R>LRR L>RLL")
    pattern = type(pattern)(title, pattern.time, pattern.hands, pattern.feet)
    drawn = diagram(pattern)
    root = tree(drawn.svg())
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert root.find("{http://www.w3.org/2000/svg}title").text == title.replace("\x07", "\ufffd").replace(
        "\ufffe", "\ufffd"
    )
    assert not [element for element in tree(drawn.html()).iter() if element.tag == "script"]


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=80))
def test_any_title_makes_well_formed_files(title):
    pattern = read_one("example: yes\nhands: R L")
    tree(diagram(type(pattern)(title, pattern.time, pattern.hands, pattern.feet)).svg())


def test_the_file_stands_alone():
    svg = diagram(read_one(PARADIDDLE)).svg()
    root = tree(svg)
    assert "var(" not in svg
    assert "href" not in svg
    assert root.find("{http://www.w3.org/2000/svg}desc").text.startswith("4/4 time, 60 quarter notes a minute")


def test_the_file_breaks_lines_between_bars():
    pattern = read_one("title: Four bars\nhands: " + "RLRL " * 16)
    narrow, wide = (tree(diagram(pattern).svg(beats)) for beats in (4, 8))
    assert float(narrow.get("height")) > 1.7 * float(wide.get("height"))
    assert float(wide.get("width")) > 1.7 * float(narrow.get("width"))


def test_a_line_of_the_file_holds_a_bar_at_least():
    pattern = read_one("title: Seven\ntime: 7/8\nhands: " + "R " * 14)
    assert len(diagram(pattern)._lines(4)) == 2


def test_a_beat_of_four_sixteenths_is_small():
    drawn = diagram(read_one(PARADIDDLE))
    assert max(len(drawn._cell(number).encode()) for number in range(4)) < 6000


def test_drawing_twice_gives_the_same():
    assert diagram(read_one(PARADIDDLE)).html() == diagram(read_one(PARADIDDLE)).html()


@pytest.mark.parametrize(
    ("hands", "signs"), [("loop: yes", "repeat"), ("loop: no", "final"), ("loop: no\nrepeat: 3", "repeat")]
)
def test_the_end_says_whether_it_leads_back(hands, signs):
    drawn = diagram(read_one(f"title: The end\nhands: R L R L\n{hands}"))
    dots = drawn.cuts[-1].count("m-1.68 0c0-")  # an augmentation dot, here only of a repeat sign
    assert dots == (2 if signs == "repeat" else 0)
    assert ("×3" in drawn.cuts[-1]) is ("repeat: 3" in hands)


def test_sixty_four_bars_are_no_trouble():
    pattern = read_one("title: Long\nhands: " + "R>LRR lL>RLL R/LR(L) R--L ".replace("lL", "rL") * 64)
    assert len(diagram(pattern).cuts) == 256


def test_rests_of_the_feet_make_way_for_a_low_hand():
    def rests(place: str) -> float:
        kit = read_one(f"title: Rests\nplace: {place}\nhands: RL RL RL RL\nfeet: R . R .")
        return diagram(kit).layout.staff.rest_y(False)

    assert rests("right on floor tom, left on snare") > rests("right on hi-hat, left on floor tom")


def on_hat_and_snare(hands):
    lines = f"title: One buzzes\ntime: {len(hands.split())}/4\nhands: {hands}\nplace: right on hi-hat, left on snare"
    return diagram(read_one(lines))


def test_the_buzz_of_one_of_two_hands_is_told_beside_its_letter():
    cuts = on_hat_and_snare("R&Lz Bz Rz&L>").layout.cuts
    assert [label.label.text for cut in cuts for label in cut.sticking] == ["R", "Lz", "B", "Rz", "L"]


def test_the_z_of_the_farther_head_stands_between_the_heads():
    def z_of(hands):
        (y,) = re.findall(r"M\S+ (\S+?)" + re.escape(outline("buzzRoll")), on_hat_and_snare(hands).svg())
        return float(y)

    hat, snare = -20, -4
    assert hat < z_of("R&Lz") < snare
    assert z_of("Rz&L") == z_of("Bz") < hat


def test_of_two_heads_at_one_height_the_right_hands_is_the_first():
    cuts = diagram(
        read_one("title: One height\ntime: 1/4\nhands: R&L>\nplace: right on rim shot, left on snare")
    ).layout.cuts
    assert [[hit.stroke.limb for hit in head.hits] for cut in cuts for head in cut.hands[0].heads] == [
        [Limb.RIGHT_HAND],
        [Limb.LEFT_HAND],
    ]
