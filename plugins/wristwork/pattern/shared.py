"""Exercises that several courses share: a pattern takes one of them with ``take: its-id``.

Lines of the pattern's own come in place of the shared one's. What an exercise requires is each course's own matter.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from wristwork.languages.say import say
from wristwork.page.problem import Problem
from wristwork.pattern.lines import KEYS, Entries, Entry
from wristwork.pattern.model import Place
from wristwork.pattern.problems import Report
from wristwork.pattern.text import Value
from wristwork.wording import nearest

TAKE = "take"
# A group of lines of which a pattern's own replaces all.
_HANDS = ("hands", "right", "left")
_LEFT_THERE = ("requires", "example")
# What makes another exercise of it, which then has a pattern of its own.
_GROWING = ("from", "change")


class Shared(Protocol):
    """A shared exercise: its lines, and what is wrong with it."""

    @property
    def entries(self) -> Mapping[str, Entry]: ...

    @property
    def problems(self) -> tuple[Problem, ...]: ...


def with_shared(own: Entries, library: Mapping[str, Shared], report: Report) -> Entries:
    """The lines of a pattern with those that it takes over; what is wrong goes to the report."""
    taken = own.by_key.get(TAKE)
    if taken is None:
        return own
    if TAKE in own.spoiled:
        return _half_known(own)
    name, place = taken.value.text, taken.value.place()
    shared = library.get(name)
    growing = next((own.by_key[key] for key in _GROWING if key in own.by_key), None)
    if growing is not None:
        remedy = say("take it as it is, and let another pattern grow out of it: from: {name}", name=name)
        report.add(growing.place, say("{key}: beside take:", key=growing.key), remedy)
    elif shared is None:
        report.add(place, *_missing(name, library))
    elif shared.problems:
        first = shared.problems[0]
        found = say("the shared exercise '{name}' can't be read: {reason}", name=name, reason=first.headline)
        report.add(place, found, first.remedy)
    else:
        return Entries({**_taken_over(name, place, own, shared), **own.by_key}, own.spoiled, own.meant)
    return _half_known(own)


def _half_known(own: Entries) -> Entries:
    """The lines of a pattern of which nothing else is to be said."""
    return Entries(own.by_key, own.spoiled, own.meant | set(KEYS))


def _missing(name: str, library: Mapping[str, Shared]) -> tuple[str, str]:
    if not library:
        found = say("'{name}' is to be taken from the library, and this course has none", name=name)
        return found, say("name its folder in mkdocs.yml, under wristwork: library: ../shared")
    near = nearest(name, library)
    back = say("put it back there, or write the exercise here")
    found = say("'{name}' is not in the library", name=name)
    return found, say("did you mean {near}?", near=near) if near else back


def _taken_over(name: str, place: Place, own: Entries, shared: Shared) -> dict[str, Entry]:
    """The shared lines, as if they stood where the pattern takes them."""
    left_there = {*_LEFT_THERE, *(_HANDS if any(key in own.by_key for key in _HANDS) else ())}
    texts = {key: entry.value.text for key, entry in shared.entries.items() if key not in left_there} | {"id": name}
    return {key: Entry(key, place, Value(text, ((0, place),))) for key, text in texts.items()}
