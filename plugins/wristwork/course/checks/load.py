"""Checks on how much practice a week asks for."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from wristwork.course.checks.table import Check, at_week
from wristwork.course.course import Course
from wristwork.course.load import GROWS_AT_MOST, MINUTES_FLOOR, STROKES_FLOOR, Measure, day_load, sudden_growth
from wristwork.course.plan import SHORTEST_TURN, exercise_minutes
from wristwork.course.safety import facts
from wristwork.course.safety.exposure import (
    ACOUSTIC_KIT,
    NO_PROTECTION,
    PAD,
    QUIET_KIT,
    Protection,
    Surface,
    sound_share,
)
from wristwork.languages.say import marked, say, say_count
from wristwork.page.problem import Problem

GROWTH, MINUTES, SOUND = "load", "minutes-fit", "sound-share"

# Minutes for one exercise in one session: our own setting.
LONGEST_TURN = 15

_GROWING = {
    Measure.MINUTES: marked(
        "minutes a session grow by {percent} % from week {before} to week {week} ({less} to {more})"
    ),
    Measure.RIGHT_STROKES: marked(
        "strokes of the right hand in a session grow by {percent} % from week {before} to week {week} "
        "({less} to {more})"
    ),
    Measure.LEFT_STROKES: marked(
        "strokes of the left hand in a session grow by {percent} % from week {before} to week {week} ({less} to {more})"
    ),
}
_BARE = {
    PAD: marked("a session on the practice pad without protection takes {share} % of a day's sound (a cautious guess)"),
    QUIET_KIT: marked(
        "a session on the quiet kit without protection takes {share} % of a day's sound (a cautious guess)"
    ),
    ACOUSTIC_KIT: marked(
        "a session on the acoustic kit without protection takes {share} % of a day's sound (a cautious guess)"
    ),
}
_PROTECTED = {
    PAD: marked("a session on the practice pad with {worn} takes {share} % of a day's sound (a cautious guess)"),
    QUIET_KIT: marked("a session on the quiet kit with {worn} takes {share} % of a day's sound (a cautious guess)"),
    ACOUSTIC_KIT: marked(
        "a session on the acoustic kit with {worn} takes {share} % of a day's sound (a cautious guess)"
    ),
}


def _load_growth(course: Course) -> Iterable[Problem]:
    for before, week in pairwise(course.numbered):
        lighter, heavier = day_load(course.plans[before.path]), day_load(course.plans[week.path])
        if lighter is None or heavier is None:
            continue
        for growth in sudden_growth(lighter, heavier):
            yield at_week(
                GROWTH,
                week,
                say(
                    _GROWING[growth.measure],
                    percent=growth.percent,
                    before=before.number,
                    week=week.number,
                    less=growth.before,
                    more=growth.after,
                ),
                say(
                    "spread it over more weeks: our own cautious limit is {most} % a week",
                    most=round(GROWS_AT_MOST * 100),
                ),
                "minutes",
            )


def _minutes_fit(course: Course) -> Iterable[Problem]:
    has_plans = any(week.minutes is not None for week in course.weeks)
    for week in course.weeks:
        if week.minutes is None:
            if not has_plans:  # a tutor who does without plans
                continue
            what = say("week {week} doesn't say how long a session is, so it has no plan", week=week.number)
            yield at_week(MINUTES, week, what, say("write the minutes of a session, as in minutes: 25"), "minutes")
            continue
        count = len(course.practised_in(week))
        left = exercise_minutes(week.minutes)
        if count and left < count * SHORTEST_TURN:
            remedy = say(
                "give each at least {least} minutes: more minutes, or fewer exercises",
                least=SHORTEST_TURN,
            )
            yield at_week(MINUTES, week, _leaves(week.minutes, left, count), remedy, "minutes")
        if count and left > count * LONGEST_TURN:
            remedy = say(
                "{most} minutes are long enough for one: fewer minutes, or take something up again",
                most=LONGEST_TURN,
            )
            yield at_week(MINUTES, week, _leaves(week.minutes, left, count), remedy, "minutes")


def _leaves(minutes: int, left: int, count: int) -> str:
    return say_count(
        "a session of {minutes} minutes leaves {left} for {count} exercise",
        "a session of {minutes} minutes leaves {left} for {count} exercises",
        count,
        minutes=minutes,
        left=left,
    )


def _sound_share(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        plan = course.plans[week.path]
        if week.surface is None or not plan:
            continue
        share = max(sound_share(session.playing_minutes, week.surface, week.protection) or 0 for session in plan)
        if share > facts.HALF_A_DAY.value:
            bare = week.protection.kind is NO_PROTECTION
            remedy = (
                say("wear protection and say so (protection: …), or practise on a pad")
                if bare
                else say("practise on a pad")
            )
            yield at_week(SOUND, week, _too_loud(week.surface, week.protection, share), remedy, "surface")


def _too_loud(where: Surface, worn: Protection, share: float) -> str:
    texts = _BARE if worn.kind is NO_PROTECTION else _PROTECTED
    return say(texts[where], worn=worn, share=f"{share:.0f}")


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
