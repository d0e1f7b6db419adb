"""What is added to a course."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from wristwork.cli.group import FOLDER_HELP, a_later_day, a_path, command, week_number
from wristwork.cli.paint import Paint
from wristwork.cli.said import Choice
from wristwork.cli.trouble import Trouble
from wristwork.languages.say import marked, say
from wristwork.wording import misspelt

_STUDENT, _RUDIMENT, _WEEK = "student", "rudiment", "week"


@command(
    "add",
    marked("Put a rudiment into a week, begin a new week, or make a file for a student."),
    marked(
        "A rudiment is one of forty, and stands at the end of the week's page with its pattern and a few words; "
        "NAME is as in flam-accent or 'Flam accent', and --list shows them all. A new week stands beside the "
        "others and gets the next number; NAME is its title. A student's file lies in students/, which is never "
        "published."
    ),
)
@click.argument("name", nargs=-1, required=True, metavar="rudiment|week|student NAME")
@click.option("--week", callback=week_number, metavar="N", help=marked("The week whose page gets it; its own number."))
@click.option(
    "--list", "listed", is_flag=True, help=marked("List the rudiments, all or those with a word in their name.")
)
@click.option("--opens", callback=a_later_day, metavar="DAY", help=marked("The day on which a new week opens."))
@click.option("--hand", type=Choice(["right", "left"]), help=marked("The hand that leads, of a student."))
@click.option("--level", metavar="N", help=marked("The grade that a student is up to, 1 to 10."))
@click.option("--surface", metavar="WORDS", help=marked("What a student plays on, as in 'practice pad'."))
@click.option("--folder", type=a_path, default=Path(), metavar="FOLDER", help=FOLDER_HELP)
def _add(
    name: tuple[str, ...],
    week: int | None,
    listed: bool,
    opens: date | None,
    folder: Path,
    **of_student: str | None,
) -> int:
    from wristwork.cli.add import add_rudiment, list_rudiments, refuse_unknown
    from wristwork.cli.add_week import add_week
    from wristwork.cli.students import add_student

    paint = Paint.on(sys.stdout)
    if name[0] == _STUDENT:
        return add_student(" ".join(name[1:]), week, of_student, folder, paint)
    if name[0] == _WEEK:
        return add_week(" ".join(" ".join(name[1:]).split()), week, opens, folder, paint)
    kind = misspelt(name[0], (_RUDIMENT, _WEEK, _STUDENT))
    if kind:
        raise Trouble(
            say("nothing is added as '{word}'", word=name[0]), say("did you mean wristwork add {word}?", word=kind)
        )
    # Most of what is added is a rudiment, so the word may be left out.
    words = name[1:] if name[0] == _RUDIMENT else name
    if listed:
        return list_rudiments(" ".join(words), paint)
    if not words:
        remedy = say("give its name, as in wristwork add rudiment flam-accent --week 3")
        raise Trouble(say("nothing says which rudiment"), remedy)
    if week is None:
        refuse_unknown(" ".join(words))
        raise click.MissingParameter(ctx=click.get_current_context(), param=_option("week"))
    return add_rudiment(" ".join(words), week, folder, paint)


def _option(name: str) -> click.Parameter:
    return next(each for each in _add.params if each.name == name)


COMMANDS = (_add,)
