"""The settings of the plugin in ``mkdocs.yml``."""

from __future__ import annotations

import datetime

from mkdocs.config import config_options as c
from mkdocs.config.base import BaseConfigOption, Config, ValidationError

from wristwork.course.weeks import DAYS, DEFAULT_DAYS
from wristwork.drawing.counting_words import COUNTINGS
from wristwork.languages.lists import either
from wristwork.languages.own_words import wrong_words
from wristwork.languages.say import say
from wristwork.look.finished import LOOKS
from wristwork.look.shades import EXAMPLE, read_colour
from wristwork.paper.press import PaperSize
from wristwork.pattern.model import DiagramRow

# The papers by the names that tutors have for them.
PAPERS = {"a4": PaperSize.A4, "letter": PaperSize.LETTER}
# Far enough, and no week of any course falls off the calendar.
YEARS = range(1970, 2200)


class Rows(c.OptionallyRequired[tuple[DiagramRow, ...]]):
    """The rows of a diagram: a list, or one text with commas as in a pattern."""

    def run_validation(self, value: object) -> tuple[DiagramRow, ...]:
        names = value.split(",") if isinstance(value, str) else value
        if not isinstance(names, list) or not names:
            raise ValidationError(say("Expected rows out of {rows}", rows=", ".join(DiagramRow)))
        asked = [str(name).strip() for name in names]
        for name in asked:
            if name not in list(DiagramRow):
                rows = ", ".join(DiagramRow)
                raise ValidationError(say("Unknown row '{name}'. The rows are {rows}", name=name, rows=rows))
        return tuple(row for row in DiagramRow if row in asked)


class Checks(BaseConfigOption[str]):
    """``warn`` or ``off``; YAML reads a bare off as false."""

    def __init__(self) -> None:
        super().__init__()
        self.default = "warn"

    def run_validation(self, value: object) -> str:
        plain = {False: "off", True: "warn"}.get(value, value) if isinstance(value, bool) else value
        if plain not in ("warn", "off"):
            raise ValidationError(say("Expected warn or off, found {value}", value=repr(value)))
        return str(plain)


class PaperChoice(BaseConfigOption[PaperSize | None]):
    """``a4``, ``letter`` or ``off``; YAML reads a bare off as false."""

    def __init__(self) -> None:
        super().__init__()
        self.default = PaperSize.A4

    def run_validation(self, value: object) -> PaperSize | None:
        if isinstance(value, PaperSize):
            return value
        if value is False or value == "off":
            return None
        size = PAPERS.get(str(value).lower())
        if size is None:
            raise ValidationError(_expected(either([*PAPERS, "off"]), value))
        return size


class Day(c.OptionallyRequired[datetime.date]):
    """An ISO date; YAML reads a bare one as a date already."""

    def run_validation(self, value: object) -> datetime.date:
        try:
            day = datetime.date.fromisoformat(str(value))
        except ValueError:
            raise ValidationError(say("Expected a date like 2027-01-11, found {value}", value=repr(value))) from None
        if day.year not in YEARS:
            raise ValidationError(
                say(
                    "Expected a year from {first} to {last}, found {value}",
                    first=YEARS.start,
                    last=YEARS.stop - 1,
                    value=value,
                )
            )
        return day


class LookName(c.OptionallyRequired[str]):
    """One of the finished looks."""

    def run_validation(self, value: object) -> str:
        name = str(value).lower()
        if name not in LOOKS:
            raise ValidationError(_expected(", ".join(LOOKS), value))
        return name


class Colours(BaseConfigOption[tuple[str, ...]]):
    """One colour or two: a text, or a list of them; none by default. To YAML a bare ``#`` begins a comment."""

    def __init__(self) -> None:
        super().__init__()
        self.default = ()

    def run_validation(self, value: object) -> tuple[str, ...]:
        if value == ():
            return ()
        if value is None:
            raise ValidationError(
                say("Expected a colour, found nothing: a # begins a comment, so put quotation marks round it")
            )
        typed = value if isinstance(value, list) else [value]
        if len(typed) not in (1, 2):
            raise ValidationError(say("Expected one colour or two, found {count}", count=len(typed)))
        read = [read_colour(each) if isinstance(each, str) else None for each in typed]
        for each, colour in zip(typed, read, strict=True):
            if colour is None:
                raise ValidationError(
                    say(
                        'Expected a colour in quotation marks, like "{example}", found {value}',
                        example=EXAMPLE,
                        value=repr(_typed(each)),
                    )
                )
        return tuple(colour for colour in read if colour)


