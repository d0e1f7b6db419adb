"""Checks on how steeply the course rises."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto
from itertools import pairwise

from wristwork.course.checks.table import Check, at_exercise, at_week
from wristwork.course.course import Course, Exercise
from wristwork.course.grades import own_grade
from wristwork.course.techniques import techniques
from wristwork.course.weeks import Week
from wristwork.languages.numbers import decimal
from wristwork.languages.say import marked, say
from wristwork.page.problem import Problem
from wristwork.pattern.model import Side
from wristwork.technique.demand import HandDemand

RISE, NEW, SPEED, GRADE = "steep-rise", "too-much-new", "hand-speed", "grade"

# Points of the score: two whole grades.
STEEPEST_RISE = 20
MOST_NEW = 3
# Strokes (or motions) of one hand a second: the upper end of what rapid single-hand tapping is generally limited to
# (Fujii, Kudo, Ohtsuki & Oda, Neuroscience Letters 459, 2009).
FASTEST_HAND = 7
# Strokes of one hand a second, rebounds too: what was measured for a world-record holder (same source).
FASTEST_STROKES = 10
GRADES_APART = 1


class _Asked(Enum):
    """What a goal can ask too much of."""

    RUN = auto()
    MOTIONS = auto()
    STROKES = auto()


_ASKED = {
    (_Asked.RUN, Side.RIGHT): marked("'{id}' at {tempo} asks {rate} strokes in a row a second of the right hand"),
    (_Asked.RUN, Side.LEFT): marked("'{id}' at {tempo} asks {rate} strokes in a row a second of the left hand"),
    (_Asked.MOTIONS, Side.RIGHT): marked("'{id}' at {tempo} asks {rate} motions a second of the right hand"),
    (_Asked.MOTIONS, Side.LEFT): marked("'{id}' at {tempo} asks {rate} motions a second of the left hand"),
    (_Asked.STROKES, Side.RIGHT): marked("'{id}' at {tempo} asks {rate} strokes a second of the right hand"),
    (_Asked.STROKES, Side.LEFT): marked("'{id}' at {tempo} asks {rate} strokes a second of the left hand"),
}


def hardest(course: Course, week: Week) -> Exercise | None:
    """The exercise of a week's practice that asks most at its goal."""
    return max(course.practised_in(week), key=lambda exercise: exercise.at_goal.score, default=None)


def _steep_rise(course: Course) -> Iterable[Problem]:
    for before, week in pairwise(course.numbered):
        easier, harder = hardest(course, before), hardest(course, week)
        if easier is None or harder is None:
            continue
        rise = harder.at_goal.score - easier.at_goal.score
        if rise > STEEPEST_RISE:
            yield at_week(
                RISE,
                week,
                say(
                    "demand rises by {rise} points from week {before} to week {week}: from {low} ('{easier}') to "
                    "{high} ('{harder}')",
                    rise=f"{rise:.0f}",
                    before=before.number,
                    week=week.number,
                    low=f"{easier.at_goal.score:.0f}",
                    easier=easier.id,
                    high=f"{harder.at_goal.score:.0f}",
                    harder=harder.id,
                ),
                say(
                    "lower the goal of '{id}', or put a step between (at most {most} points a week)",
                    id=harder.id,
                    most=STEEPEST_RISE,
                ),
            )


def _too_much_new(course: Course) -> Iterable[Problem]:
    known: set[str] = set()
    for week in course.numbered:
        met = [name for exercise in course.taught_in(week) for name in techniques(exercise.pattern)]
        new = [name for name in dict.fromkeys(met) if name not in known]
        if len(new) > MOST_NEW:
            yield at_week(
                NEW,
                week,
                say(
                    "week {week} brings {count} new things: {things}",
                    week=week.number,
                    count=len(new),
                    things=", ".join(map(say, new)),
                ),
                say("leave some for another week (at most {most} at once)", most=MOST_NEW),
            )
        known.update(new)


def _hand_speed(course: Course) -> Iterable[Problem]:
    for exercise in course.exercises.values():
        hands = {Side.RIGHT: exercise.at_goal.right_hand, Side.LEFT: exercise.at_goal.left_hand}
        for side, hand in hands.items():
            past = _past_the_facts(hand)
            if past is not None:
                asked, rate = past
                found = say(_ASKED[asked, side], id=exercise.id, tempo=exercise.at_goal.tempo, rate=decimal(rate, 1))
                yield at_exercise(SPEED, exercise, found, _slower(asked), "tempo")


def _past_the_facts(hand: HandDemand) -> tuple[_Asked, float] | None:
    """What is asked of a hand that no fact allows, and how much of it a second."""
    run = hand.long_run_strokes_per_second or 0.0
    # A run too long to come from one motion has to be played stroke by stroke.
    if run > FASTEST_HAND:
        return _Asked.RUN, run
    if hand.motions_per_second > FASTEST_HAND:
        return _Asked.MOTIONS, hand.motions_per_second
    if hand.strokes_per_second > FASTEST_STROKES:
        return _Asked.STROKES, hand.strokes_per_second
    return None


def _slower(asked: _Asked) -> str:
    """What to do, and the fact that speaks for it."""
    if asked is _Asked.STROKES:
        return say("lower the goal: a record holder's hand was measured at {most} a second", most=FASTEST_STROKES)
    return say("lower the goal: a single hand is generally limited to 5 to {most} a second", most=FASTEST_HAND)


def _grade(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        own = own_grade(course, week)
        if week.grade is not None and own is not None and abs(week.grade - own) > GRADES_APART:
            yield at_week(
                GRADE,
                week,
                say(
                    "week {week} says grade {grade}, and its exercises come to grade {own}",
                    week=week.number,
                    grade=week.grade,
                    own=own,
                ),
                say("write grade: {own}, or change the tempos", own=own),
                "grade",
            )


CHECKS = (
    Check(
        RISE,
        "a rise in demand that is too steep between neighbouring weeks",
        f"At most {STEEPEST_RISE} points of the score, two grades, between the hardest exercises of two weeks in a "
        "row. Our own setting: a student who manages one week should recognise the next.",
        _steep_rise,
    ),
    Check(
        NEW,
        "too many new marks or techniques in one week",
        f"At most {MOST_NEW}. Our own setting: each of them wants a lesson of its own.",
        _too_much_new,
    ),
    Check(
        SPEED,
        "goal tempos past the facts about hand speed",
        f"At most {FASTEST_HAND} motions a second for one hand, or strokes in a run of four and more, and at most "
        f"{FASTEST_STROKES} strokes of any kind. Rapid single-hand tapping is generally limited to 5 to 7 strokes a "
        "second, and 10 were measured for a record holder (Fujii, Kudo, Ohtsuki and Oda 2009).",
        _hand_speed,
    ),
    Check(
        GRADE,
        "a declared grade that is far from the one worked out",
        f"At most {GRADES_APART} grade apart. The tutor's grade stands on the page in any case.",
        _grade,
    ),
)
