"""``wristwork try``: a typed sticking as strokes and heights, in the terminal."""

from __future__ import annotations

import shutil

from wristwork.cli.lanes import picture
from wristwork.cli.paint import Paint
from wristwork.drawing.words import words
from wristwork.page.problem import Problem, printable
from wristwork.pattern import read_one
from wristwork.pattern.model import Pattern
from wristwork.pattern.problems import PatternError
from wristwork.technique.demand import HandDemand, demand

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
    head = f"At {found.tempo} beats a minute: demand {found.score:.0f} of 100, grade {found.grade}."
    paint.line(paint.styled("strong", head))
    for name, hand in (("right hand", found.right_hand), ("left hand", found.left_hand)):
        if hand.strokes_per_second:
            paint.line(f"  {name:<11}{', '.join(_figures(hand))}")


def _figures(hand: HandDemand) -> list[str]:
    figures = [f"{hand.strokes_per_second:.1f} strokes and {hand.motions_per_second:.1f} motions a second"]
    if hand.shortest_lift_s is not None:
        figures.append(f"{hand.shortest_lift_s:.2f} s for the quickest lift")
    if hand.shortest_stop_s is not None:
        figures.append(f"{hand.shortest_stop_s:.2f} s for the quickest stop")
    return figures
