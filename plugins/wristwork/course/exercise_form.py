"""What `x/<id>/exercise.json` holds, said once: the data is made of these values, and its schema out of their types.

Whoever reads the file reads the descriptions here in its schema. What may be left out is ``UNSET``.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Annotated, Final, Literal, TypeVar

from msgspec import UNSET, Meta, Struct, UnsetType, field

from wristwork.pattern.click import MOST_BARS
from wristwork.pattern.model import Drum, Hairpin, Level, Loudness, Manner
from wristwork.pattern.settings import (
    FASTEST,
    LONGEST_ID,
    LONGEST_STEP,
    LOWER,
    MOST_REPEATS,
    MOST_UPPER,
    PULSES,
    SHORTEST_ID,
    SLOWEST,
)
from wristwork.technique.strokes import Height, Kind, Limb, StrokeName

SCHEMA: Final = 2


_T = TypeVar("_T")


def _one_of(values: Iterable[int]) -> Meta:
    return Meta(extra_json_schema={"enum": list(values)})


Id = Annotated[str, Meta(pattern="^[a-z0-9]+(-[a-z0-9]+)*$", min_length=SHORTEST_ID, max_length=LONGEST_ID, title="Id")]
Tempo = Annotated[int, Meta(ge=SLOWEST, le=FASTEST, title="Tempo", description="Beats a minute.")]
NotNegative = Annotated[int, Meta(ge=0)]
Positive = Annotated[int, Meta(ge=1)]
Ratio = Annotated[
    tuple[NotNegative, Positive],
    Meta(description="An exact fraction in lowest terms: numerator, denominator."),
]
Figure = Annotated[float, Meta(ge=0)]
Gain = Annotated[float, Meta(gt=0)]
Several = Annotated[tuple[_T, ...], Meta(min_length=1)]
Pulses = Annotated[tuple[Annotated[int, _one_of(PULSES)], ...], Meta(min_length=2)]


def ratio(value: Fraction) -> tuple[int, int]:
    """A fraction as the data writes it."""
    return value.numerator, value.denominator


class Form(Struct, frozen=True, forbid_unknown_fields=True):
    """A value that knows how it is written in JSON."""


class TempoSpan(Form, frozen=True):
    """Beats a minute, and the step from one tempo to the next."""

    start: Tempo
    goal: Tempo
    step: Annotated[int, Meta(ge=1, le=LONGEST_STEP)]


class StrokeForm(Form, frozen=True):
    """One stroke as it is played."""

    at: Annotated[Ratio, Meta(description="Beats from the start of the pattern.")]
    limb: Limb
    level: Level
    kind: Kind
    stroke: StrokeName | None
    starts: Height | None
    ends: Height | None
    on: Drum
    written: Annotated[
        Ratio | UnsetType,
        Meta(description="Where it is drawn, in beats of the written bars; left out where that is `at`."),
    ] = UNSET
    gain: Annotated[
        Gain | UnsetType, Meta(description="How many times as loud as its level alone says; left out for once.")
    ] = UNSET
    ahead_ms: Annotated[Positive | UnsetType, Meta(description="Milliseconds before the main note.")] = UNSET
    ahead_at_most: Annotated[
        Ratio | UnsetType,
        Meta(description="Beats; the whole ornament is squeezed so that it starts no further ahead than this."),
    ] = UNSET


Ahead = Annotated[
    StrokeForm,
    Meta(extra_json_schema={"dependentRequired": {"ahead_ms": ["ahead_at_most"], "ahead_at_most": ["ahead_ms"]}}),
]


class SwingForm(Form, frozen=True):
    """Of two notes that fill `pair` beats the first takes this share; null: as the tempo has it.

    The pairs in `even`, counted from 0, are played as they are written.
    """

    pair: Ratio
    share: Ratio | None
    even: tuple[NotNegative, ...]


class ClickForm(Form, frozen=True):
    """The practice click.

    The beats of a bar on which it sounds (none: all of them), or halfway between them; into how many parts of a beat
    it sounds, softer, the second of two late where it is swung; for how many bars it sounds and is then silent
    (0: always).
    """

    beats: tuple[Positive, ...]
    off_beats: bool = field(name="offBeats")
    into: Annotated[int, Meta(ge=1, le=6)]
    swung: bool
    on: Annotated[int, Meta(ge=0, le=MOST_BARS)]
    off: Annotated[int, Meta(ge=0, le=MOST_BARS)]


class PaceForm(Form, frozen=True):
    """From which beat of a pass on the tempo is which share of the exercise's."""

    start: Ratio = field(name="from")
    share: Ratio


