"""``wristwork add week``: the page of a new week, beside the others."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

import yaml

from wristwork.cli.course_files import CourseFiles, from_folder, read_files
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.course.weeks import WEEKS, Week
from wristwork.files import write_whole
from wristwork.languages.say import marked, say

_WEEKS_FOLDER = "weeks"
_USUAL_MINUTES = 20
_DIGITS = re.compile(r"\d+(?!.*\d)")
# What YAML takes for a text as it stands.
_PLAIN = re.compile(r"[A-Za-z][\w ,.'’()-]*[\w.)]")
_HINT = marked("Write what is new and how it feels, then a pattern. Each pattern wants words around it.")


def add_week(title: str, number: int | None, opens: date | None, folder: Path, paint: Paint) -> int:
    """Make the page of a week; nothing is ever overwritten."""
    if not title.isprintable():
        raise Trouble(say("a title with a character that can't be shown"), say("type it again without that character"))
    files = read_files(folder)
    numbered = files.course.numbered
    wanted = number if number is not None else max((week.number for week in numbered), default=0) + 1
    if wanted not in WEEKS:
        remedy = say("say --week, from {first} to {last}", first=WEEKS.start, last=WEEKS.stop - 1)
        raise Trouble(say("a week can't have the number {number}", number=wanted), remedy)
    for week in numbered:
        if week.number == wanted:
            where = from_folder(folder, week.path)
            found = say("week {number} is there already, in {page}", number=wanted, page=where)
            raise Trouble(found, say("give the new one another number with --week"))
    path = _path(wanted, files)
    if path.exists():
        found = say("{file} is there already", file=path.as_posix())
        raise Trouble(found, say("give it another name, then add the week"))
    before = [week for week in numbered if week.number < wanted]
    minutes = before[-1].minutes if before else _USUAL_MINUTES
    try:
        write_whole(path, _page(wanted, title or say("Week {number}", number=wanted), minutes, opens).encode())
    except OSError as error:
        found = say("{file} can't be written ({reason})", file=path, reason=error.strerror or error)
        raise Trouble(found, say("nothing was changed")) from error
    paint.line(paint.styled("good", say("Added week {number}: {page}", number=wanted, page=path.as_posix())))
    paint.line(say("Say at its top what the student can do at its end (aim: …), then write below."))
    if files.config.nav is not None and before:
        uri = path.relative_to(Path(files.docs)).as_posix()
        told = say(
            "{settings} lists its pages under nav: put {page} there, where it belongs.",
            settings=files.settings,
            page=uri,
        )
        paint.line(told)
    return 0


def _path(number: int, files: CourseFiles) -> Path:
    """Beside the last week and called like it, or in the folder of weeks."""
    name = f"week-{number:02d}.md"
    last: Week | None = files.course.numbered[-1] if files.course.numbered else None
    if last is None:
        return Path(files.docs) / _WEEKS_FOLDER / name
    beside = Path(from_folder(files.folder, last.path))
    digits = _DIGITS.search(beside.stem)
    if digits is None or int(digits[0]) != last.number:
        return beside.with_name(name)
    called = f"{number:0{len(digits[0])}d}"
    return beside.with_name(f"{beside.stem[: digits.start()]}{called}{beside.stem[digits.end() :]}{beside.suffix}")


def _page(number: int, title: str, minutes: int | None, opens: date | None) -> str:
    is_plain = _PLAIN.fullmatch(title) and yaml.safe_load(title) == title
    quoted = title if is_plain else json.dumps(title, ensure_ascii=False)
    hint = say(_HINT)
    lines = [
        "---",
        f"week: {number}",
        f"title: {quoted}",
        *([f"minutes: {minutes}"] if minutes else []),
        *([f"opens: {opens.isoformat()}"] if opens else []),
        "aim:",
        "---",
        "",
        f"<!-- {hint} -->",
        "",
    ]
    return "\n".join(lines)
