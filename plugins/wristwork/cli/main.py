"""The command ``wristwork``: few commands, plain words, errors in one line with a remedy."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypedDict, Unpack

import click

from wristwork import __version__
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.page.problem import printable
from wristwork.wording import nearest

WRONG, MISUSED = 1, 2

_EXAMPLES = {
    "new": "wristwork new my-course",
    "check": "wristwork check my-course",
    "try": "wristwork try 'R>LRR L>RLL' --tempo 80",
    "add": "wristwork add rudiment flam-accent --week 3",
    "print": "wristwork print accented-paradiddle --paper letter",
    "read": "wristwork read groove.musicxml --hands right",
}
_HELP = {"help_option_names": ["-h", "--help"], "max_content_width": 100}

_path = click.Path(path_type=Path)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; returns its exit code: 0 all is well, 1 something is wrong, 2 the command was mistyped."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    errors = Paint.on(sys.stderr)
    try:
        asked = ["--help"] if typed in ([], ["help"]) else typed
        code: int = wristwork.main(asked, prog_name="wristwork", standalone_mode=False)
        sys.stdout.flush()
        return code
    except click.UsageError as error:
        errors.line(f"wristwork: {_mistyped(error)}")
        return MISUSED
    except Trouble as trouble:
        errors.line(f"wristwork: {trouble}")
        return WRONG
    except BrokenPipeError:
        # Whoever read the output has seen enough; Python would complain when it flushes the rest.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return WRONG


def _mistyped(error: click.UsageError) -> str:
    """What was mistyped and what to do, in one line."""
    what = printable(error.format_message()).rstrip(".")
    if isinstance(error, _NoCommand):
        return what
    if isinstance(error, click.MissingParameter) and error.param and error.ctx:
        is_option = isinstance(error.param, click.Option)
        missing = error.param.opts[0] if is_option else error.param.make_metavar(error.ctx)
        return f"{missing} is missing: write, say, {_EXAMPLES[error.ctx.info_name or '']}"
    remedy = "" if what.endswith("?") else f": see {error.ctx.command_path if error.ctx else 'wristwork'} --help"
    return f"{what[:1].lower()}{what[1:]}{remedy}"


class _NoCommand(click.UsageError):
    """There is no such command; the message has its remedy."""


def _week_number(ctx: click.Context, param: click.Parameter, typed: str) -> int:
    if typed.isdecimal():
        return int(typed)
    raise click.BadParameter(f"'{typed}' is no week's number", ctx, param)


def _week_numbers(ctx: click.Context, param: click.Parameter, typed: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(_week_number(ctx, param, each) for each in typed)


def _bars(ctx: click.Context, param: click.Parameter, typed: str | None) -> tuple[int, int] | None:
    if typed is None:
        return None
    first, _, last = typed.replace(" to ", "-").partition("-")
    if first.strip().isdecimal() and (last or first).strip().isdecimal() and int(first) <= int(last or first):
        return int(first), int(last or first)
    raise click.BadParameter(f"'{typed}' are no bars, as 5-8 are", ctx, param)


class _Asked(TypedDict):
    """What is to be printed, beside the ids, as it was typed."""

    weeks: tuple[int, ...]
    book: bool
    sticking: str | None
    title: str | None
    tempo: str | None
    paper: str | None
    large: bool
    left_handed: bool


class _Commands(click.Group):
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
            raise _NoCommand(f"there is no command '{typed}': {remedy}")
        return super().resolve_command(ctx, args)


def _command(name: str) -> Callable[[Callable[..., int]], click.Command]:
    """A command of ours, whose help ends with an example."""
    return wristwork.command(name, epilog=f"\b\nFor example:\n  {_EXAMPLES[name]}", context_settings=_HELP)


@click.group("wristwork", cls=_Commands, context_settings=_HELP)
@click.version_option(__version__, message="wristwork %(version)s")
def wristwork() -> None:
    """Wristwork publishes drum courses: you type stickings, students see strokes.

    \b
    Each command explains itself: wristwork try --help
    To see a course while you write it: mkdocs serve. To make its site: mkdocs build.
    """


@_command("new")
@click.argument("folder", type=_path, metavar="FOLDER")
@click.option("--name", metavar="NAME", help="The course's name (else it follows the folder's).")
def _new(folder: Path, name: str | None) -> int:
    """Make a course of your own from a starter.

    It has two weeks, to change and to add to. FOLDER is a new folder; nothing is ever overwritten.
    """
    from wristwork.cli.new import new

    return new(folder, name, Paint.on(sys.stdout))


@_command("check")
@click.argument("folder", type=_path, default=Path(), metavar="[FOLDER]")
@click.option("--json", "as_json", is_flag=True, help="Write what is found as JSON.")
def _check(folder: Path, as_json: bool) -> int:
    """Look through a course for what a tired tutor misses.

    That is the order of the weeks, steep rises, sudden load, missing words, links. FOLDER is the course's folder (else
    this one). The exit code is 0 when all is well and 1 when there is something to look at.
    """
    from wristwork.cli.check import check

    return check(folder, as_json, Paint.on(sys.stdout))


@_command("try")
@click.argument("sticking", nargs=-1, metavar="'STICKING'")
@click.option("--right", metavar="GROUPS", help="Groups for the right hand alone, in place of a STICKING.")
@click.option("--left", metavar="GROUPS", help="Groups for the left hand alone.")
@click.option("--feet", metavar="GROUPS", help="Groups for the feet.")
@click.option("--time", metavar="N/D", help="The time signature, as in 6/8.")
@click.option("--tempo", metavar="N", default="60", help="Beats a minute (60).")
@click.option("--place", metavar="RULES", help="Drums, as in 'right on hi-hat, left on snare'.")
@click.option("--drums", metavar="WORDS", help="The drum of every stroke, as in 'high mid, floor, snare'.")
@click.option("--feel", metavar="WORDS", help="How it swings, as in swing or 'swing 3:2'.")
@click.option("--click", metavar="WORDS", help="Where the click sounds, as in '2 and 4'.")
@click.option("--pick-up", metavar="BEATS", help="Beats before bar 1, as in 1.")
@click.option("--repeats", metavar="BARS", help="Bars that are played again, as in 'bars 1 to 4'.")
@click.option("--endings", metavar="BARS", help="Endings of a repeat, as in 'bar 4 then bar 5'.")
@click.option("--sections", metavar="WORDS", help="Sections, as in 'A at bar 1, B at bar 5'.")
@click.option("--text", metavar="WORDS", help="Words over the notes, as in 'fill at beat 4 of bar 2'.")
@click.option("--dynamics", metavar="WORDS", help="How loud, as in 'p at bar 1 growing, f at bar 3'.")
@click.option("--tempos", metavar="WORDS", help="Tempos of sections, as in '120 at bar 5'.")
@click.option("--once", is_flag=True, help="Play it once: the last stroke leads nowhere.")
def _try(sticking: tuple[str, ...], once: bool, **lines: str | None) -> int:
    """See the strokes and stick heights of a sticking, its count and its demand.

    One group of letters is one beat; R and L are the hands, R> an accent, (R) a ghost note, lR a flam, R/ a double in
    one slot, . a rest. Put it in quotes: > and ( mean something to the terminal.
    """
    from wristwork.cli.try_out import try_out

    if not (sticking or lines["right"] or lines["left"] or lines["feet"]):
        raise Trouble("'STICKING' is missing", f"write, say, {_EXAMPLES['try']}")
    named = {option.replace("_", "-"): value for option, value in lines.items()}
    typed = {**named, "hands": " ".join(sticking) or None, "loop": "no" if once else None}
    given = {key: value for key, value in typed.items() if value is not None}
    return try_out(given, Paint.on(sys.stdout), Paint.on(sys.stderr))


@_command("add")
@click.argument("name", nargs=-1, required=True, metavar="rudiment NAME")
@click.option("--week", callback=_week_number, required=True, metavar="N", help="The week whose page gets it.")
@click.option("--folder", type=_path, default=Path(), metavar="FOLDER", help="The course's folder (else this one).")
def _add(name: tuple[str, ...], week: int, folder: Path) -> int:
    """Put a rudiment from the library into a week.

    It is one of forty, and stands at the end of the week's page with its pattern and a few words. NAME is as in
    flam-accent or 'Flam accent'.
    """
    from wristwork.cli.add import add_rudiment

    # There is nothing else to add, so the word may be left out.
    words = name[1:] if name[0] == "rudiment" else name
    if not words:
        raise Trouble("which rudiment?", "give its name, as in wristwork add rudiment flam-accent --week 3")
    return add_rudiment(" ".join(words), week, folder, Paint.on(sys.stdout))


@_command("print")
@click.argument("ids", nargs=-1, metavar="[ID]...")
@click.option("--week", "weeks", multiple=True, callback=_week_numbers, metavar="N", help="A week on one or two pages.")
@click.option("--book", is_flag=True, help="The whole course as a book.")
@click.option("--for", "sticking", metavar="'STICKING'", help="A sheet of a sticking that is in no course.")
@click.option("--title", metavar="WORDS", help="What stands over that sticking.")
@click.option("--tempo", metavar="N", help="Its tempos, as in '60 to 100 by 4'.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), help="The size of the paper (else the course's, or A4).")
@click.option("--large", is_flag=True, help="In large print.")
@click.option("--left-handed", is_flag=True, help="For somebody who leads with the left hand.")
@click.option("--to", "target", type=_path, metavar="PATH", help="The file, or a folder for several (else this one).")
@click.option("--folder", type=_path, default=Path(), metavar="FOLDER", help="The course's folder (else this one).")
def _print(ids: tuple[str, ...], target: Path | None, folder: Path, **asked: Unpack[_Asked]) -> int:
    """Put exercises, weeks or the whole course on paper, as PDF files.

    ID is an exercise's id, as in its address: its sheet has the diagram, tempos to tick and a code with its address.
    """
    from wristwork.cli.print_out import Asked, print_out

    return print_out(Asked(ids, **asked), folder, target, Paint.on(sys.stdout))


@_command("read")
@click.argument("file", type=_path, metavar="FILE")
@click.option("--hands", type=click.Choice(["right", "left"]), help="Let hands take turns from this one on.")
@click.option("--bars", callback=_bars, metavar="N-M", help="Only these bars, as in 5-8.")
def _read(file: Path, hands: str | None, bars: tuple[int, int] | None) -> int:
    """Make a pattern out of another program's file: a score in MusicXML, or a MIDI file.

    The pattern is written to the screen, to be copied or sent to a file with >; what can't be written in a pattern is
    listed beside it. Where FILE does not say which hand plays, an x stands for you to fill in.
    """
    from wristwork.cli.read_in import read_in

    return read_in(file, hands, bars, Paint.on(sys.stdout), Paint.on(sys.stderr))


if __name__ == "__main__":
    sys.exit(main())
