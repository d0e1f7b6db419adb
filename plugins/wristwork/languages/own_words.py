"""A tutor's own words in the place of ours, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches
from string import Formatter

from wristwork.languages.catalogues import messages
from wristwork.languages.say import say


def wrong_words(text: str, instead: str) -> str:
    """Why a text can't be said in another way, in a sentence; nothing where it can."""
    known = set(_texts())
    if text not in known:
        near = get_close_matches(text, known, n=1)
        if near:
            return say("nothing says '{text}': did you mean '{near}'?", text=text, near=near[0])
        return say("nothing says '{text}': write the English words that the site would have", text=text)
    lost = _names(text) ^ _names(instead)
    if lost:
        name = sorted(lost)[0]
        return say(
            "'{instead}' and '{text}' don't hold the same values: see to {{{name}}}", **_told(text, instead, name)
        )
    return ""


def right_words(own: object) -> tuple[tuple[str, str], ...]:
    """Those words out of a setting that can be said in another way; none of what is no list of words."""
    known = set(_texts()) if isinstance(own, dict) else set()
    pairs = own.items() if isinstance(own, dict) else ()
    return tuple(
        (text, instead)
        for text, instead in pairs
        if text in known and isinstance(instead, str) and _names(text) == _names(instead)
    )


def _told(text: str, instead: str, name: str) -> dict[str, str]:
    return {"text": text, "instead": instead, "name": name}


def _names(text: str) -> set[str]:
    """What stands in braces for values, as it is written; nothing where braces don't pair and none can be filled."""
    try:
        fields = [(name, kind, how) for _, name, kind, how in Formatter().parse(text) if name is not None]
    except ValueError:
        return set()
    return {"".join((name, f"!{how}" if how else "", f":{kind}" if kind else "")) for name, kind, how in fields}


def _texts() -> Iterator[str]:
    for message in messages():
        if isinstance(message.id, str):
            yield message.id
        else:
            yield from message.id
