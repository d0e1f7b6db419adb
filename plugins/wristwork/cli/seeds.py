"""What courses grow from: the starter course and the rudiment library, in the package or in the repository."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import wristwork
from wristwork.cli.trouble import Trouble
from wristwork.languages.catalogues import SOURCE, language
from wristwork.languages.say import say

# What building, testing and running leave in a folder: no part of a seed.
BUILT = frozenset(("site", ".site.new", ".site.old", ".wristwork", ".cache", "__pycache__"))

_IN_PACKAGE = Path(wristwork.__file__).parent / "_seeds"
_IN_REPOSITORY = Path(wristwork.__file__).parents[2] / "seeds"


def seed_folder(name: str, code: str = SOURCE) -> Path:
    """The folder of a seed, ``starter`` or ``rudiments``, in a language; in English where that has none."""
    for each in (*_named(name, code), name):
        for place in (_IN_PACKAGE, _IN_REPOSITORY):
            if (place / each).is_dir():
                return place / each
    raise Trouble(
        say("the seed '{name}' did not come with this installation", name=name), say("install Wristwork again")
    )


def has_seed(name: str, code: str) -> bool:
    """Is there such a seed in a language?"""
    return language(code).is_source or seed_folder(name, code).name != name


def _named(name: str, code: str) -> Iterator[str]:
    """How a seed is called in a language: ``starter-de-AT``, then ``starter-de``; English has the bare name."""
    tongue = language(code)
    if not tongue.is_source:
        yield from (f"{name}-{each}" for each in tongue.from_near_to_far)
