"""The command ``wristwork``: few commands, plain words, errors in one line with a remedy."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TypedDict, Unpack

import click

from wristwork.cli.commands import adding, for_students
from wristwork.cli.group import EXAMPLES, FOLDER_HELP, a_path, command, week_numbers, wristwork
from wristwork.cli.paint import Paint
from wristwork.cli.said import Choice, mistyped
from wristwork.cli.tongue import tongue_of
from wristwork.cli.trouble import Trouble
from wristwork.languages.say import marked, say, speaking

WRONG, MISUSED = 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; returns its exit code: 0 all is well, 1 something is wrong, 2 the command was mistyped."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    # A line of a list, which messages hold, is no option.
    plain = [f" {word}" if word.startswith("- ") else word for word in typed]
    with speaking(tongue_of(typed)):
        return _run(["--help"] if typed in ([], ["help"]) else plain, Paint.on(sys.stderr))


def _run(typed: list[str], errors: Paint) -> int:
    try:
        code: int = wristwork.main(typed, prog_name="wristwork", standalone_mode=False)
        sys.stdout.flush()
        return code
    except click.UsageError as error:
        errors.line(f"wristwork: {mistyped(error, EXAMPLES)}")
        return MISUSED
    except Trouble as trouble:
        errors.line(f"wristwork: {trouble}")
        return WRONG
    except BrokenPipeError:
        # Whoever read the output has seen enough; Python would complain when it flushes the rest.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return WRONG


def _bars(ctx: click.Context, param: click.Parameter, typed: str | None) -> tuple[int, int] | None:
    if typed is None:
        return None
    first, _, last = typed.replace(" to ", "-").partition("-")
    if first.strip().isdecimal() and (last or first).strip().isdecimal() and int(first) <= int(last or first):
        return int(first), int(last or first)
    raise click.BadParameter(say("'{typed}' are no bars, as 5-8 are", typed=typed), ctx, param)


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


@command(
    "new",
    marked("Make a course of your own from a starter."),
    marked(
        "It has two weeks, to change and to add to. FOLDER is a new folder; nothing is ever overwritten. Notes on"
        " students would lie in students/: .gitignore keeps them out of version control."
    ),
)
@click.argument("folder", type=a_path, metavar="FOLDER")
@click.option("--name", metavar="NAME", help=marked("The course's name (else it follows the folder's)."))
@click.option("--language", metavar="CODE", help=marked("The course's language, as in de (else this machine's)."))
@click.option(
    "--keep-students", is_flag=True, help=marked("Let version control keep students/, where only you can read it.")
)
def _new(folder: Path, name: str | None, language: str | None, keep_students: bool) -> int:
    from wristwork.cli.new import new

    return new(folder, name, keep_students, Paint.on(sys.stdout), language)


@command(
    "check",
    marked("Look through a course for what a tired tutor misses."),
    marked(
        "That is the order of the weeks, steep rises, sudden load, missing words, links. FOLDER is the course's "
        "folder (else this one). The exit code is 0 when all is well and 1 when there is something to look at."
    ),
)
@click.argument("folder", type=a_path, default=Path(), metavar="[FOLDER]")
@click.option("--json", "as_json", is_flag=True, help=marked("Write what is found as JSON."))
@click.option("--keep-addresses", is_flag=True, help=marked("Write new exercises into addresses.yml, as a build does."))
def _check(folder: Path, as_json: bool, keep_addresses: bool) -> int:
    from wristwork.cli.check import check

    return check(folder, as_json, keep_addresses, Paint.on(sys.stdout))


@command(
    "try",
    marked("See the strokes and stick heights of a sticking, its count and its demand."),
    marked(
        "One group of letters is one beat; R and L are the hands, R> an accent, (R) a ghost note, lR a flam, R/ a"
        " double in one slot, . a rest. Put it in quotes: > and ( mean something to the terminal."
    ),
)
@click.argument("sticking", nargs=-1, metavar="'STICKING'")
@click.option("--right", metavar="GROUPS", help=marked("Groups for the right hand alone, in place of a STICKING."))
@click.option("--left", metavar="GROUPS", help=marked("Groups for the left hand alone."))
@click.option("--feet", metavar="GROUPS", help=marked("Groups for the feet."))
@click.option("--time", metavar="N/D", help=marked("The time signature, as in 6/8."))
@click.option("--tempo", metavar="N", default="60", help=marked("Beats a minute (60)."))
@click.option("--place", metavar="RULES", help=marked("Drums, as in 'right on hi-hat, left on snare'."))
@click.option("--drums", metavar="WORDS", help=marked("The drum of every stroke, as in 'high mid, floor, snare'."))
@click.option("--feel", metavar="WORDS", help=marked("How it swings, as in swing or 'swing 3:2'."))
@click.option("--click", metavar="WORDS", help=marked("Where the click sounds, as in '2 and 4'."))
@click.option("--pick-up", metavar="BEATS", help=marked("Beats before bar 1, as in 1."))
@click.option("--repeats", metavar="BARS", help=marked("Bars that are played again, as in 'bars 1 to 4'."))
@click.option("--endings", metavar="BARS", help=marked("Endings of a repeat, as in 'bar 4 then bar 5'."))
@click.option("--sections", metavar="WORDS", help=marked("Sections, as in 'A at bar 1, B at bar 5'."))
@click.option("--text", metavar="WORDS", help=marked("Words over the notes, as in 'fill at beat 4 of bar 2'."))
@click.option("--dynamics", metavar="WORDS", help=marked("How loud, as in 'p at bar 1 growing, f at bar 3'."))
@click.option("--tempos", metavar="WORDS", help=marked("Tempos of sections, as in '120 at bar 5'."))
@click.option("--once", is_flag=True, help=marked("Play it once: the last stroke leads nowhere."))
def _try(sticking: tuple[str, ...], once: bool, **lines: str | None) -> int:
    from wristwork.cli.try_out import try_out

    if not (sticking or lines["right"] or lines["left"] or lines["feet"]):
        raise Trouble(say("'STICKING' is missing"), say("write, say, {example}", example=EXAMPLES["try"]))
    named = {option.replace("_", "-"): value for option, value in lines.items()}
    typed = {**named, "hands": " ".join(sticking) or None, "loop": "no" if once else None}
    given = {key: value for key, value in typed.items() if value is not None}
    return try_out(given, Paint.on(sys.stdout), Paint.on(sys.stderr))


@command(
    "print",
    marked("Put exercises, weeks or the whole course on paper, as PDF files."),
    marked(
        "ID is an exercise's id, as in its address: its sheet has the diagram, tempos to tick and a code with its"
        " address."
    ),
)
@click.argument("ids", nargs=-1, metavar="[ID]...")
@click.option(
    "--week", "weeks", multiple=True, callback=week_numbers, metavar="N", help=marked("A week on one or two pages.")
)
@click.option("--book", is_flag=True, help=marked("The whole course as a book."))
@click.option("--for", "sticking", metavar="'STICKING'", help=marked("A sheet of a sticking that is in no course."))
@click.option("--title", metavar="WORDS", help=marked("What stands over that sticking."))
@click.option("--tempo", metavar="N", help=marked("Its tempos, as in '60 to 100 by 4'."))
@click.option(
    "--paper", type=Choice(["a4", "letter"]), help=marked("The size of the paper (else the course's, or A4).")
)
@click.option("--large", is_flag=True, help=marked("In large print."))
@click.option("--left-handed", is_flag=True, help=marked("For somebody who leads with the left hand."))
@click.option(
    "--to", "target", type=a_path, metavar="PATH", help=marked("The file, or a folder for several (else this one).")
)
@click.option("--folder", type=a_path, default=Path(), metavar="FOLDER", help=FOLDER_HELP)
def _print(ids: tuple[str, ...], target: Path | None, folder: Path, **asked: Unpack[_Asked]) -> int:
    from wristwork.cli.print_out import Asked, print_out

    return print_out(Asked(ids, **asked), folder, target, Paint.on(sys.stdout))


@command(
    "clip",
    marked("Make a short film of an exercise for a message: diagram, hands, sound, and its address at the end."),
    marked(
        "ID is an exercise's id, as in its address. The file plays in any chat. With clips: true in the settings "
        "every exercise's own page has one."
    ),
)
@click.argument("ids", nargs=-1, required=True, metavar="ID...")
@click.option("--upright", is_flag=True, help=marked("As high as a phone, instead of square."))
@click.option(
    "--to", "target", type=a_path, metavar="PATH", help=marked("The file, or a folder for several (else this one).")
)
@click.option("--folder", type=a_path, default=Path(), metavar="FOLDER", help=FOLDER_HELP)
def _clip(ids: tuple[str, ...], upright: bool, target: Path | None, folder: Path) -> int:
    from wristwork.cli.clip import make_clips

    return make_clips(ids, upright, folder, target, Paint.on(sys.stdout))


@command(
    "read",
    marked("Make a pattern out of another program's file: a score in MusicXML, or a MIDI file."),
    marked(
        "The pattern is written to the screen, to be copied or sent to a file with >; what can't be written in a "
        "pattern is listed beside it. Where FILE does not say which hand plays, an x stands for you to fill in."
    ),
)
@click.argument("file", type=a_path, metavar="FILE")
@click.option("--hands", type=Choice(["right", "left"]), help=marked("Let hands take turns from this one on."))
@click.option("--bars", callback=_bars, metavar="N-M", help=marked("Only these bars, as in 5-8."))
def _read(file: Path, hands: str | None, bars: tuple[int, int] | None) -> int:
    from wristwork.cli.read_in import read_in

    return read_in(file, hands, bars, Paint.on(sys.stdout), Paint.on(sys.stderr))


@command(
    "studio",
    marked("Make the front page of a studio, with a link to each of its courses."),
    marked("FOLDER is that of studio.yml, which names the courses."),
)
@click.argument("folder", type=a_path, default=Path(), metavar="FOLDER")
@click.option(
    "--to", "target", type=a_path, metavar="PATH", help=marked("The folder of the page (else site in FOLDER).")
)
def _studio(folder: Path, target: Path | None) -> int:
    from wristwork.cli.studio import make_front_page

    return make_front_page(folder, target, Paint.on(sys.stdout))


for each in (_new, _check, _try, *adding.COMMANDS, *for_students.COMMANDS, _print, _clip, _read, _studio):
    wristwork.add_command(each)


if __name__ == "__main__":
    sys.exit(main())
