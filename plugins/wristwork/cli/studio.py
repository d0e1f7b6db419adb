"""``wristwork studio``: the front page of all courses of a studio."""

from __future__ import annotations

from pathlib import Path

import yaml

from wristwork.cli.paint import Paint
from wristwork.cli.tongue import STUDIO_FILE as FILE
from wristwork.cli.trouble import Trouble
from wristwork.files import write_whole
from wristwork.languages.say import say, speak
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.looking import read_look
from wristwork.site.mkdocs.settings_file import bare_settings
from wristwork.site.mkdocs.speech import studio_language
from wristwork.site.mkdocs.studio import read_studio
from wristwork.site.overview.studio_page import INDEX, MARK, StudioCourse, studio_page


def make_front_page(folder: Path, target: Path | None, paint: Paint) -> int:
    """Make the page of the studio in a folder; returns the exit code."""
    if not (folder / FILE).exists():
        remedy = say("write a line such as courses: [beginners, kit] into such a file")
        raise Trouble(say("{file} is not there", file=folder / FILE), remedy)
    config = bare_settings(folder, folder / FILE)
    studio = read_studio(config, FILE, 1)
    own = WristworkConfig()
    own.load_dict({"studio": FILE})
    own.validate()
    seen = read_look(config, own)
    for problem in seen.problems:
        raise Trouble(f"{problem.where}: {problem.found}", problem.remedy)
    for note in seen.notes:
        paint.line(note)
    speak(studio_language(studio.says))
    if not studio.says.courses:
        remedy = say("write a line such as courses: [beginners, kit]")
        raise Trouble(say("{file} names no courses", file=folder / FILE), remedy)
    courses = [_course(folder / name) for name in studio.says.courses]
    site = target or folder / "site"
    if (site / INDEX).exists() and MARK not in (site / INDEX).read_text(encoding="utf-8", errors="replace"):
        found = say("{file} is there, and is no front page", file=site / INDEX)
        raise Trouble(found, say("name another folder with --to"))
    try:
        for address, content in studio_page(studio.says.name or say("Our courses"), courses, seen.look):
            write_whole(site / address, content)
    except OSError as error:
        found = say("{file} can't be written ({reason})", file=site, reason=error.strerror)
        raise Trouble(found, say("name another folder with --to")) from error
    paint.line(f"{site / INDEX}: {', '.join(course.name for course in courses)}")
    return 0


def _course(folder: Path) -> StudioCourse:
    """A course as its settings name it."""
    file = folder / "mkdocs.yml"
    try:
        said = yaml.load(file.read_text(encoding="utf-8-sig"), _Plain)
    except FileNotFoundError as error:
        remedy = say("correct courses: in {file}", file=FILE)
        raise Trouble(say("there is no course {folder}", folder=folder), remedy) from error
    except (OSError, UnicodeDecodeError, yaml.YAMLError) as error:
        raise Trouble(say("{file} can't be read", file=file), say("see wristwork check")) from error
    given = said if isinstance(said, dict) else {}
    if not given.get("site_url"):
        found = say("{file} does not say where the course is published", file=file)
        raise Trouble(found, say("write its site_url:"))
    name = str(given.get("site_name") or folder.name)
    return StudioCourse(name, str(given.get("site_description") or ""), str(given["site_url"]))


class _Plain(yaml.SafeLoader):
    """Settings may hold tags of other tools, which mean nothing here."""


_Plain.add_multi_constructor("", lambda loader, suffix, node: None)
