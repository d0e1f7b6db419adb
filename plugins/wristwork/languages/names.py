"""Names of things that patterns and data hold in English and readers meet in the course's language.

They are said as ``say(str(limb))``; a test holds these lists against what there is. Scripts say them, too.
"""

from __future__ import annotations

from wristwork.languages.say import marked

LIMBS = (marked("right hand"), marked("left hand"), marked("right foot"), marked("left foot"))
SIDES = (marked("right"), marked("left"))
HEIGHTS = (marked("high"), marked("low"))
STROKES = (marked("full"), marked("down"), marked("tap"), marked("up"))
LEVELS = (marked("ghost"), marked("tap"), marked("accent"))
HAIRPINS = (marked("growing"), marked("fading"))
DRUMS = (
    marked("pad"),
    marked("snare"),
    marked("rim shot"),
    marked("cross-stick"),
    marked("hi-hat"),
    marked("open hi-hat"),
    marked("ride"),
    marked("ride bell"),
    marked("crash"),
    marked("high tom"),
    marked("mid tom"),
    marked("floor tom"),
    marked("cowbell"),
    marked("kick"),
    marked("hi-hat foot"),
    marked("china"),
    marked("splash"),
    marked("second crash"),
    marked("half-open hi-hat"),
    marked("foot splash"),
    marked("low tom"),
    marked("rim"),
    marked("stick on stick"),
    marked("brush sweep"),
    marked("hi-hat, splashed"),
    marked("other stick"),
    marked("snare, swept with a brush"),
)
