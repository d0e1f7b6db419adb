import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.look.shades import contrast, nearest_shade, read_colour, see, show

COLOURS = st.integers(0, 0xFFFFFF).map("#{:06x}".format)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("#7A2E1D", "#7a2e1d"),
        ("7a2e1d", "#7a2e1d"),
        (" #fc0 ", "#ffcc00"),
        ("teal", None),
        ("#12345", None),
        ("#ggg", None),
        ("", None),
    ],
)
def test_a_colour_is_read_as_it_is_typed(typed: str, read: str | None) -> None:
    assert read_colour(typed) == read


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [("#000000", "#ffffff", 21.0), ("#777777", "#ffffff", 4.48), ("#0000ff", "#ffffff", 8.59)],
)
def test_contrast_is_that_of_the_standard(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == contrast(other, one) == pytest.approx(ratio, abs=0.01)


@given(COLOURS)
def test_what_eyes_see_is_shown_again(colour: str) -> None:
    assert show(see(colour)) == colour


@given(COLOURS)
def test_the_nearest_shade_holds_and_keeps_its_hue(colour: str) -> None:
    shade = nearest_shade(colour, lambda one: contrast(one, "#ffffff") >= 4.5)
    assert contrast(shade, "#ffffff") >= 4.5
    assert (shade == colour) == (contrast(colour, "#ffffff") >= 4.5)
    before, after = see(colour), see(shade)
    if before.chroma > 0.05 < after.chroma:
        assert (before.a * after.a + before.b * after.b) / (before.chroma * after.chroma) > 0.95
    # A shade a little lighter would not hold.
    if shade != colour:
        assert contrast(shade, "#ffffff") < 4.8


def test_where_no_shade_holds_it_is_said() -> None:
    with pytest.raises(ValueError, match="no shade of #123456 holds"):
        nearest_shade("#123456", lambda _: False)
