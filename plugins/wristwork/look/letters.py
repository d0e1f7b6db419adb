"""A tutor's own letters: a WOFF2 file for browsers, the same as the typesetter of cards and papers reads it."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import cached_property
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from wristwork.languages.say import say

# What the letters are called where they are used, whatever their maker calls them.
FAMILY = "Course Letters"
# Of letters that come in every weight, headings have this one.
_WEIGHT = 800
_NAMES_OF_THE_FAMILY, _NAMES_OF_THE_STYLE = (1, 16, 21), (2, 17, 22)
_WOFF2 = b"wOF2"


class NoLetters(ValueError):
    """What was given is no font that can be used; the message says why, in a few words."""


@dataclass(frozen=True)
class Letters:
    """Letters as the content of a WOFF2 file; ``sum`` tells one such file from another."""

    woff2: bytes = field(repr=False)
    sum: str

    @cached_property
    def opened(self) -> bytes:
        """The letters as a font file that is not packed, in one weight. Raises :class:`NoLetters`."""
        # They are opened where a card or paper is made anew, which most builds don't.
        from fontTools.ttLib import TTFont
        from fontTools.varLib.instancer import instantiateVariableFont

        try:
            font = TTFont(BytesIO(self.woff2), recalcTimestamp=False)
            if "fvar" in font:
                font = instantiateVariableFont(font, {axis.axisTag: _place_on(axis) for axis in font["fvar"].axes})
            for name in [*font["name"].names]:
                if name.nameID in _NAMES_OF_THE_FAMILY:
                    font["name"].setName(FAMILY, name.nameID, name.platformID, name.platEncID, name.langID)
                elif name.nameID in _NAMES_OF_THE_STYLE:
                    font["name"].setName("Regular", name.nameID, name.platformID, name.platEncID, name.langID)
            font.flavor = None
            written = BytesIO()
            font.save(written)
        except Exception as error:  # of a damaged file the library may say anything
            raise NoLetters(say("its tables can't be read")) from error
        return written.getvalue()

    def folder(self) -> TemporaryDirectory[str]:
        """A folder that holds the font file, for as long as it is kept."""
        folder = TemporaryDirectory(prefix="wristwork-letters-")
        Path(folder.name, "letters.ttf").write_bytes(self.opened)
        return folder


def read_letters(content: bytes) -> Letters:
    """The letters of a file. Raises :class:`NoLetters`."""
    if not content.startswith(_WOFF2):
        raise NoLetters(say("it is no WOFF2 file"))
    letters = Letters(content, hashlib.sha256(content).hexdigest())
    _ = letters.opened
    return letters


def _place_on(axis: object) -> float:
    """Where letters of one weight lie on an axis of a font that has many."""
    tag, least, usual, most = (getattr(axis, name) for name in ("axisTag", "minValue", "defaultValue", "maxValue"))
    return float(min(max(_WEIGHT, least), most) if tag == "wght" else usual)
