"""Things in one sentence, as a language joins them: ``a, b or c``, ``a; b``, ``a: b``."""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce

from babel.lists import format_list

from wristwork.languages.say import say, spoken


def either(things: Iterable[str]) -> str:
    """One of these is meant: ``a, b or c``."""
    return format_list(tuple(things), style="or", locale=spoken().locale)


def both(things: Iterable[str]) -> str:
    """All of these are meant: ``a, b and c``."""
    return format_list(tuple(things), style="standard", locale=spoken().locale)


def one_by_one(things: Iterable[str]) -> str:
    """These are told one after the other: ``a; b; c``."""
    told = tuple(things)
    return reduce(lambda before, after: say("{before}; {after}", before=before, after=after), told) if told else ""


def headed(head: str, rest: str) -> str:
    """What is told of something: ``a: b``."""
    return say("{head}: {rest}", head=head, rest=rest)
