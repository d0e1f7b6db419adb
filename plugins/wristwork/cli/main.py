"""The command ``wristwork``: few commands, plain words, errors in one line with a remedy."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NoReturn

from wristwork import __version__
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.wording import nearest

WRONG, MISUSED = 1, 2

_INTRO = """\
Wristwork publishes drum courses: you type stickings, students see strokes.

Commands:
  new    make a course of your own from a starter
  check  look through a course for what a tired tutor misses
  try    see the strokes and stick heights of a sticking
  add    put a rudiment from the library into a week

Each one explains itself: wristwork try --help
To see a course while you write it: mkdocs serve. To make its site: mkdocs build.
"""


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line."""

    example = ""

    def error(self, message: str) -> NoReturn:
        missing = message.removeprefix("the following arguments are required: ")
        if missing != message and self.example:
            raise Trouble(f"{missing} is missing", f"write, say, {self.example}")
        raise Trouble(message.removeprefix("argument "), f"see {self.prog} --help")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; returns its exit code: 0 all is well, 1 something is wrong, 2 the command was mistyped."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    errors = Paint.on(sys.stderr)
    parser = _parser()
    if not typed or typed == ["help"]:
        parser.print_help()
        return 0
    try:
        _check_command(typed[0])
        options = parser.parse_args(typed)
    except Trouble as trouble:
        errors.line(f"wristwork: {trouble}")
        return MISUSED
    try:
        run: Callable[[argparse.Namespace], int] = options.run
        code = run(options)
        sys.stdout.flush()
        return code
    except Trouble as trouble:
        errors.line(f"wristwork: {trouble}")
        return WRONG
    except BrokenPipeError:
        # Whoever read the output has seen enough; Python would complain when it flushes the rest.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return WRONG


def _check_command(typed: str) -> None:
    if typed.startswith("-") or typed in _COMMANDS:
        return
    near = nearest(typed, _COMMANDS)
    remedy = f"did you mean wristwork {near}?" if near else f"the commands are {', '.join(_COMMANDS)}"
    raise Trouble(f"there is no command '{typed}'", remedy)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="wristwork",
        usage="wristwork COMMAND …",
        description=_INTRO,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        add_help=False,
    )
    parser.add_argument("-h", "--help", action="help", help=argparse.SUPPRESS)
    parser.add_argument("--version", action="version", version=f"wristwork {__version__}", help=argparse.SUPPRESS)
    commands = parser.add_subparsers(
        dest="command", metavar="COMMAND", required=True, help=argparse.SUPPRESS, prog="wristwork"
    )
    for name, build in _COMMANDS.items():
        build(commands, name)
    return parser


def _command(commands: argparse._SubParsersAction[_Parser], name: str, usage: str, about: str, example: str) -> _Parser:
    parser = commands.add_parser(
        name,
        usage=f"wristwork {name} {usage}",
        description=about,
        epilog=f"for example:\n  {example}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.example = example
    return parser


def _new(commands: argparse._SubParsersAction[_Parser], name: str) -> None:
    about = "Make a course of your own: a small one of two weeks, to change and to add to."
    parser = _command(commands, name, "FOLDER [--name NAME]", about, "wristwork new my-course")
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="a new folder; nothing is ever overwritten")
    parser.add_argument("--name", help="the course's name (else it follows the folder's)")

    def run(options: argparse.Namespace) -> int:
        from wristwork.cli.new import new

        return new(options.folder, options.name, Paint.on(sys.stdout))

    parser.set_defaults(run=run)


def _check(commands: argparse._SubParsersAction[_Parser], name: str) -> None:
    about = (
        "Look through a course: order of the weeks, steep rises, sudden load, missing words, links.\n"
        "The exit code is 0 when all is well and 1 when there is something to look at."
    )
    parser = _command(commands, name, "[FOLDER] [--json]", about, "wristwork check my-course")
    parser.add_argument(
        "folder", type=Path, nargs="?", default=Path(), metavar="FOLDER", help="the course's folder (else this one)"
    )
    parser.add_argument("--json", action="store_true", help="write what is found as JSON")

    def run(options: argparse.Namespace) -> int:
        from wristwork.cli.check import check

        return check(options.folder, options.json, Paint.on(sys.stdout))

    parser.set_defaults(run=run)


