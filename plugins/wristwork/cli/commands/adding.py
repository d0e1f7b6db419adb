"""What is added to a course."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from wristwork.cli.group import a_path, command, week_number
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble

_STUDENT = "student"
_RUDIMENT = "rudiment"


@command("add")
@click.argument("name", nargs=-1, required=True, metavar="rudiment|student NAME")
@click.option("--week", callback=week_number, metavar="N", help="The week whose page gets it, or a student is in.")
@click.option("--hand", type=click.Choice(["right", "left"]), help="The hand that leads, of a student.")
@click.option("--folder", type=a_path, default=Path(), metavar="FOLDER", help="The course's folder (else this one).")
def _add(name: tuple[str, ...], week: int | None, hand: str | None, folder: Path) -> int:
    """Put a rudiment from the library into a week, or make a file for a student.

    A rudiment is one of forty, and stands at the end of the week's page with its pattern and a few words; NAME is as in
    flam-accent or 'Flam accent'. A student's file lies in students/, which is never published.
    """
    from wristwork.cli.add import add_rudiment
    from wristwork.cli.students import add_student

    paint = Paint.on(sys.stdout)
    if name[0] == _STUDENT:
        return add_student(" ".join(name[1:]), week, hand, folder, paint)
    # Most of what is added is a rudiment, so the word may be left out.
    words = name[1:] if name[0] == _RUDIMENT else name
    if not words:
        raise Trouble("which rudiment?", "give its name, as in wristwork add rudiment flam-accent --week 3")
    if week is None:
        raise click.MissingParameter(ctx=click.get_current_context(), param=_option("week"))
    return add_rudiment(" ".join(words), week, folder, paint)


def _option(name: str) -> click.Parameter:
    return next(each for each in _add.params if each.name == name)


COMMANDS = (_add,)
