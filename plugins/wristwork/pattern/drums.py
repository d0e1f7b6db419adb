"""The drums: one row for each, with all that is known of it before anything is drawn or played.

Reading, writing, drawing, sound, MIDI, the schema and the handbook take what they need of a drum from
here. One thing stands elsewhere, since it is no plain data: how its sound is made and how finely it is kept
(``sound/kit/recipes.py``).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, StrEnum


class Head(Enum):
    """A family of note heads; the value is the middle of its SMuFL names."""

    PLAIN = ""
    CROSS = "X"
    DIAMOND = "Diamond"
    TRIANGLE = "TriangleUp"
    SLASHED = "Slashed"
    SWEEP = "SlashHorizontalEnds"


class Opening(Enum):
    """What stands over (or under) a note of the hi-hat to say how far its cymbals are apart."""

    NONE = ""
    OPEN = "o"
    HALF = "half"


class Family(StrEnum):
    """The groups in which the handbook lists the drums."""

    SKINS = "skins"
    WOOD = "rims and sticks"
    METAL = "metal"
    FEET = "feet"
    PAD = "no kit at all"


@dataclass(frozen=True, slots=True)
class DrumRow:
    """One drum.

    ``short`` is its word in a ``drums:`` line, ``near`` are words that tutors use for it and that an
    error answers with its name. ``step`` counts lines and spaces up from the middle line of a
    five-line staff (B4 of a treble clef). ``surface`` is the thing that is struck: a drum and its rim
    are one. ``key`` is its key among the percussion of General MIDI level 1, struck ``harder`` than
    the level alone says. ``tap_db`` is how loud its taps are, in decibels above those of the
    snare drum. ``silences`` are the drums whose ring a stroke on this one ends. ``said`` is what a
    description calls it where that is not its name.
    """

    short: str
    near: tuple[str, ...]
    family: Family
    step: int
    head: Head
    surface: str
    key: int
    tap_db: float
    harder: int = 0
    opening: Opening = Opening.NONE
    silences: tuple[str, ...] = ()
    said: str = ""


_RINGING_HATS = ("open hi-hat", "half-open hi-hat", "foot splash")


class Drum(StrEnum):
    """The places a stroke can land on, by the names a tutor types."""

    row: DrumRow

    def __new__(cls, name: str, row: DrumRow | None = None) -> Drum:
        drum = str.__new__(cls, name)
        drum._value_ = name
        if row is not None:  # a look-up by name, as in Drum("snare"), passes types without one and never comes here
            drum.row = row
        return drum

    PAD = "pad", DrumRow("pad", ("practice pad",), Family.PAD, 1, Head.PLAIN, "pad", 77, -4.0)
    SNARE = "snare", DrumRow("snare", ("snare drum", "side drum"), Family.SKINS, 1, Head.PLAIN, "snare", 38, 0.0)
    RIM_SHOT = "rim shot", DrumRow("shot", ("rimshot",), Family.SKINS, 1, Head.SLASHED, "snare", 38, 2.0, harder=12)
    CROSS_STICK = (
        "cross-stick",
        DrumRow("cross", ("rim click", "rim knock", "side stick"), Family.WOOD, 1, Head.CROSS, "snare", 37, -7.0),
    )
    HI_HAT = (
        "hi-hat",
        DrumRow(
            "hat", ("hats", "high hat", "closed hi-hat", "closed hat"), Family.METAL, 5, Head.CROSS, "hi-hat", 42, -9.0,
            silences=_RINGING_HATS,
        ),
    )  # fmt: skip
    OPEN_HI_HAT = (
        "open hi-hat",
        DrumRow("open", ("open hat",), Family.METAL, 5, Head.CROSS, "hi-hat", 46, -5.0, opening=Opening.OPEN),
    )
    RIDE = "ride", DrumRow("ride", ("ride cymbal",), Family.METAL, 4, Head.CROSS, "ride", 51, -8.0)
    RIDE_BELL = (
        "ride bell",
        DrumRow("bell", ("cup", "bell of the ride"), Family.METAL, 4, Head.DIAMOND, "ride", 53, -7.0),
    )
    CRASH = "crash", DrumRow("crash", ("crash cymbal",), Family.METAL, 6, Head.CROSS, "crash", 49, -1.0)
    HIGH_TOM = (
        "high tom",
        DrumRow("high", ("small tom", "first tom", "rack tom"), Family.SKINS, 3, Head.PLAIN, "high tom", 50, 2.0),
    )
    MID_TOM = (
        "mid tom",
        DrumRow("mid", ("middle tom", "medium tom", "second tom"), Family.SKINS, 2, Head.PLAIN, "mid tom", 47, 2.0),
    )
    FLOOR_TOM = (
        "floor tom",
        DrumRow("floor", ("large tom", "big tom"), Family.SKINS, -1, Head.PLAIN, "floor tom", 43, 3.0),
    )
    COWBELL = "cowbell", DrumRow("cow", ("cow bell",), Family.METAL, 3, Head.TRIANGLE, "cowbell", 56, -5.0)
    KICK = "kick", DrumRow("kick", ("bass drum", "bass"), Family.FEET, -3, Head.PLAIN, "kick", 36, 6.0)
    HI_HAT_FOOT = (
        "hi-hat foot",
        DrumRow(
            "foot", ("pedal hi-hat", "foot hi-hat", "hat foot", "chick"), Family.FEET, -5, Head.CROSS, "hi-hat foot",
            44, -7.0, silences=_RINGING_HATS, said="hi-hat",
        ),
    )  # fmt: skip
    CHINA = "china", DrumRow("china", ("china cymbal",), Family.METAL, 8, Head.CROSS, "china", 52, -2.0)
    SPLASH = "splash", DrumRow("splash", ("splash cymbal",), Family.METAL, 7, Head.DIAMOND, "splash", 55, -4.0)
    SECOND_CRASH = (
        "second crash",
        DrumRow("crash2", ("crash 2", "other crash"), Family.METAL, 7, Head.CROSS, "second crash", 57, -1.0),
    )
    HALF_OPEN_HI_HAT = (
        "half-open hi-hat",
        DrumRow(
            "half", ("half open hi-hat", "loose hi-hat", "half-open hat"), Family.METAL, 5, Head.CROSS, "hi-hat", 46,
            -6.0, harder=-12, opening=Opening.HALF, said="half-open hi-hat",
        ),
    )  # fmt: skip
    FOOT_SPLASH = (
        "foot splash",
        DrumRow(
            "splash-foot", ("hi-hat splash", "splashed hi-hat"), Family.FEET, -5, Head.CROSS, "hi-hat foot", 46, -7.0,
            harder=-16, opening=Opening.OPEN, said="hi-hat, splashed",
        ),
    )  # fmt: skip
    LOW_TOM = (
        "low tom",
        DrumRow("low", ("third tom", "lower tom", "fourth tom"), Family.SKINS, 0, Head.PLAIN, "low tom", 45, 2.5),
    )
    RIM = "rim", DrumRow("rim", ("rim alone", "hoop"), Family.WOOD, 1, Head.DIAMOND, "snare", 37, -7.0, harder=8)
    STICK_ON_STICK = (
        "stick on stick",
        DrumRow(
            "sticks", ("stick click", "sticks", "stick shot"), Family.WOOD, 3, Head.CROSS, "sticks", 75, -8.0,
            said="other stick",
        ),
    )  # fmt: skip
    BRUSH_SWEEP = (
        "brush sweep",
        DrumRow(
            "sweep", ("brush swirl", "brush stir", "brush"), Family.SKINS, 1, Head.SWEEP, "snare", 38, -9.0,
            harder=-24, said="snare, swept with a brush",
        ),
    )  # fmt: skip

    @property
    def said(self) -> str:
        """What a description calls it."""
        return self.row.said or self.value


# What a foot plays where a tutor names the cymbals that it works.
WITH_THE_FOOT = {Drum.HI_HAT: Drum.HI_HAT_FOOT, Drum.SPLASH: Drum.FOOT_SPLASH}