def _try(commands: argparse._SubParsersAction[_Parser], name: str) -> None:
    about = (
        "See what a sticking means: count, strokes, stick heights, demand. One group of letters is one beat;\n"
        "R and L are the hands, R> an accent, (R) a ghost note, lR a flam, R/ a double in one slot, . a rest.\n"
        "Put it in quotes: > and ( mean something to the terminal."
    )
    usage = (
        "'STICKING' [--right GROUPS] [--left GROUPS] [--feet GROUPS] "
        "[--time N/D] [--tempo N] [--place RULES] [--drums WORDS] [--once]"
    )
    parser = _command(commands, name, usage, about, "wristwork try 'R>LRR L>RLL' --tempo 80")
    parser.add_argument("hands", nargs="*", metavar="'STICKING'", help="groups for the hands, in quotes")
    parser.add_argument("--right", metavar="GROUPS", help="groups for the right hand alone, in place of a STICKING")
    parser.add_argument("--left", metavar="GROUPS", help="groups for the left hand alone")
    parser.add_argument("--feet", metavar="GROUPS", help="groups for the feet")
    parser.add_argument("--time", metavar="N/D", help="the time signature, as in 6/8")
    parser.add_argument("--tempo", metavar="N", default="60", help="beats a minute (60)")
    parser.add_argument("--place", metavar="RULES", help="drums, as in 'right on hi-hat, left on snare'")
    parser.add_argument("--drums", metavar="WORDS", help="the drum of every stroke, as in 'high mid, floor, snare'")
    parser.add_argument("--once", action="store_true", help="play it once: the last stroke leads nowhere")

    def run(options: argparse.Namespace) -> int:
        from wristwork.cli.try_out import try_out

        if not (options.hands or options.right or options.left or options.feet):
            raise Trouble("'STICKING' is missing", f"write, say, {parser.example}")
        lines = {"time": options.time, "tempo": options.tempo, "hands": " ".join(options.hands) or None}
        lines |= {"right": options.right, "left": options.left}
        lines |= {"feet": options.feet, "place": options.place, "drums": options.drums}
        lines |= {"loop": "no" if options.once else None}
        given = {key: value for key, value in lines.items() if value is not None}
        return try_out(given, Paint.on(sys.stdout), Paint.on(sys.stderr))

    parser.set_defaults(run=run)


def _add(commands: argparse._SubParsersAction[_Parser], name: str) -> None:
    about = "Put a rudiment from the library of forty at the end of a week's page, with its pattern and a few words."
    usage = "rudiment NAME --week N [--folder FOLDER]"
    parser = _command(commands, name, usage, about, "wristwork add rudiment flam-accent --week 3")
    parser.add_argument("name", nargs="+", metavar="rudiment NAME", help="its name, as in flam-accent or 'Flam accent'")
    parser.add_argument("--week", type=_week_number, required=True, metavar="N", help="the week whose page gets it")
    parser.add_argument(
        "--folder", type=Path, default=Path(), metavar="FOLDER", help="the course's folder (else this one)"
    )

    def run(options: argparse.Namespace) -> int:
        from wristwork.cli.add import add_rudiment

        # There is nothing else to add, so the word may be left out.
        words = options.name[1:] if options.name[0] == "rudiment" else options.name
        if not words:
            raise Trouble("which rudiment?", "give its name, as in wristwork add rudiment flam-accent --week 3")
        return add_rudiment(" ".join(words), options.week, options.folder, Paint.on(sys.stdout))

    parser.set_defaults(run=run)


def _week_number(typed: str) -> int:
    if typed.isdecimal():
        return int(typed)
    raise argparse.ArgumentTypeError(f"'{typed}' is no week's number")


_COMMANDS: dict[str, Callable[[argparse._SubParsersAction[_Parser], str], None]] = {
    "new": _new,
    "check": _check,
    "try": _try,
    "add": _add,
}


if __name__ == "__main__":
    sys.exit(main())
