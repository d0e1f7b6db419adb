"""The warm-up's patterns are real ones, and they grow from low and slow."""

import pytest

from wristwork.course.safety import warm_up
from wristwork.pattern import read_one
from wristwork.pattern.model import Level
from wristwork.technique.strokes import strokes

PLAYED = [step for step in (*warm_up.all_steps(), warm_up.SLOWER_AND_LOWER) if step.pattern]


def read(step):
    return read_one(step.pattern.fence.removeprefix("```pattern\n").removesuffix("\n```"))


@pytest.mark.parametrize("step", PLAYED, ids=lambda step: step.name)
def test_every_pattern_reads_as_an_example(step):
    assert read(step).example


def levels(step):
    return {stroke.level for stroke in strokes(read(step))}


def strokes_a_second(step):
    pattern = read(step)
    return len(strokes(pattern)) / pattern.beats * pattern.tempo.start / 60


def test_height_grows_through_the_warm_up():
    played = [step for step in warm_up.all_steps() if step.pattern]
    high = [Level.ACCENT in levels(step) for step in played]
    assert not any(high[:3])
    assert high[-1]


def test_speed_grows_and_never_races():
    played = [step for step in warm_up.all_steps() if step.pattern]
    assert strokes_a_second(played[0]) == 1
    assert max(strokes_a_second(step) for step in played) < 4
    assert strokes_a_second(played[-1]) > 3 * strokes_a_second(played[0])


def test_the_ease_off_ends_softer_and_slower_than_it_began():
    pattern = read(warm_up.SLOWER_AND_LOWER)
    order = {Level.GHOST: 0, Level.TAP: 1, Level.ACCENT: 2}
    played = strokes(pattern)
    assert [order[stroke.level] for stroke in played] == sorted((order[s.level] for s in played), reverse=True)
    assert played[-1].at - played[-2].at > played[1].at - played[0].at
