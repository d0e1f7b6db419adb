"""The guided warm-up and the ease-off, step by step.

The page, the timer and the printed list all come from these steps, so they cannot disagree. What
the steps say is usual advice of teachers and therapists.
"""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.course.known import ACCENTS, DOUBLES, GHOSTS, PARADIDDLE, TWO_A_BEAT
from wristwork.languages.say import marked, say


@dataclass(frozen=True, slots=True)
class StepPattern:
    """What a step plays, in the words of the pattern language.

    ``letters`` is the sticking in large letters for the timer, one group a beat.
    """

    title: str
    letters: str
    lines: tuple[str, ...]
    note: str

    @property
    def fence(self) -> str:
        """The pattern as a fence for a Markdown page: drawn and playable, but no exercise."""
        title, note = say(self.title), say(self.note)
        return "\n".join(["```pattern", "example: yes", f"title: {title}", *self.lines, f"note: {note}", "```"])


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its name, what to do, what to feel, and what is played (nothing while moving).

    ``needs`` is what a student has to know for it, in the words of :mod:`wristwork.course.known`; ``instead`` is the
    step for those who don't know it yet, where there is one.
    """

    name: str
    do: str
    feel: str
    pattern: StepPattern | None = None
    needs: tuple[str, ...] = ()
    instead: Step | None = None


@dataclass(frozen=True, slots=True)
class Routine:
    """Steps in order, each with its length in seconds."""

    key: str
    title: str
    timed_steps: tuple[tuple[Step, int], ...]

    @property
    def seconds(self) -> int:
        """Length of the whole routine."""
        return sum(seconds for _, seconds in self.timed_steps)

    @property
    def minutes(self) -> int:
        """The same in minutes: routines last whole minutes."""
        return self.seconds // 60


MOVE = Step(
    marked("Move without sticks"),
    marked(
        "Walk on the spot. Roll the shoulders, let the arms swing, turn the wrists slowly, open and close the hands."
    ),
    marked("Easy and a little warmer. Nothing is pulled to its end."),
)
LOW_SINGLES = Step(
    marked("Low and slow"),
    marked(
        "Single strokes, one a beat, the bead a hand’s width above the pad at most. Let each stick come back by itself."
    ),
    marked("The stick does the work. The grip is just tight enough not to drop it."),
    StepPattern(
        marked("Low single strokes"), "R L R L", ("tempo: 60", "hands: R L R L"), marked("All low, all alike.")
    ),
)
LOW_EIGHTHS = Step(
    marked("Low, twice as many"),
    marked("Two strokes a beat at the same tempo, still low."),
    marked("As easy as before. If it is not, play one a beat again."),
    StepPattern(marked("Low eighths"), "RL RL RL RL", ("tempo: 60", "hands: RL RL RL RL"), marked("Still low.")),
    needs=(TWO_A_BEAT,),
)
LOW_DOUBLES = Step(
    marked("Two with each hand"),
    marked("Doubles, low. The second stroke is the rebound of the first: catch it, do not force it."),
    marked("Two even sounds from one easy motion."),
    StepPattern(
        marked("Low doubles"),
        "RR LL RR LL",
        ("tempo: 60 to 72 by 4", "hands: RR LL RR LL"),
        marked("Two even sounds from each hand."),
    ),
    needs=(TWO_A_BEAT, DOUBLES),
)
TWO_HEIGHTS = Step(
    marked("Two heights"),
    marked("One bar low, one bar high, one stroke a beat. The strokes grow because the stick falls from higher."),
    marked("Louder without more force, and the shoulders stay down."),
    StepPattern(
        marked("Two heights"),
        "R L … R> L> …",
        ("tempo: 60 to 72 by 4", "hands: R L R L | R> L> R> L>"),
        marked("Low, then high."),
    ),
    needs=(ACCENTS,),
)
THREE_HEIGHTS = Step(
    marked("Three heights"),
    marked("One bar very low, one bar low, one bar high. The strokes grow because the stick falls from higher."),
    marked("Louder without more force, and the shoulders stay down."),
    StepPattern(
        marked("Three heights"),
        "(R)(L) … RL … R>L> …",
        (
            "tempo: 60 to 72 by 4",
            "hands: (R)(L) (R)(L) (R)(L) (R)(L) | RL RL RL RL | R>L> R>L> R>L> R>L>",
        ),
        marked("Very low, low, high."),
    ),
    needs=(TWO_A_BEAT, ACCENTS, GHOSTS),
    instead=TWO_HEIGHTS,
)
PARADIDDLES = Step(
    marked("Paradiddles, a little faster each time"),
    marked("Low paradiddles. Begin at the first tempo and go one step up only while it stays clean and easy."),
    marked("The wrist stays loose. When it stiffens, go a step back."),
    StepPattern(
        marked("Low paradiddles"),
        "RLRR LRLL",
        ("tempo: 52 to 72 by 4", "hands: RLRR LRLL RLRR LRLL"),
        marked("Up a step only while it is easy."),
    ),
    needs=(PARADIDDLE,),
)
HIGH_AND_LOW = Step(
    marked("High and low"),
    marked(
        "Each group begins high and goes on low. After the accent the stick stays down; before the next one it lifts."
    ),
    marked("A whip down, then quiet. The lift is in no hurry."),
    StepPattern(
        marked("High and low"),
        "R>LRR L>RLL",
        ("tempo: 52 to 72 by 4", "hands: R>LRR L>RLL R>LRR L>RLL"),
        marked("One high stroke, three low ones."),
    ),
    needs=(PARADIDDLE, ACCENTS),
)
SLOWER_SINGLES = Step(
    marked("Slower and lower"),
    marked("Single strokes, softer and slower from one bar to the next."),
    marked("The hands get heavy and calm."),
    StepPattern(
        marked("Slower and lower"),
        "R L R L … R … L …",
        ("tempo: 60", "hands: R L R L | R . L .", "loop: no"),
        marked("Softer, then slower."),
    ),
)
SLOWER_AND_LOWER = Step(
    marked("Slower and lower"),
    marked("Single strokes, softer and slower from one line to the next, until they are one a beat and very low."),
    marked("The hands get heavy and calm."),
    StepPattern(
        marked("Slower and lower"),
        "RL … R L … (R) (L)",
        ("tempo: 60", "hands: RL RL RL RL | R L R L | (R) (L) (R) (L)", "loop: no"),
        marked("Softer, then slower."),
    ),
    needs=(TWO_A_BEAT, GHOSTS),
    instead=SLOWER_SINGLES,
)
LET_GO = Step(
    marked("Let go"),
    marked("Put the sticks down. Let the arms hang, shake the hands gently, breathe, walk a few steps."),
    marked("Hands and arms feel as they did before you began. If something hurts or tingles, the stop rule holds."),
)

SHORT = Routine(
    "short",
    marked("Short warm-up"),
    ((MOVE, 60), (LOW_SINGLES, 60), (LOW_DOUBLES, 60), (THREE_HEIGHTS, 60), (PARADIDDLES, 60)),
)
FULL = Routine(
    "full",
    marked("Full warm-up"),
    (
        (MOVE, 120),
        (LOW_SINGLES, 60),
        (LOW_EIGHTHS, 60),
        (LOW_DOUBLES, 90),
        (THREE_HEIGHTS, 90),
        (PARADIDDLES, 90),
        (HIGH_AND_LOW, 90),
    ),
)
EASE_OFF = Routine("ease-off", marked("Ease-off"), ((SLOWER_AND_LOWER, 60), (LET_GO, 60)))

ROUTINES = (SHORT, FULL, EASE_OFF)


def all_steps() -> tuple[Step, ...]:
    """Every step of the two warm-ups once, in the order of the full one."""
    return tuple(step for step, _ in FULL.timed_steps)
