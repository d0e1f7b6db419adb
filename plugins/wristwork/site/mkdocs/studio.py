"""The file of a studio, in which the look of all its courses stands once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml
from mkdocs.config import config_options as c
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig

from wristwork.files import read_plain
from wristwork.languages.say import say
from wristwork.page.problem import SETTINGS, Problem
from wristwork.site.mkdocs.config import Colours, Counting, LookName, Words
from wristwork.site.mkdocs.sources import course_folder
from wristwork.wording import nearest

_LARGEST = 100_000  # bytes of a file of a few lines


class StudioConfig(Config):
    """What a studio's file may say. Paths begin at the folder of the file."""

    language = c.Optional(c.Type(str))
    words = Words()
    counting = c.Optional(Counting())
    look = c.Optional(LookName())
    colours = Colours()
    font = c.Optional(c.Type(str))
    logo = c.Optional(c.Type(str))
    name = c.Optional(c.Type(str))
    courses = c.Optional(c.ListOfItems(c.Type(str)))


@dataclass(frozen=True, slots=True)
class Studio:
    """What the file says, in which folder it lies, how messages name it, and what is wrong with it."""

    says: StudioConfig
    folder: Path = Path()
    shown: str = ""
    problems: tuple[Problem, ...] = ()


def read_studio(config: MkDocsConfig, named: str | None, line: int) -> Studio:
    """The studio whose file a course names in a ``line`` of its settings; one that says nothing where none is named."""
    if named is None:
        return Studio(_settings({}))
    file = Path(config.config_file_path or "mkdocs.yml").name
    path = course_folder(config) / named
    try:
        said = yaml.safe_load(read_plain(path, _LARGEST).decode("utf-8-sig"))
    except FileNotFoundError:
        found = say("the studio's file {name} is not there", name=named)
        return _wrong(Problem(file, line, 0, found, say("put it there, or correct studio:"), SETTINGS))
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else say("it is not written in UTF-8")
        found = say("the studio's file {name} can't be read: {reason}", name=named, reason=why or error)
        return _wrong(Problem(file, line, 0, found, say("put it there, or correct studio:"), SETTINGS))
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        where = mark.line + 1 if mark else 1
        remedy = say("write lines as in look: maple; a colour stands in quotation marks")
        return _wrong(Problem(named, where, 0, say("lines that are no settings"), remedy, SETTINGS))
    if said is not None and not isinstance(said, dict):
        remedy = say("write lines as in look: maple")
        return _wrong(Problem(named, 1, 0, say("no list of settings"), remedy, SETTINGS))
    given = {str(key): value for key, value in (said or {}).items()}
    problems = tuple(_problems(given, named, path))
    return Studio(_settings({} if problems else given), path.parent, named, problems)


def _wrong(problem: Problem) -> Studio:
    return Studio(_settings({}), problems=(problem,))


def _settings(given: dict[str, object]) -> StudioConfig:
    settings = StudioConfig()
    settings.load_dict(given)
    settings.validate()
    return settings


def _problems(given: dict[str, object], shown: str, path: Path) -> Iterator[Problem]:
    known = [key for key in StudioConfig() if key]
    lines = path.read_text(encoding="utf-8-sig").splitlines()
    settings = StudioConfig()
    settings.load_dict({key: value for key, value in given.items() if key in known})
    remedies = {key: say("correct {key}:, or take it out", key=key) for key in known}
    wrong = [(key, str(error), remedies[key]) for key, error in settings.validate()[0]]
    for key in given.keys() - set(known):
        near = nearest(key, known)
        remedy = (
            say("did you mean {near}?", near=near)
            if near
            else say("the settings are {settings}", settings=", ".join(known))
        )
        wrong.append((key, say("an unknown setting of a studio"), remedy))
    for key, found, remedy in sorted(wrong):
        line = next((number for number, text in enumerate(lines, start=1) if text.startswith(key)), 1)
        yield Problem(shown, line, 0, f"{key}: {found}", remedy, SETTINGS)
