"""Keys that take a while to work out, remembered from build to build in one file."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from wristwork.files import write_whole


class KeptKeys:
    """Keys by what they are the keys of; the file only ever saves work."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._before = _read(file)
        self._now: dict[str, str] = {}

    def key(self, of: str, make: Callable[[], str]) -> str:
        """The key of something; ``make`` is called if it is not known."""
        if of not in self._now:
            self._now[of] = self._before.get(of) or make()
        return self._now[of]

    def save(self) -> None:
        """Remember the keys that were asked for, and no others."""
        if self._now != self._before:
            write_whole(self._file, json.dumps(self._now, separators=(",", ":")).encode())
            self._before = dict(self._now)


def _read(file: Path) -> dict[str, str]:
    try:
        keys = json.loads(file.read_bytes())
    except (OSError, ValueError):  # none yet, or damaged: then nothing is known
        return {}
    return keys if isinstance(keys, dict) else {}
