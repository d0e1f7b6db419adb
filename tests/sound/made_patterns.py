"""Patterns for the tests of the sound: one reader for short texts, and a strategy that writes whole ones."""

from __future__ import annotations

from hypothesis import strategies as st

from wristwork.pattern import Pattern, read_one
from wristwork.pattern.model import Drum

OTHER = {"R": "l", "L": "r"}
PLACES = [drum.value for drum in Drum if drum is not Drum.HI_HAT_FOOT]


def pattern(hands: str | None = None, **lines: str) -> Pattern:
    """The pattern that these lines mean; title and id are there."""
    written = {"id": "an-exercise", "title": "An exercise", **({"hands": hands} if hands else {}), **lines}
    return read_one("\n".join(f"{key}: {value}" for key, value in written.items()))


@st.composite
def _hand_slot(draw: st.DrawFn) -> str:
    side = draw(st.sampled_from("RL"))
    near, far = side.lower(), OTHER[side]
    graces = draw(st.sampled_from(["", "", "", far, far + far, near + far]))
    return draw(
        st.sampled_from(
            [
                side,
                f"{graces}{side}",
                f"{graces}{side}>",
                f"({graces}{side})",
                f"{side}/",
                f"{side}>/",
                f"{side}z",
                f"{graces}{side}>z",
                "B",
                "B>",
                "R&L>",
                "(L)&R",
                ".",
            ]
        )
    )


@st.composite
def _group(draw: st.DrawFn, slot: st.SearchStrategy[str]) -> str:
    count = draw(st.sampled_from([1, 2, 3, 4, 5, 6, 7, 8]))
    first = draw(slot)
    return first + "".join(draw(st.lists(st.one_of(slot, slot, st.just("-")), min_size=count - 1, max_size=count - 1)))


@st.composite
def patterns(draw: st.DrawFn) -> Pattern:
    """A pattern of one to three beats of hands, sometimes with feet, on any drums, at any tempo."""
    beats = draw(st.integers(1, 3))
    lower = draw(st.sampled_from(["4", "4", "8", "2"]))
    hands = " ".join(draw(_group(_hand_slot())) for _ in range(beats))
    start = draw(st.integers(40, 320))
    lines = {
        "time": f"{beats if lower != '8' else 3 * beats}/{lower}",
        "tempo": f"{start} to {draw(st.integers(start, 320))}",
        "repeat": str(draw(st.integers(1, 3))),
        "loop": draw(st.sampled_from(["yes", "no"])),
    }
    if lower == "8" and beats == 1:
        lines["time"] = "1/8"
    if lower != "8" and draw(st.integers(0, 2)) == 0:
        lines["feel"] = draw(st.sampled_from(["swing", "swing 3:2", "swing sixteenths", "swing sixteenths 5:3"]))
    if draw(st.booleans()):
        lines["feet"] = " ".join(draw(_group(st.sampled_from("RL."))) for _ in range(beats))
    if draw(st.booleans()):
        lines["place"] = f"right on {draw(st.sampled_from(PLACES))} then {draw(st.sampled_from(PLACES))}"
    return pattern(_plain_slashes(hands), **lines)


def _plain_slashes(hands: str) -> str:
    """A slash before a held slot may have no note value: there it becomes an ordinary stroke."""
    while "/-" in hands:
        hands = hands.replace("/-", "-")
    return hands
