"""Commands whose help and whose answers to mistyping are in the language that is spoken when somebody asks."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

import click

from wristwork.languages.lists import either
from wristwork.languages.say import marked, say, say_count
from wristwork.page.problem import printable

# What click itself says of the options that it adds, word for word.
_OF_CLICK = (marked("Show this message and exit."), marked("Show the version and exit."))


class Mistyped(click.UsageError):
    """Something was mistyped; the message is said already, and what to do about it is in the help."""


class NoCommand(click.UsageError):
    """There is no such command; the message is said already, and has its remedy."""


class Command(click.Command):
    """A command that says its help.

    ``about`` holds the marked paragraphs that tell what it does, the first of them beginning with a sentence for the
    list of commands. ``example`` is a line to type.
    """

    about: Sequence[str] = ()
    example = ""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        ctx.allow_extra_args = True  # what is too much is told below
        try:
            rest = super().parse_args(ctx, args)
        except click.BadOptionUsage as error:
            raise Mistyped(self._wrongly_used(error.option_name, ctx)) from error
        if rest and not self.allow_extra_args:
            found = say_count(
                "got unexpected extra argument ({typed})",
                "got unexpected extra arguments ({typed})",
                len(rest),
                typed=" ".join(rest),
            )
            raise Mistyped(found, ctx)
        return rest

    def _wrongly_used(self, name: str, ctx: click.Context) -> str:
        used = next((param for param in self.get_params(ctx) if name in param.opts), None)
        if isinstance(used, click.Option) and used.is_flag:
            return say("option '{option}' does not take a value", option=name)
        return say("option '{option}' requires an argument", option=name)

    def get_help(self, ctx: click.Context) -> str:
        # What a terminal can't show must not stop it from showing the rest.
        encoding = sys.stdout.encoding or "utf-8"
        return super().get_help(ctx).encode(encoding, "replace").decode(encoding)

    def get_short_help_str(self, limit: int = 45) -> str:
        return click.Command(None, help=say(self.about[0])).get_short_help_str(limit)

    def format_usage(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        usage = say("Usage:")
        formatter.write_usage(ctx.command_path, " ".join(self.collect_usage_pieces(ctx)), f"{usage} ")

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        formatter.write_paragraph()
        with formatter.indentation():
            formatter.write_text("\n\n".join(map(say, self.about)))

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        records = (param.get_help_record(ctx) for param in self.get_params(ctx) if isinstance(param, click.Option))
        with _section(formatter, say("Options:")):
            formatter.write_dl([(names, say(help_)) for names, help_ in filter(None, records)])

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        if self.example:
            _write_lines(formatter, (say("For example:"), f"  {self.example}"))


class Group(Command, click.Group):
    """A group of commands that says its help; ``hints`` are marked lines below what it is about."""

    hints: Sequence[str] = ()

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if args and not [arg for arg in args if arg != "--"]:
            raise Mistyped(say("missing command"), ctx)
        return super().parse_args(ctx, args)

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        super().format_help_text(ctx, formatter)
        _write_lines(formatter, map(say, self.hints))

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        super().format_options(ctx, formatter)
        commands = [(name, self.commands[name]) for name in self.list_commands(ctx)]
        limit = formatter.width - 6 - max(len(name) for name, _ in commands)
        with _section(formatter, say("Commands:")):
            formatter.write_dl([(name, each.get_short_help_str(limit)) for name, each in commands])


class Choice(click.Choice[str]):
    """One of some words."""

    def get_invalid_choice_message(self, value: object, ctx: click.Context | None) -> str:
        choices = ", ".join(f"'{choice}'" for choice in self.choices)
        return say("'{typed}' is not one of {choices}", typed=value, choices=choices)


def mistyped(error: click.UsageError, examples: dict[str, str]) -> str:
    """What was mistyped and what to do, in one line; ``examples`` are lines to type, by the command."""
    if isinstance(error, NoCommand):
        return printable(error.message)
    if isinstance(error, click.MissingParameter) and error.param and error.ctx:
        is_option = isinstance(error.param, click.Option)
        missing = error.param.opts[0] if is_option else error.param.make_metavar(error.ctx)
        example = examples[error.ctx.info_name or ""]
        return say("{missing} is missing: write, say, {example}", missing=missing, example=example)
    if isinstance(error, click.NoSuchOption) and error.possibilities and len(error.possibilities) == 1:
        near = error.possibilities[0]
        return printable(say("no such option '{option}'. Did you mean '{near}'?", option=error.option_name, near=near))
    remedy = say("see {command} --help", command=error.ctx.command_path if error.ctx else "wristwork")
    return printable(f"{_what(error)}: {remedy}")


def _what(error: click.UsageError) -> str:
    if isinstance(error, click.NoSuchOption):
        if not error.possibilities:
            return say("no such option '{option}'", option=error.option_name)
        near = either(f"'{each}'" for each in sorted(error.possibilities))
        return say("no such option '{option}', unless {near} is meant", option=error.option_name, near=near)
    if isinstance(error, click.BadParameter) and error.param:
        hint = error.param.get_error_hint(error.ctx)
        return say("invalid value for {option}: {what}", option=hint, what=error.message.rstrip("."))
    return error.message


@contextmanager
def _section(formatter: click.HelpFormatter, heading: str) -> Iterator[None]:
    """A part of the help under a heading that is said with its colon."""
    formatter.write_paragraph()
    formatter.write(f"{heading}\n")
    with formatter.indentation():
        yield


def _write_lines(formatter: click.HelpFormatter, lines: Iterable[str]) -> None:
    """Lines that stay lines."""
    formatter.write_paragraph()
    with formatter.indentation():
        formatter.write_text("\b\n" + "\n".join(lines))
