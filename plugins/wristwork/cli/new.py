"""``wristwork new``: a course grown from the starter."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

from wristwork.cli.paint import Paint
from wristwork.cli.seeds import BUILT, has_seed, seed_folder
from wristwork.cli.source import source
from wristwork.cli.trouble import Trouble
from wristwork.languages.catalogues import has_catalogue, known_languages
from wristwork.languages.say import say, spoken
from wristwork.people.folder import FOLDER

_STARTER = "starter"
_NAME = re.compile(r"^site_name:.*$", re.MULTILINE)


def new(folder: Path, name: str | None, keep_students: bool, paint: Paint, code: str | None = None) -> int:
    """Copy the starter into a folder that is not there yet, or empty.

    ``keep_students``: version control is to hold the notes on students, too. ``code`` is the language of the course,
    else it has the one that is spoken.
    """
    if folder.exists() and not folder.is_dir():
        raise Trouble(say("{folder} is a file", folder=folder), say("give the name of a new folder"))
    if folder.is_dir() and any(folder.iterdir()):
        remedy = say("give the name of a new folder, since nothing is ever overwritten")
        raise Trouble(say("{folder} is not empty", folder=folder), remedy)
    if name is not None and not name.isprintable():
        remedy = say("type it again without that character, as in --name 'My course'")
        raise Trouble(say("a name with a character that can't be shown"), remedy)
    if code is not None and not has_catalogue(code):
        remedy = say("the languages are {codes}", codes=", ".join(known_languages()))
        raise Trouble(say("there is no language '{code}'", code=code), remedy)
    code = code or spoken().code
    starter, tool = seed_folder(_STARTER, code), source()
    was_there = folder.is_dir()
    try:
        shutil.copytree(starter, folder, ignore=shutil.ignore_patterns(*BUILT), dirs_exist_ok=True)
        tool.write(folder)
        _give_name(folder / "mkdocs.yml", name or _name_of(folder))
        if not keep_students:
            _keep_out(folder / ".gitignore")
    except OSError as error:
        _clear(folder, was_there)
        remedy = say("{reason}; nothing was left there", reason=_reason(error))
        raise Trouble(say("{file} can't be written", file=folder), remedy) from error
    there = paint.styled("strong", str(folder))
    paint.line(say("A course of two weeks is in {folder}. From here:", folder=there))
    paint.line()
    for command, use in (
        (f"cd {_quoted(folder)}", say("go there")),
        ("mkdocs serve", say("see it at http://127.0.0.1:8000 while you write in docs/")),
        ("wristwork check", say("hear what a tired tutor misses")),
        ("mkdocs build", say("make the site in site/, for any web host")),
    ):
        paint.line(f"  {paint.styled('strong', f'{command:<18}')}  {use}")
    paint.line()
    if not has_seed(_STARTER, code):
        paint.line(say("There is no course to begin with in this language yet: this one is written in English."))
    for line in tool.said:
        paint.line(line)
    return 0


def _give_name(settings: Path, name: str) -> None:
    text = settings.read_text(encoding="utf-8")
    # JSON's quotes are YAML's too, whatever the name holds.
    settings.write_text(
        _NAME.sub(lambda _: f"site_name: {json.dumps(name, ensure_ascii=False)}", text, count=1), encoding="utf-8"
    )


def _keep_out(ignored: Path) -> None:
    """Keep notes on students out of version control."""
    text = ignored.read_text(encoding="utf-8")
    remark = say("Notes on students are yours alone.")
    ignored.write_text(f"{text}\n# {remark}\n/{FOLDER}/\n", encoding="utf-8")


def _name_of(folder: Path) -> str:
    # A folder's name may hold bytes that are no characters, or characters that nobody can see.
    shown = "".join(char if char.isprintable() else " " for char in folder.resolve().name)
    words = re.sub(r"[-_\s]+", " ", shown).strip()
    return words[:1].upper() + words[1:] or say("My drum course")


def _clear(folder: Path, was_there: bool) -> None:
    """Take away what was written into a folder that was empty, or not there at all."""
    for path in folder.iterdir() if folder.is_dir() else ():
        shutil.rmtree(path) if path.is_dir() and not path.is_symlink() else path.unlink()
    if not was_there and folder.is_dir():
        folder.rmdir()


def _reason(error: OSError) -> str:
    """Why something could not be written. A copied tree tells of each of its files: the first one is enough."""
    if isinstance(error, shutil.Error) and error.args and error.args[0]:
        return re.sub(r"^\[Errno \d+\] ", "", str(error.args[0][0][-1])).partition(":")[0]
    return error.strerror or str(error)


def _quoted(folder: Path) -> str:
    text = str(folder)
    return f"'{text}'" if re.search(r"[^\w./~+-]", text) else text
