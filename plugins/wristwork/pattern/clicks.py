"""A practice click as a value."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Between(StrEnum):
    """What sounds between the beats, softer."""

    NOTHING = "nothing"
    EIGHTHS = "eighths"
    SWUNG = "swung eighths"
    TRIPLETS = "triplets"
    SIXTEENTHS = "sixteenths"


@dataclass(frozen=True, slots=True)
class PracticeClick:
    """``beats`` are those of a bar on which it sounds, from 1: none for every beat. ``off_beats`` are halfway between.

    With ``on`` and ``off`` it sounds for so many bars and is silent for so many, in turn.
    """

    beats: tuple[int, ...] = ()
    off_beats: bool = False
    between: Between = Between.NOTHING
    on: int = 0
    off: int = 0
