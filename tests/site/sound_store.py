"""Rendered sound that the courses of one test run share: rendering it for each of them would take many minutes.

Kept sound is named by its content, so what one course has rendered is right for any other.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


class SoundStore:
    """A folder of kept sound; workers may use the same one at the same time."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def lend(self, course: Path) -> None:
        """Give a course everything that there is."""
        _link_all(self._folder, course / ".wristwork" / "sound")

    def collect(self, course: Path) -> None:
        """Take what a course has rendered."""
        _link_all(course / ".wristwork" / "sound", self._folder)


def _link_all(source: Path, target: Path) -> None:
    # The list of a kit's sounds goes last: where it is, all of them are.
    for file in sorted(source.rglob("*"), key=lambda path: path.suffix == ".json"):
        if file.is_file() and file.suffix != ".part":
            place = target / file.relative_to(source)
            place.parent.mkdir(parents=True, exist_ok=True)
            with suppress(FileExistsError):
                os.link(file, place)
