"""Numbers of things in words."""

from __future__ import annotations


def counted(count: int, what: str) -> str:
    """``1 bar``, ``3 bars``: a number and what it is the number of, named for one of them."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
