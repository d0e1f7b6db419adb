"""The picture that a link preview shows: title, week, sticking, diagram, 1200 × 630 pixels, PNG.

Typeset with the fonts of this package alone, so that every machine draws the same picture. Text is
handed over as data and so can never be read as markup.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.resources import files

from wristwork.look.letters import FAMILY, Letters
from wristwork.pattern.alphabet import ACCENT, GRACES, MARKS, STRONG

WIDTH, HEIGHT = 1200, 630
_HERE = files(__package__)
# One point of the page is one pixel of the picture.
_PIXELS_PER_INCH = 72.0
# More of a title than could ever be shown only costs time.
_LONGEST_TEXT = 400
_LOUD = frozenset((ACCENT, STRONG))
# A letter with its marks, a word such as "over", or any other sign.
_STROKE = re.compile(rf"[A-Z][{re.escape(MARKS)}3]*|[a-z]+$|.", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Card:
    """What stands on a card.

    ``sticking`` are groups as typed, ``diagram`` is a stand-alone SVG in light colours, and ``part`` says
    which bars it shows (nothing where it shows all). ``colours`` are others than the house's: ``ink``, ``quiet``,
    ``accent``, ``paper``, and ``deep`` for its edges; ``logo`` is a picture file that stands on ``deep``.
    """

    title: str
    eyebrow: str
    sticking: str
    tempo: str
    site: str
    diagram: str
    part: str = ""
    colours: Mapping[str, str] = field(default_factory=dict)
    logo: bytes | None = None


class CardPress:
    """Makes cards with one compiler kept open (opening one costs far more than a card)."""

    def __init__(self, letters: Letters | None = None) -> None:
        """``letters`` are those of titles, where they are not the house's."""
        # The typesetter takes more memory than all else in a build, and most builds make no card.
        import typst

        self._own = letters.folder() if letters else None
        folders = [str(_HERE / "fonts"), *([self._own.name] if self._own else [])]
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=folders)
        self._compiler = typst.Compiler(font_paths=fonts)
        self._template = (_HERE / "card.typ").read_bytes()

    def png(self, card: Card) -> bytes:
        """The picture as the bytes of a PNG file."""
        words = {name: _one_line(getattr(card, name)) for name in ("title", "eyebrow", "tempo", "site", "part")}
        sticking = [sticking_runs(group) for group in _one_line(card.sticking).split()]
        look = {"colours": dict(card.colours), "logo": list(card.logo or b""), "faces": [FAMILY] if self._own else []}
        picture = self._compiler.compile(
            self._template,
            format="png",
            ppi=_PIXELS_PER_INCH,
            sys_inputs={
                "card": json.dumps({**words, **look, "sticking": sticking, "rtl": reads_right_to_left(card.title)}),
                "diagram": card.diagram,
            },
        )
        assert isinstance(picture, bytes), "a card is one page"
        return picture


def sticking_runs(group: str) -> list[tuple[str, str]]:
    """A group in pieces that are set alike, each with its text: ``accent``, ``grace``, ``held`` or ``plain``.

    Grace letters are small capitals, since a lower-case l is read as a stroke of a pen.
    """
    runs: list[tuple[str, str]] = []
    for found in _STROKE.finditer(group):
        text = found[0]
        if text in GRACES:
            runs.append((text.upper(), "grace"))
        elif text == "-":
            runs.append((text, "held"))
        else:
            runs.append((text, "accent" if _LOUD.intersection(text) else "plain"))
    return runs


def reads_right_to_left(text: str) -> bool:
    """Whether the first letter with a direction runs from right to left."""
    for char in text:
        direction = unicodedata.bidirectional(char)
        if direction in ("L", "R", "AL"):
            return direction != "L"
    return False


def _one_line(text: str) -> str:
    """Text without line breaks and control characters, no longer than could be shown."""
    plain = "".join(" " if unicodedata.category(char) in ("Cc", "Cs", "Zl", "Zp") else char for char in text)
    return " ".join(plain[:_LONGEST_TEXT].split())
