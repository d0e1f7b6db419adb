"""The known word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

_SHORT = 4  # letters: two slips in a word of so few make another word


def nearest(word: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The known word that looks most like this one, if any comes near."""
    close = get_close_matches(word, list(known), n=1, cutoff=cutoff)
    return close[0] if close else None


def misspelt(word: str, known: Iterable[str]) -> str | None:
    """The known word of which this one is a slip of the finger: capitals, a letter or two wrong, none or swapped."""
    plain = word.lower()
    far = 2 if len(plain) > _SHORT else 1
    found = [(slips(plain, one.lower()), one) for one in known if one != word]
    return min((each for each in found if each[0] <= far), default=(0, None))[1]


def slips(word: str, other: str) -> int:
    """How many single letters are wrong, missing, too many, or swapped with their neighbour between two words."""
    two_back: list[int] = []
    back = list(range(len(other) + 1))
    for row, letter in enumerate(word, start=1):
        now = [row]
        for column, beside in enumerate(other, start=1):
            best = min(back[column] + 1, now[-1] + 1, back[column - 1] + (letter != beside))
            if row > 1 and column > 1 and letter == other[column - 2] and word[row - 2] == beside:
                best = min(best, two_back[column - 2] + 1)
            now.append(best)
        two_back, back = back, now
    return back[-1]
