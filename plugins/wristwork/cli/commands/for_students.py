"""What is sent to students, heard of them, and known of them."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from wristwork.cli.group import FOLDER_HELP, a_day, a_month, a_path, command, week_number
from wristwork.cli.paint import Paint
from wristwork.languages.say import marked
from wristwork.people.months import Month

_folder = click.option("--folder", type=a_path, default=Path(), metavar="FOLDER", help=FOLDER_HELP)


@command(
    "send",
    marked("Make the week's message for students, and note what was sent."),
    marked(
        "The message ends in a link to a practice list: the week's exercises, each from the tempo at which the "
        "student said it is clean. It is written to the screen for you to copy into a chat; nothing is sent by "
        "itself. NAME is that of a student, as in students/."
    ),
)
@click.argument("names", nargs=-1, required=True, metavar="NAME...")
@click.option(
    "--week", callback=week_number, metavar="N", help=marked("The week (else the one that comes next for each).")
)
@click.option("--also", multiple=True, metavar="ID", help=marked("One more exercise, by its id."))
@click.option("--without", multiple=True, metavar="ID", help=marked("An exercise of the week to leave out."))
@click.option("--words", default="", metavar="WORDS", help=marked("A word to the student."))
@click.option("--with-name", is_flag=True, help=marked("Let message and link say the student's name."))
@click.option(
    "--on", "day", callback=a_day, metavar="DAY", help=marked("The day to note, as in 2026-09-14 (else today).")
)
@_folder
def _send(
    names: tuple[str, ...],
    week: int | None,
    also: tuple[str, ...],
    without: tuple[str, ...],
    words: str,
    with_name: bool,
    day: date,
    folder: Path,
) -> int:
    from wristwork.cli.send import Asked, send

    asked = Asked(names, week, also, without, " ".join(words.split()), with_name)
    return send(asked, day, folder, Paint.on(sys.stdout), Paint.on(sys.stderr))


@command(
    "heard",
    marked("Note what came back from a student: a message, a link, or their own words."),
    marked(
        "The message or link is the one that 'My practice' makes, or a link to an exercise. Without a MESSAGE it "
        "is read from the keyboard, or from a file as in the example."
    ),
)
@click.argument("name", metavar="NAME")
@click.argument("text", nargs=-1, metavar="['MESSAGE']")
@click.option(
    "--on", "day", callback=a_day, metavar="DAY", help=marked("The day to note, as in 2026-09-21 (else today).")
)
@_folder
def _heard(name: str, text: tuple[str, ...], day: date, folder: Path) -> int:
    from wristwork.cli.heard import heard

    return heard(name, " ".join(text), day, folder, Paint.on(sys.stdout))


@command(
    "people",
    marked("See who is where, who got what, and whose hands, load or tempos need a look."),
    marked("With a NAME all that was sent to this student and heard of them is listed, or what was in one MONTH."),
)
@click.argument("name", required=False, metavar="[NAME]")
@click.option(
    "--month", callback=a_month, metavar="MONTH", help=marked("Only a month's notes, as in September or 2026-09.")
)
@click.option("--page", "as_page", is_flag=True, help=marked("Write students/people.html, to open in a browser."))
@click.option(
    "--on", "day", callback=a_day, metavar="DAY", help=marked("As it was on a day (else today)."), hidden=True
)
@_folder
def _people(name: str | None, month: Month | None, as_page: bool, day: date, folder: Path) -> int:
    from wristwork.cli.people import people

    return people(name, month, as_page, day, folder, Paint.on(sys.stdout))


COMMANDS = (_send, _heard, _people)
