"""The week's practice, session by session: what to play, for how long, at which tempo.

Sessions are numbered and not named after weekdays, so that a missed day breaks nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from wristwork.course.safety.breaks import SessionStretch, breaks_needed, broken_up
from wristwork.course.weeks import Week
from wristwork.languages.say import marked, say
from wristwork.pattern.model import Pattern, Side, Tempo
from wristwork.technique.strokes import hand_strokes

MOVE_UP = marked("Move up only if the last session was clean and easy; if it was not, stay at its tempo.")
# The anchor of the practice card on a week's page.
PRACTICE_ANCHOR = "this-weeks-practice"

# Minutes. Usual advice is a few minutes of warming up and an ease-off at the end; the lengths are our own.
FULL_WARM_UP, WARM_UP, SHORT_WARM_UP = 10, 5, 2
LONG_EASE_OFF, EASE_OFF, SHORT_EASE_OFF = 3, 2, 1
LONG_SESSION, SHORT_SESSION = 60, 15
# What is new gets this many shares of the time for each one of an exercise met again.
NEW_SHARES, AGAIN_SHARES = 2, 1

# Minutes for one exercise in one session, at least: our own setting.
SHORTEST_TURN = 2
# A look back at an earlier exercise: long enough to find it again. Our own setting.
LOOK_BACK = 2

# The tempo at which each exercise was played last, by its id.
Ended = Mapping[str, int]


class Activity(StrEnum):
    """What a part of a session is."""

    WARM_UP = "warm-up"
    EXERCISE = "exercise"
    OWN_CHOICE = "own choice"
    BREAK = "break"
    EASE_OFF = "ease-off"


_NAMES = {
    Activity.WARM_UP: marked("Warm-up"),
    Activity.EXERCISE: marked("Exercise"),
    Activity.OWN_CHOICE: marked("Own choice"),
    Activity.BREAK: marked("Break"),
    Activity.EASE_OFF: marked("Ease-off"),
}


def activity_name(activity: Activity) -> str:
    """What a part of a session is called."""
    return say(_NAMES[activity])


@dataclass(frozen=True, slots=True)
class PlannedExercise:
    """An exercise as a week's plan needs it: the tempos of its climb and how busy it keeps each hand."""

    id: str
    title: str
    tempo: Tempo
    right_per_beat: Fraction = Fraction(0)
    left_per_beat: Fraction = Fraction(0)
    again: bool = False

    @classmethod
    def of(cls, pattern: Pattern, again: bool = False) -> PlannedExercise:
        """What the plan needs of an exercise of the course."""
        assert pattern.id is not None, "an exercise has an id"
        right, left = (Fraction(count, pattern.played_beats) for count in hand_strokes(pattern))
        return cls(pattern.id, pattern.title or pattern.id, pattern.tempo, right, left, again)

    def coming_back(self, times: int) -> PlannedExercise:
        """The exercise for a look back: a step below its goal the first time, at its goal from then on."""
        tempo = max(self.tempo.start, self.tempo.goal - self.tempo.step) if times == 1 else self.tempo.goal
        return replace(self, tempo=replace(self.tempo, start=tempo, goal=tempo), again=True)

    def going_on_from(self, tempo: int | None) -> PlannedExercise:
        """The exercise started where it ended in an earlier week."""
        if tempo is None:
            return self
        return replace(self, tempo=replace(self.tempo, start=tempo, goal=max(tempo, self.tempo.goal)))


@dataclass(frozen=True, slots=True)
class SessionPart:
    """A part of a session. An exercise has an id, a title and a tempo in its own beats a minute.

    ``right_strokes`` and ``left_strokes`` are what it comes to when it is played without a pause.
    """

    activity: Activity
    minutes: int
    exercise: str | None = None
    title: str | None = None
    tempo: int | None = None
    again: bool = False
    right_strokes: int = 0
    left_strokes: int = 0


@dataclass(frozen=True, slots=True)
class Session:
    """Session ``number`` of ``of``."""

    number: int
    of: int
    parts: tuple[SessionPart, ...]

    @property
    def minutes(self) -> int:
        return sum(part.minutes for part in self.parts)

    @property
    def playing_minutes(self) -> int:
        """Minutes in which there is sound: all but the breaks."""
        return self.minutes - self.minutes_of(Activity.BREAK)

    def minutes_of(self, activity: Activity) -> int:
        return sum(part.minutes for part in self.parts if part.activity is activity)

    def strokes(self, side: Side) -> int:
        """Strokes of one hand in the exercises, if they are played without a pause; the warm-up is not counted."""
        return sum(part.right_strokes if side is Side.RIGHT else part.left_strokes for part in self.parts)


def sessions(
    week: Week,
    exercises: Iterable[PlannedExercise],
    days: int | None = None,
    back: Sequence[PlannedExercise] = (),
) -> tuple[Session, ...]:
    """The sessions of a week: warm-up, exercises with breaks between them, ease-off.

    Each session's minutes add up to the week's exactly. Where there is not a minute for each exercise they
    take turns from session to session. ``days`` is the number of sessions where it is not the week's. ``back`` are
    earlier exercises to look back at, one in each session as far as they go.
    None for a week that does not say its minutes.
    """
    if week.minutes is None:
        return ()
    all_planned = tuple(exercises)
    count = days or week.days
    rounds = [_turn(all_planned, number, exercise_minutes(week.minutes)) for number in range(count)]
    tempos = {
        planned.id: iter(climb(planned.tempo, sum(planned in round_ for round_ in rounds))) for planned in all_planned
    }
    return tuple(
        Session(number, count, _parts(week.minutes, played, back[number - 1 : number]))
        for number, played in enumerate(([(each, next(tempos[each.id])) for each in round_] for round_ in rounds), 1)
    )


