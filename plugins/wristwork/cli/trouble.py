"""What stops a command: said in one line, with what to do about it."""

from __future__ import annotations

from wristwork.languages.lists import headed
from wristwork.page.problem import printable


class Trouble(Exception):
    """A command can't go on. ``what`` and ``remedy`` are one line together."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(printable(headed(what, remedy)))
