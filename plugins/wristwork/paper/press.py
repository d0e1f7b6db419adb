"""The press: data and a template become a PDF with its fonts inside, tagged for screen readers.

The same paper gives the same bytes: no date is written into it, and no font of the machine is used.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from wristwork.drawing.card import reads_right_to_left
from wristwork.languages.say import say
from wristwork.look.letters import FAMILY, Letters

if TYPE_CHECKING:
    from typst import PDFStandard

_TEMPLATES = ("look.typ", "text.typ", "sheet.typ", "week.typ", "book.typ")
_POINTS_TO_THE_MM = 72 / 25.4


class PaperSize(StrEnum):
    """A size of paper, by the name that the typesetter has for it."""

    A4 = "a4"
    LETTER = "us-letter"

    @property
    def width(self) -> float:
        """Points from edge to edge."""
        return 210 * _POINTS_TO_THE_MM if self is PaperSize.A4 else 612.0


@dataclass(frozen=True, slots=True)
class Letterhead:
    """What shows whose paper it is.

    ``colour`` is that of the line over a title; ``logo`` a picture by the name of its file, which stands on ``ground``;
    ``letters`` are those of headings. ``sum`` tells one logo from another.
    """

    colour: str | None = None
    logo: tuple[str, bytes] | None = field(default=None, repr=False)
    sum: str = ""
    ground: str | None = None
    letters: Letters | None = None


PLAIN = Letterhead()


@dataclass(frozen=True, slots=True)
class Paper:
    """What papers are printed on and for whom: ``large`` is large print, ``language`` a code as in ``en``."""

    size: PaperSize = PaperSize.A4
    large: bool = False
    language: str = "en"
    head: Letterhead = PLAIN

    @property
    def enlarged(self) -> float:
        """How much larger than usual diagrams are."""
        return 1.4 if self.large else 1.0

    def room(self, margins: float) -> float:
        """Points between margins that take so many millimetres together."""
        return self.size.width - margins * _POINTS_TO_THE_MM


class PaperError(RuntimeError):
    """The typesetter refused a paper; the message is its own, in a line."""


def _words() -> dict[str, str]:
    """What the templates say by themselves, of pictures."""
    return {
        "diagram-line": say("The diagram goes on, line {number}."),
        "code": say("A code that a phone's camera opens."),
    }


class Press:
    """Makes papers with one compiler kept open (opening one costs far more than a sheet)."""

    def __init__(self, head: Letterhead = PLAIN) -> None:
        # The typesetter takes more memory than all else in a build, and most builds print nothing anew.
        import typst

        here, fonts = files(__package__), files("wristwork.drawing") / "fonts"
        self._own = head.letters.folder() if head.letters else None
        self._folder = TemporaryDirectory(prefix="wristwork-paper-")
        for name in _TEMPLATES:
            Path(self._folder.name, name).write_bytes((here / name).read_bytes())
        folders = [str(fonts), *([self._own.name] if self._own else [])]
        # Of the fonts that come with the typesetter only the monospaced one is used.
        known = typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=folders)
        if head.logo:
            Path(self._folder.name, head.logo[0]).write_bytes(head.logo[1])
        self._compiler = typst.Compiler(root=self._folder.name, font_paths=known)

    def pdf(
        self, template: str, data: Mapping[str, Any], paper: Paper, pictures: Mapping[str, Path | bytes] | None = None
    ) -> bytes:
        """A paper by the name of its template (``sheet``, ``week``, ``book``).

        ``data`` holds at least a ``title``; ``pictures`` are the files it names. Raises :class:`PaperError`.
        """
        root = Path(self._folder.name)
        for name, picture in (pictures or {}).items():
            if isinstance(picture, bytes):
                (root / name).write_bytes(picture)
            else:
                shutil.copyfile(picture, root / name)
        code = paper.language.partition("-")[0]  # the typesetter knows languages without their countries
        size = {"size": paper.size, "large": paper.large, "language": code, **_head(paper.head)}
        right_to_left = reads_right_to_left(str(data["title"]))
        whole = {**data, "paper": {**size, "rtl": right_to_left, "words": _words()}}
        try:
            return self._compiled(template, whole, ("ua-1",))
        except PaperError:
            # What a standard forbids in some text can still be read by everybody else.
            return self._compiled(template, whole, ())

    def _compiled(self, template: str, data: Mapping[str, Any], standards: tuple[PDFStandard, ...]) -> bytes:
        import typst

        try:
            made = self._compiler.compile(
                str(Path(self._folder.name, f"{template}.typ")),
                format="pdf",
                sys_inputs={"data": json.dumps(data)},
                pdf_standards=list(standards),
                timestamp=0,
            )
        except typst.TypstError as error:
            raise PaperError(" ".join(str(error.message).split())) from error
        assert isinstance(made, bytes), "a PDF is one file"
        return made


def _head(head: Letterhead) -> dict[str, Any]:
    return {
        "colour": head.colour,
        "logo": head.logo[0] if head.logo else None,
        "logo-words": "Logo",
        "ground": head.ground,
        "faces": [FAMILY] if head.letters else [],
    }
