"""Saying things in the language that is spoken now.

A text is written in English where it is used; :func:`say` gives it in the course's language, with values in the
places of their names in braces. Whoever publishes or prints a course says first which language is :func:`spoken`;
without that it is English.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from markupsafe import Markup

from wristwork.languages.catalogues import SOURCE, Language, language

_NOW: ContextVar[Language] = ContextVar("language")


def spoken() -> Language:
    """The language that is spoken now."""
    return _NOW.get(None) or language(SOURCE)


def speak(tongue: Language) -> None:
    """From now on everything is said in this language."""
    _NOW.set(tongue)


@contextmanager
def speaking(tongue: Language) -> Iterator[None]:
    """Everything is said in this language until the end of the block."""
    before = _NOW.set(tongue)
    try:
        yield
    finally:
        _NOW.reset(before)


def say(text: str, /, **values: object) -> str:
    """An English text in the language that is spoken now."""
    said = spoken().words.gettext(text) if text else ""
    return said.format(**values) if values else str(said)  # English gives back what came in: the name of a kind, too


def say_count(one: str, many: str, count: int, /, **values: object) -> str:
    """One of two texts, by a count: ``say_count("{count} bar", "{count} bars", 3)``."""
    return spoken().words.ngettext(one, many, count).format(count=count, **values)


def say_html(text: str, /, **values: object) -> Markup:
    """A text that holds HTML of its own; the values are escaped."""
    said = Markup(spoken().words.gettext(text))
    return said.format(**values) if values else said


def marked(text: str) -> str:
    """Marks a text that is said elsewhere, so that catalogues list it."""
    return text
