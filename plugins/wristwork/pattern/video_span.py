"""Where an exercise is shown in a video, as a value."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlsplit


@dataclass(frozen=True, slots=True)
class VideoSpan:
    """From ``start`` to ``end`` seconds (None: to its end) of a ``file``, by its path from the course's pages.

    Or of a video elsewhere, by its whole ``url``: that is only ever a link.
    """

    file: str | None
    url: str | None
    start: int = 0
    end: int | None = None

    @property
    def host(self) -> str:
        """Where a link leads."""
        return urlsplit(self.url or "").hostname or ""


def clock(seconds: int) -> str:
    """Seconds as people write them: ``3:46``."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
