"""Rendered sound that the courses of one test run share: rendering it for each of them would take many minutes.

Kept sound is named by its content, so what one course has rendered is right for any other.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path

# The sounds, and the lists that name them.
_SHARED = (".mp3", ".flac", ".json")


class SoundStore:
    """A folder of kept sound; workers may use the same one at the same time."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def lend(self, course: Path) -> None:
        """Give a course everything that there is."""
        _copy_all(self._folder, course / ".wristwork" / "kept")

    def collect(self, course: Path) -> None:
        """Take what a course has rendered."""
        _copy_all(course / ".wristwork" / "kept", self._folder)


def _copy_all(source: Path, target: Path) -> None:
    # Copied and not linked, for tests do harm to what they have.
    for file in source.rglob("*"):
        place = target / file.relative_to(source)
        if file.suffix in _SHARED and file.is_file() and not place.exists():
            place.parent.mkdir(parents=True, exist_ok=True)
            part = place.with_name(f"{place.name}.{os.getpid()}.part")
            shutil.copyfile(file, part)
            part.replace(place)
