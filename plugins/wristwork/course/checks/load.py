"""Checks on how much practice a week asks for."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from wristwork.course.checks.table import Check, at_week
from wristwork.course.course import Course
from wristwork.course.load import GROWS_AT_MOST, MINUTES_FLOOR, STROKES_FLOOR, day_load, sudden_growth
from wristwork.course.plan import SHORTEST_TURN, exercise_minutes
from wristwork.course.safety import facts
from wristwork.course.safety.exposure import NO_PROTECTION, sound_share
from wristwork.page.problem import Problem
from wristwork.wording import counted

GROWTH, MINUTES, SOUND = "load", "minutes-fit", "sound-share"

# Minutes for one exercise in one session: our own setting.
LONGEST_TURN = 15


def _load_growth(course: Course) -> Iterable[Problem]:
    for before, week in pairwise(course.numbered):
        lighter, heavier = day_load(course.plans[before.path]), day_load(course.plans[week.path])
        if lighter is None or heavier is None:
            continue
        for growth in sudden_growth(lighter, heavier):
            yield at_week(
                GROWTH,
                week,
                f"{growth.measure} grow by {growth.percent} % from week {before.number} to week {week.number} "
                f"({growth.before} to {growth.after})",
                f"spread it over more weeks: our own cautious limit is {GROWS_AT_MOST * 100:.0f} % a week",
                "minutes",
            )


def _minutes_fit(course: Course) -> Iterable[Problem]:
    has_plans = any(week.minutes is not None for week in course.weeks)
    for week in course.weeks:
        if week.minutes is None:
            if not has_plans:  # a tutor who does without plans
                continue
            what = f"week {week.number} doesn't say how long a session is, so it has no plan"
            yield at_week(MINUTES, week, what, "write the minutes of a session, as in minutes: 25", "minutes")
            continue
        count = len(course.practised_in(week))
        left = exercise_minutes(week.minutes)
        if count and left < count * SHORTEST_TURN:
            yield at_week(
                MINUTES,
                week,
                f"a session of {week.minutes} minutes leaves {left} for {counted(count, 'exercise')}",
                f"give each at least {SHORTEST_TURN} minutes: more minutes, or fewer exercises",
                "minutes",
            )
        if count and left > count * LONGEST_TURN:
            yield at_week(
                MINUTES,
                week,
                f"a session of {week.minutes} minutes leaves {left} for {counted(count, 'exercise')}",
                f"{LONGEST_TURN} minutes are long enough for one: fewer minutes, or take something up again",
                "minutes",
            )


def _sound_share(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        plan = course.plans[week.path]
        if week.surface is None or not plan:
            continue
        share = max(sound_share(session.playing_minutes, week.surface, week.protection) or 0 for session in plan)
        if share > facts.HALF_A_DAY.value:
            bare = week.protection.kind is NO_PROTECTION
            worn = "without protection" if bare else f"with {week.protection}"
            yield at_week(
                SOUND,
                week,
                f"a session on the {week.surface.name} {worn} takes {share:.0f} % of a day's sound (a cautious guess)",
                "wear protection and say so (protection: …), or practise on a pad" if bare else "practise on a pad",
                "surface",
            )


CHECKS = (
    Check(
        GROWTH,
        "a day's load (minutes, strokes of a hand) that grows too fast",
        f"At most {GROWS_AT_MOST * 100:.0f} % from one week to the next, once past {MINUTES_FLOOR} minutes or "
        f"{STROKES_FLOOR} strokes of a hand in a session. Our own cautious setting: suddenly increased load is named "
        "as a cause of trouble (Chan and Ackermann 2014), but no source gives a figure.",
        _load_growth,
    ),
    Check(
        MINUTES,
        "minutes that don't fit the exercises",
        f"{SHORTEST_TURN} to {LONGEST_TURN} minutes for each exercise in a session. Our own setting.",
        _minutes_fit,
    ),
    Check(
        SOUND,
        "a session that takes more than half a day's dose of sound",
        f"At most {facts.HALF_A_DAY.value:.0f} % of a day's dose with the protection stated, counted with the higher "
        "end of the guess for the surface, so that some is left for the rest of the day. Our own setting.",
        _sound_share,
    ),
)
