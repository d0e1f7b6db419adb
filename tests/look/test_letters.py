from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

from tests.look.blocks import blocks
from wristwork.look.letters import FAMILY, NoLetters, read_letters
from wristwork.site.frontend.assets import source


def test_letters_are_opened_under_the_name_that_they_have_here() -> None:
    letters = read_letters(blocks())
    opened = TTFont(BytesIO(letters.opened))
    assert (opened.flavor, opened["name"].getDebugName(1)) == (None, FAMILY)
    assert ord("A") in opened.getBestCmap()
    assert read_letters(blocks()).opened == letters.opened


def test_the_house_s_letters_can_be_read_too() -> None:
    house = source("tokens.css").parent / "fonts" / "manrope-extrabold.woff2"
    assert read_letters(house.read_bytes()).opened


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "it is no WOFF2 file"),
        (blocks(flavor=None), "it is no WOFF2 file"),
        (blocks()[:200], "its tables can't be read"),
        (b"wOF2" + bytes(100), "its tables can't be read"),
    ],
)
def test_what_is_no_font_is_told(content: bytes, why: str) -> None:
    with pytest.raises(NoLetters, match=why):
        read_letters(content)
