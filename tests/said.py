"""A language in which every text stands in brackets, so that what nobody says stands outside of them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from gettext import NullTranslations

from wristwork.languages.catalogues import Language
from wristwork.languages.say import speaking

_OPEN, _CLOSE = "⟦", "⟧"
_INNERMOST = re.compile(f"{_OPEN}[^{_OPEN}{_CLOSE}]*{_CLOSE}")


class _Brackets(NullTranslations):
    def gettext(self, message: str) -> str:
        return f"{_OPEN}{message}{_CLOSE}"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)


@contextmanager
def bracketed() -> Iterator[None]:
    """Each text that is said stands in brackets until the end of the block."""
    with speaking(Language("en", _Brackets(), {}, "brackets")):
        yield


def unsaid(text: str) -> str:
    """What is left of a text without all that is said in it, values included."""
    before = None
    while before != text:
        before, text = text, _INNERMOST.sub("", text)
    return text.strip()
