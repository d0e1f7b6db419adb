"""A font in which every letter is a black block, as a maker of letters would hand it out."""

from __future__ import annotations

from io import BytesIO

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

NAME = "BlocksOfATest"


def blocks(flavor: str | None = "woff2") -> bytes:
    """The font file, packed as WOFF2 or not."""
    font = FontBuilder(1000, isTTF=True)
    letters = [chr(number) for number in range(33, 127)]
    font.setupGlyphOrder([".notdef", "space", "block"])
    font.setupCharacterMap({32: "space", **{ord(letter): "block" for letter in letters}})
    pen = TTGlyphPen(None)
    pen.moveTo((50, 0))
    for point in ((50, 700), (550, 700), (550, 0)):
        pen.lineTo(point)
    pen.closePath()
    empty = TTGlyphPen(None).glyph()
    font.setupGlyf({".notdef": empty, "space": empty, "block": pen.glyph()})
    font.setupHorizontalMetrics({".notdef": (600, 0), "space": (300, 0), "block": (600, 50)})
    font.setupHorizontalHeader(ascent=800, descent=-200)
    font.setupNameTable({"familyName": "Blocks", "styleName": "Bold", "psName": NAME})
    font.setupOS2()
    font.setupPost()
    font.updateHead(created=3_500_000_000, modified=3_500_000_000)
    font.font.recalcTimestamp = False
    font.font.flavor = flavor
    written = BytesIO()
    font.save(written)
    return written.getvalue()
