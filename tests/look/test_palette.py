"""Every palette that a course can have can be read: the house's, the finished looks, and what two colours make."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.look.finished import LOOKS, finished_look
from wristwork.look.palette import ON_PAPER, ON_WATER, WHITE, Palette, dyed, weak_pairs
from wristwork.look.shades import contrast
from wristwork.site.frontend import colours

COLOURS = st.integers(0, 0xFFFFFF).map("#{:06x}".format) | st.sampled_from(["#000000", "#ffffff", "#ffff00", "#808080"])
PALETTES = {"house": colours.house(), **{name: finished_look(name) for name in LOOKS}}


@pytest.mark.parametrize("name", PALETTES)
def test_every_pair_of_a_finished_look_holds(name: str) -> None:
    assert list(weak_pairs(PALETTES[name])) == []


@pytest.mark.parametrize("name", LOOKS)
def test_a_finished_look_has_every_colour_of_the_house_and_is_another(name: str) -> None:
    look, house = PALETTES[name], PALETTES["house"]
    assert (look.light.keys(), look.dark.keys()) == (house.light.keys(), house.dark.keys())
    others = [other for other in PALETTES.values() if other is not look]
    assert look.light["deep"] not in {other.light["deep"] for other in others}


def test_a_pair_that_is_too_weak_is_found() -> None:
    house = PALETTES["house"]
    pale = Palette({**house.light, "quiet": "#aaaaaa"}, house.dark)
    assert {(scheme, pair.colour) for scheme, pair, _ in weak_pairs(pale)} == {("light", "quiet")}
    glaring = Palette(house.light, {**house.dark, "paper": "#777777"})
    assert {scheme for scheme, _, _ in weak_pairs(glaring)} == {"dark"}


def test_all_that_a_palette_holds_is_held_against_something() -> None:
    grounds = {pair.ground for pair in (*ON_PAPER, *ON_WATER)}
    # An edge and the brass line only adorn.
    assert {pair.colour for pair in (*ON_PAPER, *ON_WATER)} | grounds == {
        *PALETTES["house"].light.keys() - {"edge", "brass"},
        "white",
    }


@given(COLOURS, COLOURS)
def test_whatever_colours_a_tutor_has_every_pair_holds(main: str, second: str) -> None:
    made = dyed(PALETTES["house"], main, second)
    assert list(weak_pairs(made)) == []
    assert made.light.keys() == PALETTES["house"].light.keys()


@given(COLOURS, COLOURS)
def test_a_colour_that_can_be_read_is_taken_as_it_is(main: str, second: str) -> None:
    made = dyed(PALETTES["house"], main, second)
    assert (made.light["deep"] == main) == (contrast(main, WHITE) >= 4.5)


def test_a_warning_is_red_in_every_look() -> None:
    assert dyed(PALETTES["house"], "#00ff00", "#00ff00").light["danger"] == PALETTES["house"].light["danger"]
