"""Still pictures of a film as arrays of pixels, typeset with the fonts of this package alone."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from importlib.resources import files
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wristwork.look.letters import FAMILY, Letters

if TYPE_CHECKING:
    from wristwork.site.film.encoding import Decoder

Pixels = NDArray[np.uint8]
"""Height × width × 3, red, green, blue."""


class FilmPress:
    """Makes pictures with one compiler kept open."""

    def __init__(self, colours: Mapping[str, str], decode: Decoder, letters: Letters | None = None) -> None:
        """``colours`` are those of the light scheme by what they are for; ``letters`` those of titles."""
        import typst  # which takes more memory than all else in a build

        self._own = letters.folder() if letters else None
        folders = [str(files("wristwork.drawing") / "fonts"), *([self._own.name] if self._own else [])]
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=folders)
        self._compiler = typst.Compiler(font_paths=fonts)
        self._template = (files(__package__) / "film.typ").read_bytes()
        self._decode = decode
        self._common = {"colours": dict(colours), "faces": [FAMILY] if self._own else []}

    def picture(self, kind: str, width: int, height: int, **data: object) -> Pixels:
        """A picture of a kind of the template, so many pixels wide and high."""
        return self.opened(self.file(kind, width, height, **data))

    def opened(self, png: bytes) -> Pixels:
        """A picture that was made before."""
        return self._decode(io.BytesIO(png))

    def file(self, kind: str, width: int, height: int, **data: object) -> bytes:
        """The same picture as a PNG file."""
        told = {"kind": kind, "width": width, "height": height, **self._common, **data}
        png = self._compiler.compile(self._template, format="png", ppi=72.0, sys_inputs={"film": json.dumps(told)})
        assert isinstance(png, bytes), "a picture is one page"
        return png
