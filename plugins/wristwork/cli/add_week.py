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

_WEEKS_FOLDER = "weeks"
_USUAL_MINUTES = 20
_DIGITS = re.compile(r"\d+(?!.*\d)")
# What YAML takes for a text as it stands.
_PLAIN = re.compile(r"[A-Za-z][\w ,.'’()-]*[\w.)]")
_HINT = "<!-- Write what is new and how it feels, then a pattern. Each pattern wants words around it. -->"


def add_week(title: str, number: int | None, opens: date | None, folder: Path, paint: Paint) -> int:
    """Make the page of a week; nothing is ever overwritten."""
    if not title.isprintable():
        raise Trouble("a title with a character that can't be shown", "type it again without")
    files = read_files(folder)
    numbered = files.course.numbered
    wanted = number if number is not None else max((week.number for week in numbered), default=0) + 1
    if wanted not in WEEKS:
        raise Trouble(f"a week can't have the number {wanted}", f"say --week, from {WEEKS.start} to {WEEKS.stop - 1}")
    for week in numbered:
        if week.number == wanted:
            remedy = "give the new one another number with --week"
            raise Trouble(f"week {wanted} is there already, in {from_folder(folder, week.path)}", remedy)
    path = _path(wanted, files)
    if path.exists():
        raise Trouble(f"{path.as_posix()} is there already", "give it another name, then add the week")
    before = [week for week in numbered if week.number < wanted]
    minutes = before[-1].minutes if before else _USUAL_MINUTES
    try:
        write_whole(path, _page(wanted, title or f"Week {wanted}", minutes, opens).encode())
    except OSError as error:
        raise Trouble(f"{path} can't be written ({error.strerror or error})", "nothing was changed") from error
    paint.line(f"{paint.styled('good', 'Added')} week {wanted}: {paint.styled('strong', path.as_posix())}")
    paint.line("Say at its top what the student can do at its end (aim: …), then write below.")
    if files.config.nav is not None and before:
        uri = path.relative_to(Path(files.docs)).as_posix()
        paint.line(f"{files.settings} lists its pages under nav: put {uri} there, where it belongs.")
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
    lines = [
        "---",
        f"week: {number}",
        f"title: {quoted}",
        *([f"minutes: {minutes}"] if minutes else []),
        *([f"opens: {opens.isoformat()}"] if opens else []),
        "aim:",
        "---",
        "",
        _HINT,
        "",
    ]
    return "\n".join(lines)