class Words(BaseConfigOption[tuple[tuple[str, str], ...]]):
    """A tutor's own words: what the site says in English, and what it is to say instead."""

    def __init__(self) -> None:
        super().__init__()
        self.default = ()

    def run_validation(self, value: object) -> tuple[tuple[str, str], ...]:
        if value == ():
            return ()
        if not isinstance(value, dict) or not all(isinstance(each, str) for pair in value.items() for each in pair):
            raise ValidationError(say("Expected words with what to say instead, each in quotation marks"))
        for text, instead in value.items():
            wrong = wrong_words(text, instead)
            if wrong:
                raise ValidationError(wrong)
        return tuple(value.items())


class Counting(c.OptionallyRequired[str]):
    """A way of counting, written as drummers write it: ``1 e & a``; hyphens and capitals do not matter."""

    def run_validation(self, value: object) -> str:
        typed = " ".join(str(value).lower().replace("-", " ").split())
        for name in COUNTINGS:
            if typed in (name, name.removeprefix("1 ")):
                return name
        raise ValidationError(_expected(", ".join(COUNTINGS), value))


class WristworkConfig(Config):
    """Settings under ``wristwork:`` in the list of plugins."""

    show = c.Optional(Rows())
    """Which rows to draw where a pattern does not say: all of them by default."""

    words = Words()
    """What the site says, in the tutor's own words, by its English text."""

    counting = c.Optional(Counting())
    """How beats are counted aloud: ``1 e & a``, ``1 e + e`` or ``1 ta te ta``; by default as the language does."""

    checks = Checks()
    """``warn`` about what a tired tutor misses in a course; ``off`` for a collection that is no course."""

    allow = c.Optional(c.Type((dict, list)))
    """Checks that the tutor knows better than everywhere in the course, each with a reason."""

    days = c.Type(int, default=DEFAULT_DAYS)
    """Practice sessions in a week, 1 to 7."""

    starts = c.Optional(Day())
    """The day on which week 1 begins. Without it nothing on the site speaks of dates."""

    paper = PaperChoice()
    """The paper for which sheets, weeks and the book are made: ``a4``, ``letter``, or ``off`` for none."""

    score = c.Type(bool, default=True)
    """Whether every exercise has a file for programs that read scores."""

    clips = c.Type(bool, default=False)
    """Whether every exercise has a short film for messages, which takes some seconds each to make."""

    offline = c.Type(bool, default=True)
    """Whether a reader's browser keeps what they visited, for where there is no signal."""

    studio = c.Optional(c.Type(str))
    """A file with the look that several courses share, from the course's folder."""

    library = c.Optional(c.Type(str))
    """A folder of exercises that several courses share, from the course's folder."""

    look = c.Optional(LookName())
    """A finished look by its name; without it a course has the demonstration's."""

    font = c.Optional(c.Type(str))
    """The tutor's own letters for headings: a WOFF2 file, from the course's folder."""

    colours = Colours()
    """The tutor's own colours: for the head of every page and links, and for what stands out."""

    def validate(self) -> tuple[list[tuple[str, Exception]], list[tuple[str, str]]]:
        """Hold the settings against what they may be."""
        errors, warnings = super().validate()
        if isinstance(self.days, bool) or (isinstance(self.days, int) and self.days not in DAYS):
            wrong = say(
                "Expected {first} to {last} days a week, found {value}",
                first=DAYS.start,
                last=DAYS.stop - 1,
                value=_typed(self.days),
            )
            errors.append(("days", ValidationError(wrong)))
        return errors, warnings


def _expected(known: str, value: object) -> str:
    return say("Expected {known}, found {value}", known=known, value=repr(_typed(value)))


def _typed(value: object) -> str:
    """A value as a tutor typed it, for YAML reads a bare yes as true."""
    return {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)
