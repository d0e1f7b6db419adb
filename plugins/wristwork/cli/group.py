"""The command ``wristwork`` as a whole: its commands in their order, what is typed behind them, an example for each."""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

import click

from wristwork import __version__
from wristwork.cli import said
from wristwork.days import read_day, today
from wristwork.languages.say import marked, say
from wristwork.people.months import Month, read_month
from wristwork.wording import nearest

EXAMPLES = {
    "new": "wristwork new my-course",
    "check": "wristwork check my-course",
    "try": "wristwork try 'R>LRR L>RLL' --tempo 80",
    "add": "wristwork add rudiment flam-accent --week 3",
    "send": "wristwork send Jo",
    "heard": "wristwork heard Jo < message.txt",
    "people": "wristwork people Jo --month September",
    "print": "wristwork print accented-paradiddle --paper letter",
    "clip": "wristwork clip accented-paradiddle --upright",
    "studio": "wristwork studio my-studio",
    "read": "wristwork read groove.musicxml --hands right",
}
HELP = {"help_option_names": ["-h", "--help"], "max_content_width": 100}

FOLDER_HELP = marked("The course's folder (else this one).")


def a_path(typed: str | os.PathLike[str]) -> Path:
    """A file or a folder that was typed, there or not."""
    if os.path.exists(typed) and not os.access(typed, os.R_OK):
        raise click.BadParameter(say("Path '{path}' is not readable", path=click.format_filename(typed)))
    return Path(typed)


def week_number(ctx: click.Context, param: click.Parameter, typed: str | None) -> int | None:
    """The number of a week that was typed."""
    if typed is None:
        return None
    if typed.isdecimal():
        return int(typed)
    raise click.BadParameter(say("'{typed}' is no week's number", typed=typed), ctx, param)


def week_numbers(ctx: click.Context, param: click.Parameter, typed: tuple[str, ...]) -> tuple[int, ...]:
    """The numbers of weeks that were typed."""
    found = (week_number(ctx, param, each) for each in typed)
    return tuple(number for number in found if number is not None)


def a_day(ctx: click.Context, param: click.Parameter, typed: str | None) -> date:
    """The day that was typed, or today."""
    day = today() if typed is None else read_day(typed)
    if day is None:
        raise click.BadParameter(say("'{typed}' is no day, as 2026-09-14 is", typed=typed), ctx, param)
    return day


def a_later_day(ctx: click.Context, param: click.Parameter, typed: str | None) -> date | None:
    """The day that was typed, if one was."""
    return None if typed is None else a_day(ctx, param, typed)


def a_month(ctx: click.Context, param: click.Parameter, typed: str | None) -> Month | None:
    """The month that was typed."""
    month = None if typed is None else read_month(typed, today())
    if typed is not None and month is None:
        what = say("'{typed}' is no month, as September and 2026-09 are", typed=typed)
        raise click.BadParameter(what, ctx, param)
    return month


class Commands(said.Group):
    """Commands in the order in which a tutor meets them; a misspelt one is answered with the nearest."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        typed = args[0]
        if typed not in self.commands:
            raise said.NoCommand(self._missing(typed))
        return super().resolve_command(ctx, args)

    def _missing(self, typed: str) -> str:
        near = nearest(typed, self.commands)
        if near:
            return say("there is no command '{typed}': did you mean wristwork {near}?", typed=typed, near=near)
        commands = ", ".join(self.commands)
        return say("there is no command '{typed}': the commands are {commands}", typed=typed, commands=commands)


def command(name: str, *about: str) -> Callable[[Callable[..., int]], said.Command]:
    """A command of ours, with the marked paragraphs of its help, which ends with an example."""

    def made(does: Callable[..., int]) -> said.Command:
        result = click.command(name, cls=said.Command, context_settings=HELP)(does)
        result.about, result.example = about, EXAMPLES[name]
        return result

    return made


@click.group("wristwork", cls=Commands, context_settings=HELP)
@click.version_option(__version__, message="wristwork %(version)s")
def wristwork() -> None:
    """All is in the commands."""


wristwork.about = (marked("Wristwork publishes drum courses: you type stickings, students see strokes."),)
wristwork.hints = (
    marked("Each command explains itself: wristwork try --help"),
    marked("To see a course while you write it: mkdocs serve. To make its site: mkdocs build."),
)
