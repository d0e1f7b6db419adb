"""When a rule speaks: beats, counts as they are said aloud, bars, in plain words."""

from __future__ import annotations

import re
from fractions import Fraction

from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.model import TimeSignature, When

# What is said between two beats, and how far it is on the way from one to the next.
SAID = {
    "": Fraction(0),
    "e": Fraction(1, 4),
    "&": Fraction(1, 2),
    "a": Fraction(3, 4),
    "trip": Fraction(1, 3),
    "let": Fraction(2, 3),
    "la": Fraction(1, 3),
    "li": Fraction(2, 3),
}
EXAMPLE = marked("write beat 4, 2& or bar 3, as in left beat 4 of bar 2 on high tom")
_COUNT = re.compile(rf"(\d{{1,3}})({'|'.join(SAID)})")
_SPLIT_COUNT = re.compile(r"(?<=\d)\s+(?=(?:e|&|a|trip|let|la|li)(?:\s|$))")
_FILLERS = frozenset({"of", "in", "at"})
_UNITS = {"beat": "beats", "beats": "beats", "bar": "bars", "bars": "bars"}
_MENTIONS = re.compile(r"\d|\b(?:beats?|bars?)\b")


def mentions_a_moment(words: str) -> bool:
    """Do these words seem to say when?"""
    return _MENTIONS.search(words) is not None


def split_words(text: str) -> list[str]:
    """The words of a rule, a count such as ``2 &`` as one of them."""
    return _SPLIT_COUNT.sub("", " ".join(text.lower().split())).split()


def read_when(words: list[str]) -> When | None:
    """What the words mean, or None where they mean nothing; no words are every moment."""
    reader = _Reader(words)
    found: dict[str, tuple[object, ...]] = {}
    while reader.peek():
        word = reader.peek()
        if word in _FILLERS:
            reader.take()
            continue
        if word in _UNITS:
            reader.take()
            kind = _UNITS[word]
            values: tuple[object, ...] = reader.numbers()
        else:
            kind, values = "counts", reader.counts()
        if not values or kind in found or {kind, *found} >= {"counts", "beats"}:
            return None
        found[kind] = values
    return When(**found)  # type: ignore[arg-type]


class _Reader:
    """Takes words one by one."""

    def __init__(self, words: list[str]) -> None:
        self._words = words
        self._at = 0

    def peek(self) -> str:
        return self._words[self._at] if self._at < len(self._words) else ""

    def take(self) -> str:
        self._at += 1
        return self._words[self._at - 1]

    def numbers(self) -> tuple[int, ...]:
        """``4``, ``2 and 4``, ``1 to 3``; nothing where no number stands."""
        found: list[int] = []
        joined = True
        while joined and self.peek().isdecimal() and len(self.peek()) <= 3:
            found.append(int(self.take()))
            if self.peek() == "to":
                self.take()
                last = int(self.take()) if self.peek().isdecimal() and len(self.peek()) <= 3 else 0
                if last <= found[-1]:
                    return ()
                found += range(found[-1] + 1, last + 1)
            joined = self.peek() == "and"
            if joined:
                self.take()
        return () if joined else tuple(found)

    def counts(self) -> tuple[tuple[int, Fraction], ...]:
        """``2&``, ``2& and 4&``; nothing where no count stands."""
        found: list[tuple[int, Fraction]] = []
        joined = True
        while joined and (match := _COUNT.fullmatch(self.peek())):
            self.take()
            found.append((int(match[1]), SAID[match[2]]))
            joined = self.peek() == "and"
            if joined:
                self.take()
        return () if joined else tuple(found)


def unreachable(when: When, time: TimeSignature, bars: int) -> tuple[str, str] | None:
    """What a rule speaks of that the pattern has not, and the remedy."""
    beats = [*when.beats, *(beat for beat, _ in when.counts)]
    for beat in beats:
        if not 1 <= beat <= time.beats:
            return (
                say(
                    "a rule for beat {beat}, where a bar of {time} has {beats}", beat=beat, time=time, beats=time.beats
                ),
                say("name a beat from 1 to {last}", last=time.beats),
            )
    for bar in when.bars:
        if not 1 <= bar <= bars:
            found = say_count(
                "a rule for bar {bar}, where the pattern has {count} bar",
                "a rule for bar {bar}, where the pattern has {count} bars",
                bars,
                bar=bar,
            )
            return found, say("name a bar from 1 to {last}", last=bars)
    return None
