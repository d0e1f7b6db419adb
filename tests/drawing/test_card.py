"""The link-preview card: always one picture of one size, whatever stands on it."""

import re
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from wristwork.drawing.card import HEIGHT, WIDTH, Card, CardPress, reads_right_to_left, sticking_runs
from wristwork.drawing.card_diagram import ROOM, card_diagram
from wristwork.pattern import read_one
from wristwork.pattern.model import DiagramRow

PATTERN = "title: Any\nhands: R>LRR L>RLL R>LRR L>RLL"
WATER, PAPER = (13, 79, 92), (251, 250, 246)


@pytest.fixture(scope="module")
def press() -> CardPress:
    return CardPress()


def card(title: str = "Accented paradiddle", hands: str = PATTERN) -> Card:
    svg = card_diagram(read_one(hands)).svg
    return Card(title, "Week 3", "R>LRR L>RLL", "60 to 100 beats a minute", "Larkspur Drum Loft", svg)


def picture(png: bytes) -> Image.Image:
    return Image.open(BytesIO(png)).convert("RGB")


def rows_with_ink(image: Image.Image, top: int, bottom: int) -> list[int]:
    """The rows between two heights that hold something dark."""
    part = image.crop((0, top, WIDTH, bottom)).convert("L")
    return [row for row in range(part.height) if part.crop((0, row, WIDTH, row + 1)).getextrema()[0] < 90]


def test_a_card_is_a_picture_of_the_usual_size_in_our_colours(press: CardPress) -> None:
    image = picture(press.png(card()))
    assert image.size == (WIDTH, HEIGHT)
    assert image.getpixel((5, 5)) == WATER
    assert image.getpixel((5, HEIGHT - 5)) == WATER
    assert image.getpixel((5, 40)) == PAPER


def test_the_same_card_is_the_same_picture(press: CardPress) -> None:
    assert press.png(card()) == CardPress().png(card())


@pytest.mark.parametrize(
    "title",
    [
        "#panic(1) $x$ *b* `c` [d] <e> @f \\ // /* https://g.example",
        "x" * 3000,
        "many words " * 300,
        "שלום, פרדידל",
        "مرحبا بالعالم",
        "漢字のタイトル",
        "\ud800 alone",
        "\u2028\u202e\x00\x07",
        "",
    ],
    ids=[
        "markup",
        "one word",
        "many words",
        "Hebrew",
        "Arabic",
        "no such glyphs",
        "a lone half",
        "controls",
        "nothing",
    ],
)
def test_any_title_makes_a_card_whose_parts_keep_their_places(press: CardPress, title: str) -> None:
    image = picture(press.png(card(title)))
    assert image.size == (WIDTH, HEIGHT)
    assert image.getpixel((5, HEIGHT - 5)) == WATER
    # However long a title is, the diagram below it has its room.
    assert len(rows_with_ink(image, 260, 560)) > 100


@pytest.mark.parametrize("title", ["Accented paradiddle", "שלום, פרדידל", "مرحبا بالعالم"])
def test_a_title_is_seen(press: CardPress, title: str) -> None:
    empty, full = (len(rows_with_ink(picture(press.png(card(each))), 80, 180)) for each in ("", title))
    assert full > empty + 20


def test_a_long_pattern_can_still_be_read(press: CardPress) -> None:
    hands = "title: Long\nhands: " + "R>LRR L>RLL R>LRR L>RLL " * 16
    assert len(rows_with_ink(picture(press.png(card(hands=hands))), 260, 560)) > 100


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=80))
def test_no_text_breaks_the_press(press: CardPress, text: str) -> None:
    assert picture(press.png(card(text))).size == (WIDTH, HEIGHT)


@pytest.mark.parametrize(
    ("text", "expected"),
    [("abc", False), ("שלום", True), ("1. مرحبا", True), ("abc שלום", False), ("123", False), ("", False)],
)
def test_reads_right_to_left(text: str, expected: bool) -> None:
    assert reads_right_to_left(text) is expected


@pytest.mark.parametrize(
    ("group", "runs"),
    [
        ("R>LRR", [("R>", "accent"), ("L", "plain"), ("R", "plain"), ("R", "plain")]),
        ("lR>", [("L", "grace"), ("R>", "accent")]),
        ("R--", [("R", "plain"), ("-", "held"), ("-", "held")]),
        ("(rL)", [("(", "plain"), ("R", "grace"), ("L", "plain"), (")", "plain")]),
        ("R>/L/3", [("R>/", "accent"), ("L/3", "plain")]),
        ("R^LRz", [("R^", "accent"), ("L", "plain"), ("Rz", "plain")]),
        ("over", [("over", "plain")]),
        ("<&", [("<", "plain"), ("&", "plain")]),
    ],
)
def test_each_stroke_of_a_sticking_is_set_by_itself(group, runs):
    assert sticking_runs(group) == runs


BAR = "R>LRR L>RLL R>LRR L>RLL "


@pytest.mark.parametrize(
    ("hands", "bars"),
    [
        (BAR, 1),
        (BAR * 2, 1),
        ("RL " * 16, 2),
        ("R L R L " * 4, 2),
        ("RLRLRLRLRLRL " * 16, 1),  # as large as the card is wide
    ],
)
def test_a_card_shows_as_many_whole_bars_as_can_be_read(hands, bars):
    pattern = read_one(f"title: On a card\nhands: {hands}")
    drawn = card_diagram(pattern)
    assert drawn.bars == bars
    width, height = (float(part) for part in re.search(r'viewBox="0 0 (\S+) (\S+)"', drawn.svg).groups())
    assert min(ROOM[0] / width, ROOM[1] / height) > 1


def test_a_card_shows_of_the_rows_that_are_wanted_those_it_has_room_for():
    pattern = read_one(f"title: On a card\nhands: {BAR}")
    svg = card_diagram(pattern, (DiagramRow.COUNT, DiagramRow.STICKING, DiagramRow.HEIGHTS)).svg
    assert "ww-row-sticking" in svg
    assert "ww-row-heights" in svg
    assert '<g class="ww-row-count"' not in svg
    assert '<g class="ww-row-notation"' not in svg


def test_no_end_of_a_diagram_is_cut(press: CardPress) -> None:
    """The white field has no ink at its edges: all of the diagram is inside."""
    for hands in (BAR, BAR * 8, "RLRLRLRLRLRL " * 8):
        pattern = read_one(f"title: On a card\nhands: {hands}")
        image = picture(press.png(Card("A title", "Week 3", BAR, "60", "Larkspur", card_diagram(pattern).svg)))
        for left, right in ((0, 30), (WIDTH - 30, WIDTH)):
            assert image.crop((left, 230, right, 570)).convert("L").getextrema()[0] > 240
        white = image.crop((30, HEIGHT - 60, WIDTH - 30, HEIGHT - 52)).convert("L")
        assert white.getextrema()[0] > 240
