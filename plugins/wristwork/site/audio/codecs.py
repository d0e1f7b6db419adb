"""The library that reads and writes films, an optional part (``wristwork[clip]``): it is asked for here alone."""

from __future__ import annotations

from types import ModuleType

from wristwork.languages.lists import headed
from wristwork.languages.say import marked, say

MISSING = marked("the part of Wristwork that reads videos and makes clips is not installed")
INSTALL = marked('install it with pip install "wristwork[clip]"')


class NoCodecs(RuntimeError):
    """The library is not installed."""


def codecs() -> ModuleType:
    """The library. Raises NoCodecs."""
    try:
        import av
    except ImportError as error:
        raise NoCodecs(headed(say(MISSING), say(INSTALL))) from error
    return av


def has_codecs() -> bool:
    """Is the library there?"""
    try:
        codecs()
    except NoCodecs:
        return False
    return True
