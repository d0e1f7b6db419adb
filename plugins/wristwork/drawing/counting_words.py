"""Ways of counting aloud: what is said to the slots of a beat after its number, which comes first."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from wristwork.languages.say import spoken

WORDLESS = "·"


Words = Mapping[int, tuple[str, ...]]
"""By the slots of one beat, what is said to those after the first."""


class CountingWords(NamedTuple):
    """The words of a way of counting, for beats that divide by two and for those that divide by three."""

    simple: Words
    compound: Words


def _counting(half: str, thirds: tuple[str, str], quarters: tuple[str, str]) -> CountingWords:
    """``quarters`` are the words before and after the half of a beat."""
    before, after = quarters
    simple = {
        1: (),
        2: (half,),
        3: thirds,
        4: (before, half, after),
        6: ("ta", "la", half, "ta", "la"),
        8: (WORDLESS, before, WORDLESS, half, WORDLESS, after, WORDLESS),
    }
    compound = {**simple, 3: ("la", "li"), 6: ("ta", "la", "ta", "li", "ta")}
    return CountingWords(simple, compound)


# As a tutor names them; the first is counted where nobody says otherwise.
COUNTINGS: Mapping[str, CountingWords] = MappingProxyType(
    {
        "1 e & a": _counting("&", ("trip", "let"), ("e", "a")),
        "1 e + e": _counting("+", ("ti", "ta"), ("e", "e")),
        "1 ta te ta": _counting("te", ("la", "li"), ("ta", "ta")),
    }
)
# The usual way of a language.
_USUAL = {"de": "1 e + e"}


def counting_name() -> str:
    """The name of the way in which the course counts."""
    language = spoken()
    usual = next((_USUAL[code] for code in language.from_near_to_far if code in _USUAL), next(iter(COUNTINGS)))
    return language.counting or usual