class WordsForm(Form, frozen=True):
    """Words over the notes, or the letter of a section; `at` counts beats of the written bars."""

    at: Ratio
    words: str
    section: bool


class DynamicForm(Form, frozen=True):
    """How loud a passage is; strokes have it in their `gain`. `hairpin` leads to the next one."""

    at: Ratio
    loudness: Loudness
    hairpin: Hairpin | None


class HandForm(Form, frozen=True):
    """What a hand has to do."""

    strokes_per_second: Figure
    fastest_strokes_per_second: Figure | None
    motions_per_second: Figure
    shortest_lift_s: Annotated[Figure | None, Meta(description="Seconds; null where there is no up stroke.")]
    shortest_stop_s: Annotated[Figure | None, Meta(description="Seconds; null where there is no down stroke.")]
    height_changes_per_second: Figure
    drum_changes_per_second: Figure


class DemandFigures(Form, frozen=True):
    """The demand at a tempo."""

    tempo: Tempo
    right_hand: HandForm
    left_hand: HandForm
    limbs: Annotated[int, Meta(ge=0, le=4)]
    score: Annotated[float, Meta(ge=0, le=100)]
    grade: Annotated[int, Meta(ge=1, le=10)]


class DemandForm(DemandFigures, frozen=True):
    """The demand at the goal tempo, and at the starting tempo."""

    at_start: DemandFigures


class ExerciseForm(Form, frozen=True, kw_only=True):
    """A Wristwork exercise."""

    schema: Literal[2]
    since_1: Annotated[
        tuple[str, ...],
        Meta(
            description="Keys of this exercise and its strokes that change what is heard and that a reader of version "
            "1 does not know (of `on`: not all drums). Where there are none, it plays the exercise as it always did."
        ),
    ]
    id: Id
    title: Annotated[str, Meta(min_length=1)]
    lesson: Annotated[str, Meta(description="Address of the lesson within the site, with its anchor.")]
    version: Annotated[
        str | UnsetType, Meta(description="Of drawing and data: what a page shows and plays has one.")
    ] = UNSET
    week: int | None
    grade: int | None
    grows_from: Id | None = field(name="from")
    requires: tuple[Id, ...]
    time: tuple[Annotated[int, Meta(ge=1, le=MOST_UPPER)], Annotated[int, _one_of(LOWER)]]
    tempo: TempoSpan
    beats: Annotated[int, Meta(ge=1, description="Beats of one pass of the bars, as they are played.")]
    loop: bool
    motion: Annotated[Manner | UnsetType, Meta(description="How the hands are shown to move; left out for wrist.")] = (
        UNSET
    )
    repeat: Annotated[int, Meta(ge=1, le=MOST_REPEATS)]
    strokes: tuple[Ahead, ...]
    swing: SwingForm | UnsetType = UNSET
    click: Annotated[ClickForm | UnsetType, Meta(description="Left out: on every beat.")] = UNSET
    pickup: Annotated[
        Positive | UnsetType,
        Meta(description="Beats of the pick-up, with which a pass begins; left out where there is none."),
    ] = UNSET
    paces: Annotated[Several[PaceForm] | UnsetType, Meta(description="Left out where the tempo stays the same.")] = (
        UNSET
    )
    passages: Annotated[
        Several[tuple[NotNegative, NotNegative]] | UnsetType,
        Meta(
            description="What is played of the bars that are drawn in one pass, in order: from beat to beat. "
            "Left out where that is all.",
        ),
    ] = UNSET
    pulses: Annotated[
        Pulses | UnsetType,
        Meta(
            description="The unlike groups of beats in which a bar is counted; left out where beats are alike.",
        ),
    ] = UNSET
    buzzes: Annotated[
        Several[Ratio] | UnsetType,
        Meta(
            description="Beats that each buzz fills, in the order of the strokes; left out where none is.",
        ),
    ] = UNSET
    words: Several[WordsForm] | UnsetType = UNSET
    dynamics: Several[DynamicForm] | UnsetType = UNSET
    demand: DemandForm
