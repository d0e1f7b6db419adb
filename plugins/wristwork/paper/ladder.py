"""The tempos of an exercise as a ladder, to tick on paper."""

from __future__ import annotations

from wristwork.pattern.model import Tempo

# As many as fit in three rows of a sheet.
MOST_RUNGS = 24


def tempo_ladder(tempo: Tempo) -> tuple[int, ...]:
    """The tempos from the start to the goal by the step; where they are too many, by a multiple of it."""
    step = tempo.step
    while (tempo.goal - tempo.start) / step >= MOST_RUNGS - 1:
        step += tempo.step
    return (*range(tempo.start, tempo.goal, step), tempo.goal)
