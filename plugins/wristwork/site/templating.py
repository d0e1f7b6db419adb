"""The site's HTML: templates in which every text is escaped, each beside the module that fills it.

A template is named by its room and file: ``week/practice_card.html``. What is given to it are plain values;
only what is :class:`Markup` goes in as it is. A value that is not given stops the build.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from jinja2.ext import Extension
from jinja2.lexer import Token, TokenStream
from markupsafe import Markup

from wristwork.languages.catalogues import direction
from wristwork.languages.say import say, say_count, say_html

_ROOMS = Path(__file__).parent
# A line break beside an element or a mark of the template, then one between words.
_AT_AN_EDGE = re.compile(r"\A\s*\n\s*|\s*\n\s*\Z|(?<=>)\s*\n\s*|\s*\n\s*(?=<)")
_BETWEEN_WORDS = re.compile(r"\s*\n\s*")


class OneLine(Extension):
    """Takes out a template's line breaks and indentation, which are for those who read it."""

    def filter_stream(self, stream: TokenStream) -> Iterator[Token]:
        for token in stream:
            if token.type == "data":
                text = _BETWEEN_WORDS.sub(" ", _AT_AN_EDGE.sub("", token.value))
                yield Token(token.lineno, token.type, text)
            else:
                yield token


def markup(name: str, **values: object) -> Markup:
    """A part of a page, on one line: Markdown, through which some parts pass, lets such HTML be."""
    return Markup(_parts().get_template(name).render(values))


def whole_page(name: str, **values: object) -> str:
    """A page that passes by the theme, in the lines of its template."""
    return _pages().get_template(name).render(values)


@lru_cache(maxsize=1)
def _parts() -> Environment:
    return _speaking(
        Environment(
            loader=FileSystemLoader(_ROOMS),
            autoescape=True,
            auto_reload=False,
            undefined=StrictUndefined,
            extensions=[OneLine],
        )
    )


@lru_cache(maxsize=1)
def _pages() -> Environment:
    return _speaking(
        Environment(
            loader=FileSystemLoader(_ROOMS),
            autoescape=True,
            auto_reload=False,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
    )


def _speaking(environment: Environment) -> Environment:
    environment.globals.update(say=say, say_count=say_count, say_html=say_html, direction=direction)
    return environment