def climb(tempo: Tempo, count: int) -> tuple[int, ...]:
    """The tempos of ``count`` sessions: equal ratios from the start to the goal, each stepped down to the grid.

    The grid starts at the start and goes by the step; the last session is at the goal. A single
    session works at the start.
    """
    if count < 2:
        return (tempo.start,) * count
    return (*(_stepped_down(tempo, number, count - 1) for number in range(count - 1)), tempo.goal)


def _stepped_down(tempo: Tempo, number: int, last: int) -> int:
    """The highest tempo of the grid that is not above ``start · (goal / start) ^ (number / last)``."""
    # Compared in whole numbers: a root that comes out a hair too small would lose a whole step.
    ceiling = tempo.goal**number * tempo.start ** (last - number)
    steps = 0
    while (tempo.start + (steps + 1) * tempo.step) ** last <= ceiling:
        steps += 1
    return tempo.start + steps * tempo.step


def ended(week: Sequence[Session]) -> Ended:
    """The tempo at which each exercise of a week's sessions was played last."""
    return {
        part.exercise: part.tempo
        for session in week
        for part in session.parts
        if part.exercise is not None and part.tempo is not None
    }


def warm_up_minutes(minutes: int) -> int:
    """How long a session of so many minutes warms up."""
    return SHORT_WARM_UP if minutes < SHORT_SESSION else FULL_WARM_UP if minutes >= LONG_SESSION else WARM_UP


def ease_off_minutes(minutes: int) -> int:
    """How long it eases off."""
    return SHORT_EASE_OFF if minutes < SHORT_SESSION else LONG_EASE_OFF if minutes >= LONG_SESSION else EASE_OFF


def has_room_to_look_back(minutes: int, exercises: int, shortest: int) -> bool:
    """Is there time for a look back, with at least the ``shortest`` minutes for each exercise of a session?"""
    return exercise_minutes(minutes) >= LOOK_BACK + exercises * shortest


def exercise_minutes(minutes: int) -> int:
    """What is left for the exercises of a session."""
    breaks = sum(breaks_needed(minutes))
    return minutes - warm_up_minutes(minutes) - ease_off_minutes(minutes) - breaks


def _turn(all_planned: tuple[PlannedExercise, ...], number: int, minutes: int) -> tuple[PlannedExercise, ...]:
    """The exercises of a session: all of them where each can have a minute, else as many as fit, in turn."""
    if len(all_planned) <= minutes:
        return all_planned
    first = number * minutes % len(all_planned)
    taken = {(first + turn) % len(all_planned) for turn in range(minutes)}
    return tuple(planned for index, planned in enumerate(all_planned) if index in taken)


def _parts(
    minutes: int, played: Sequence[tuple[PlannedExercise, int]], back: Sequence[PlannedExercise]
) -> tuple[SessionPart, ...]:
    time = exercise_minutes(minutes) - LOOK_BACK * len(back)
    shares = shared_out(time, [AGAIN_SHARES if planned.again else NEW_SHARES for planned, _ in played])
    middle = [_exercise(planned, tempo, share) for (planned, tempo), share in zip(played, shares, strict=True)]
    if not played:
        middle = [SessionPart(Activity.OWN_CHOICE, time)]
    parts = [
        SessionPart(Activity.WARM_UP, warm_up_minutes(minutes)),
        *(_exercise(planned, planned.tempo.start, LOOK_BACK) for planned in back),
        *middle,
        SessionPart(Activity.EASE_OFF, ease_off_minutes(minutes)),
    ]
    stretches = broken_up([part.minutes for part in parts], breaks_needed(minutes))
    return tuple(_cut(parts, stretch) for stretch in stretches)


def _exercise(planned: PlannedExercise, tempo: int, minutes: int) -> SessionPart:
    return SessionPart(
        Activity.EXERCISE,
        minutes,
        planned.id,
        planned.title,
        tempo,
        planned.again,
        round(planned.right_per_beat * tempo * minutes),
        round(planned.left_per_beat * tempo * minutes),
    )


def _cut(parts: Sequence[SessionPart], stretch: SessionStretch) -> SessionPart:
    """The part, or the share of it, that a stretch of time is."""
    if stretch.part is None:
        return SessionPart(Activity.BREAK, stretch.minutes)
    whole = parts[stretch.part]
    share = Fraction(stretch.minutes, whole.minutes)
    return replace(
        whole,
        minutes=stretch.minutes,
        right_strokes=round(whole.right_strokes * share),
        left_strokes=round(whole.left_strokes * share),
    )


def shared_out(minutes: int, shares: Sequence[int]) -> tuple[int, ...]:
    """Whole minutes in proportion to the shares, at least one each; the earlier ones get what is left over."""
    if not shares:
        return ()
    spare = minutes - len(shares)
    exact = [Fraction(spare * share, sum(shares)) for share in shares]
    given = [int(part) for part in exact]
    order = sorted(range(len(shares)), key=lambda index: (given[index] - exact[index], index))
    for index in order[: spare - sum(given)]:
        given[index] += 1
    return tuple(1 + part for part in given)
