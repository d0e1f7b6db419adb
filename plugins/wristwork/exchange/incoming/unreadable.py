"""What can't be read at all, in one line."""

from __future__ import annotations


class Unreadable(Exception):
    """A file that holds nothing to read: ``what`` was found, and the ``remedy``."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(f"{what}: {remedy}")
        self.what = what
        self.remedy = remedy


class NoSuchRhythm(Unreadable):
    """A rhythm that no group of slots holds."""
