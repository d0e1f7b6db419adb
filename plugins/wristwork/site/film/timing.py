"""When what happens in a film of an exercise, and where in its bars it is at any time."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from wristwork.pattern.model import Pattern
from wristwork.pattern.pace import pace
from wristwork.sound.schedule import beat_seconds, count_in_beats, counted_tempo, pass_beats, pass_seconds

# All in seconds. A chat plays so much without being asked twice; about the middle is wished for.
SHORTEST, WISHED, LONGEST = 8, 12, 20
LEAD_IN = Fraction(1, 20)
LONGEST_COUNT_IN = 6
# The address is seen so long, while the last stroke rings out.
END_CARD = Fraction(5, 2)
FADE = Fraction(3, 4)
FRAMES_PER_SECOND = 25
_TO_A_BEAT = 24


@dataclass(frozen=True, slots=True)
class FilmTimes:
    """When what happens, in seconds from the film's start.

    ``clicks`` clicks from :data:`LEAD_IN` on; ``passes`` passes from ``begins`` on; the address from ``closes`` on.
    ``is_whole`` says whether all bars are played.
    """

    tempo: int
    clicks: int
    begins: Fraction
    passes: int
    closes: Fraction
    ends: Fraction
    is_whole: bool

    @property
    def frames(self) -> int:
        """How many pictures the film has."""
        return ceil(self.ends * FRAMES_PER_SECOND)


def film_times(pattern: Pattern) -> FilmTimes:
    """Whole passes at the start tempo for about 12 seconds, or as much of the first one as 20 seconds hold."""
    tempo = pattern.tempo.start
    beat = beat_seconds(counted_tempo(pattern, tempo))
    clicks = min(count_in_beats(pattern), int(LONGEST_COUNT_IN / beat))
    begins = LEAD_IN + clicks * beat
    one_pass = pass_seconds(pattern, tempo)
    room = LONGEST - END_CARD - begins
    wished = ceil((WISHED - END_CARD - begins) / one_pass)
    passes = max(1, min(wished, floor(room / one_pass)))
    is_whole = one_pass <= room
    closes = begins + (passes * one_pass if is_whole else room)
    return FilmTimes(tempo, clicks, begins, passes, closes, closes + END_CARD, is_whole)


@dataclass(frozen=True, slots=True)
class Way:
    """The way through the written bars of a pattern, as it is played."""

    pattern: Pattern
    times: FilmTimes

    def written_beat(self, seconds: float) -> float | None:
        """Where in the written bars it is so many seconds into the film; None before the first beat and at the end."""
        since = Fraction(seconds).limit_denominator(10_000) - self.times.begins
        if since < 0 or seconds >= self.times.closes:
            return None
        played = self._played_beat(since) % self.pattern.played_beats
        gone = 0
        for passage in self.pattern.passages:
            length = passage.end - passage.start
            if played < gone + length:
                return float(passage.start + played - gone)
            gone += length
        return None

    def _played_beat(self, since: Fraction) -> Fraction:
        """The beat since the first one of the first pass: the inverse of what goes by."""
        beat = beat_seconds(self.times.tempo)
        own = pace(self.pattern)
        if own.is_even:
            return since / beat
        count = self.times.passes * pass_beats(self.pattern) * _TO_A_BEAT
        number = bisect_right(range(count + 1), since, key=lambda step: own.elapsed(Fraction(step, _TO_A_BEAT)) * beat)
        return Fraction(max(number - 1, 0), _TO_A_BEAT)
