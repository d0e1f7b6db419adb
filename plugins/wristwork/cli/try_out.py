"""``wristwork try``: a typed sticking as strokes and heights, in the terminal."""

from __future__ import annotations

import shutil

from wristwork.cli.lanes import picture
from wristwork.cli.paint import Paint
from wristwork.drawing.words import words
from wristwork.languages.numbers import decimal
from wristwork.languages.say import say
from wristwork.page.problem import Problem, printable
from wristwork.pattern import read_one
from wristwork.pattern.model import Pattern
from wristwork.pattern.problems import PatternError
from wristwork.technique.demand import HandDemand, demand
from wristwork.technique.strokes import Limb

# What letters and lanes don't show is told in words.
_TOLD = ("feel", "pick-up", "repeats", "endings", "sections", "text", "dynamics", "tempos")


def try_out(lines: dict[str, str], paint: Paint, errors: Paint) -> int:
    """Show what some lines of a pattern mean, or what is wrong with them."""
    text = "\n".join(["example: yes", *(f"{key}: {' '.join(value.split())}" for key, value in lines.items())])
    try:
        pattern = read_one(text)
    except PatternError as error:
        for problem in error.problems:
            _tell(problem, errors)
        return 1
    width = shutil.get_terminal_size((100, 24)).columns
    for line in picture(pattern, paint, width):
        paint.line(line)
    if any(key in lines for key in _TOLD):
        paint.line(words(pattern).about)
    _sum_up(pattern, paint)
    return 0


def _tell(problem: Problem, errors: Paint) -> None:
    errors.line(f"wristwork: {errors.styled('wrong', printable(problem.found))}")
    for line in str(problem).splitlines()[1:]:
        errors.line(line)


def _sum_up(pattern: Pattern, paint: Paint) -> None:
    found = demand(pattern, pattern.tempo.goal)
    head = say(
        "At {tempo} beats a minute: demand {score} of 100, grade {grade}.",
        tempo=found.tempo,
        score=f"{found.score:.0f}",
        grade=found.grade,
    )
    paint.line(paint.styled("strong", head))
    hands = ((say(str(Limb.RIGHT_HAND)), found.right_hand), (say(str(Limb.LEFT_HAND)), found.left_hand))
    width = max(len(name) for name, _ in hands) + 1
    for name, hand in hands:
        if hand.strokes_per_second:
            paint.line(f"  {name:<{width}}{', '.join(_figures(hand))}")


def _figures(hand: HandDemand) -> list[str]:
    figures = [
        say(
            "{strokes} strokes and {motions} motions a second",
            strokes=decimal(hand.strokes_per_second, 1),
            motions=decimal(hand.motions_per_second, 1),
        )
    ]
    if hand.shortest_lift_s is not None:
        figures.append(say("{seconds} s for the quickest lift", seconds=decimal(hand.shortest_lift_s, 2)))
    if hand.shortest_stop_s is not None:
        figures.append(say("{seconds} s for the quickest stop", seconds=decimal(hand.shortest_stop_s, 2)))
    return figures
