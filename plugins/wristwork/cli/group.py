"""The command ``wristwork`` as a whole: its commands in their order, what is typed behind them, an example for each."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import click

from wristwork import __version__
from wristwork.days import read_day, today
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

a_path = click.Path(path_type=Path)


class NoCommand(click.UsageError):
    """There is no such command; the message has its remedy."""


def week_number(ctx: click.Context, param: click.Parameter, typed: str | None) -> int | None:
    """The number of a week that was typed."""
    if typed is None:
        return None
    if typed.isdecimal():
        return int(typed)
    raise click.BadParameter(f"'{typed}' is no week's number", ctx, param)


def week_numbers(ctx: click.Context, param: click.Parameter, typed: tuple[str, ...]) -> tuple[int, ...]:
    """The numbers of weeks that were typed."""
    found = (week_number(ctx, param, each) for each in typed)
    return tuple(number for number in found if number is not None)


def a_day(ctx: click.Context, param: click.Parameter, typed: str | None) -> date:
    """The day that was typed, or today."""
    day = today() if typed is None else read_day(typed)
    if day is None:
        raise click.BadParameter(f"'{typed}' is no day, as 2026-09-14 is", ctx, param)
    return day


def a_later_day(ctx: click.Context, param: click.Parameter, typed: str | None) -> date | None:
    """The day that was typed, if one was."""
    return None if typed is None else a_day(ctx, param, typed)


def a_month(ctx: click.Context, param: click.Parameter, typed: str | None) -> Month | None:
    """The month that was typed."""
    month = None if typed is None else read_month(typed, today())
    if typed is not None and month is None:
        raise click.BadParameter(f"'{typed}' is no month, as September and 2026-09 are", ctx, param)
    return month


class Commands(click.Group):
    """Commands in the order in which a tutor meets them; a misspelt one is answered with the nearest."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        typed = args[0]
        if typed not in self.commands and not typed.startswith("-"):
            near = nearest(typed, self.commands)
            remedy = f"did you mean wristwork {near}?" if near else f"the commands are {', '.join(self.commands)}"
            raise NoCommand(f"there is no command '{typed}': {remedy}")
        return super().resolve_command(ctx, args)


def command(name: str) -> Callable[[Callable[..., int]], click.Command]:
    """A command of ours, whose help ends with an example."""
    return click.command(name, epilog=f"\b\nFor example:\n  {EXAMPLES[name]}", context_settings=HELP)


@click.group("wristwork", cls=Commands, context_settings=HELP)
@click.version_option(__version__, message="wristwork %(version)s")
def wristwork() -> None:
    """Wristwork publishes drum courses: you type stickings, students see strokes.

    \b
    Each command explains itself: wristwork try --help
    To see a course while you write it: mkdocs serve. To make its site: mkdocs build.
    """
