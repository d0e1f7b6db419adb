"""Tempos as students type them with their thumbs: "slow singles 66", "- The Slow Singles: at 66 bpm, easy"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from wristwork.languages.catalogues import SOURCE, language
from wristwork.languages.say import say, speaking, spoken
from wristwork.pattern.settings import FASTEST, SLOWEST
from wristwork.people.links import Row

# Small words of the four languages: before a number, and before a name.
_BEFORE_A_TEMPO = "at|with|on|bei|mit|auf|à|a|au|en|con"
_ARTICLES = frozenset(
    (
        "the",
        "a",
        "an",
        "der",
        "die",
        "das",
        "ein",
        "eine",
        "le",
        "la",
        "les",
        "l",
        "un",
        "une",
        "el",
        "los",
        "las",
        "una",
    )
)
_LINE = re.compile(
    rf"[-•–]?\s*(?P<name>\S.*?)(?!\w)[\s:,;=–—-]*(?:(?<!\w)(?:{_BEFORE_A_TEMPO})\s+|@\s*)?(?<!\d)(?P<tempo>\d{{2,3}})"
    r"(?:\s*bpm\b)?(?P<rest>(?:[\s.,;:!?)(–—-][^\d%]*)?)",
    re.IGNORECASE,
)
# A number with one of these behind it is no tempo.
_COUNTED = re.compile(r"\s*(?:min|sec|sek|seg|x\b|times|mal\b|fois|veces|days?\b|tage|jours|d[ií]as)", re.IGNORECASE)
_MOST_WORDS = 4
_LONGEST = 120  # letters of such a line
# Alike enough for a slip of the thumb.
_ALIKE = 0.85


def typed_tempo(line: str, titles: Mapping[str, str]) -> tuple[Row, str] | None:
    """The exercise and the tempo of a line that holds no more, and what else is said there in a few words.

    ``titles`` gives each exercise's title by its id; the line may name either, and need not be spelt quite right.
    The tempo is a clean one where that word follows.
    """
    line = " ".join(line.split())
    found = _LINE.fullmatch(line) if len(line) <= _LONGEST else None
    if found is None or _COUNTED.match(found["rest"]) or not SLOWEST <= int(found["tempo"]) <= FASTEST:
        return None
    id_ = _meant(found["name"], titles)
    words = re.findall(r"\w+", found["rest"])
    if id_ is None or len(words) > _MOST_WORDS:
        return None
    tempo = int(found["tempo"])
    if len(words) == 1 and words[0].casefold() in _clean_words():
        return Row(id_, best=tempo), ""
    return Row(id_, latest=tempo), f"{titles[id_]}: {found['rest'].strip(' .,;:!')}" if words else ""


def _meant(name: str, titles: Mapping[str, str]) -> str | None:
    names = {_plain(title): id_ for id_, title in titles.items()} | {_plain(id_): id_ for id_ in titles}
    wanted = _plain(name)
    if wanted in names:
        return names[wanted]
    # A word more or less means something, and so does another number.
    alike = [each for each in names if each and _shape(each) == _shape(wanted)]
    return next((names[each] for each in get_close_matches(wanted, alike, n=1, cutoff=_ALIKE)), None)


def _shape(name: str) -> tuple[int, list[str]]:
    return len(name.split()), re.findall(r"\d+", name)


def _plain(name: str) -> str:
    """A name without what thumbs leave out: capitals, commas, an article."""
    words = re.findall(r"[^\W_]+", name.casefold())
    return " ".join(words[1:] if len(words) > 1 and words[0] in _ARTICLES else words)


def _clean_words() -> Iterable[str]:
    """The word for clean, in the language of the course and in English."""
    for tongue in (spoken(), language(SOURCE)):
        with speaking(tongue):
            yield say("clean at {best}", best="").split()[0].casefold()
