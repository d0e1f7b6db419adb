"""Marks in comments: what a tutor writes where the tool is to put something, ``<!-- wristwork: weeks -->``."""

from __future__ import annotations

import re

WORD = "wristwork"
MARK = re.compile(rf"<!--[ \t]*{WORD}[ \t]*:[ \t]*(?P<name>[\w-]+)[ \t]*-->")


def mark(name: str) -> str:
    """The mark of that name, as a tutor writes it."""
    return f"<!-- {WORD}: {name} -->"
