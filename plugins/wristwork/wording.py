"""Small helps for sentences: the known word that was probably meant, and a count with its noun."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The known word that looks most like this one, if any comes near."""
    close = get_close_matches(word, list(known), n=1, cutoff=cutoff)
    return close[0] if close else None


def counted(count: int, what: str) -> str:
    """``1 bar``, ``3 bars``: a number and what it is the number of, named for one of them."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
