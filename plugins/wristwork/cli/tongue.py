"""The language in which a command speaks: that of the course that it works on, else that of the machine.

It is known before what was typed is understood, so that what is mistyped is told in it, too.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from wristwork.languages.catalogues import SOURCE, Language, has_catalogue, language

SETTINGS_FILES = ("mkdocs.yml", "mkdocs.yaml")
STUDIO_FILE = "studio.yml"

# The first of these that says anything counts.
_VARIABLES = ("LC_ALL", "LC_MESSAGES", "LANG")
_CODE = re.compile(r"(?P<language>[a-z]{2,3})(?:[_-](?P<country>[A-Za-z0-9]+))?(?:[.@].*)?", re.IGNORECASE)
_FOLDER, _LANGUAGE = "--folder", "--language"
_OF_STUDIO = re.compile(r"^language:[ \t]*[\"']?([A-Za-z]{2,3}(?:-\w+)*)", re.MULTILINE)
_LARGEST = 1_000_000  # letters


def tongue_of(typed: Sequence[str], environment: Mapping[str, str] = os.environ) -> Language:
    """The language for a command, by all that was typed behind ``wristwork``."""
    if typed[:1] == ["new"]:  # works on no course that is there already
        asked = next(_values(typed, _LANGUAGE), "")
        return language(asked) if has_catalogue(asked) else machine_language(environment)
    for folder in (*_values(typed, _FOLDER), *typed[1:], "."):
        found = _course_language(folder)
        if found is not None:
            return found
    return machine_language(environment)


def machine_language(environment: Mapping[str, str] = os.environ) -> Language:
    """The language of this machine, where it has a catalogue; else English."""
    said = next((environment[name] for name in _VARIABLES if environment.get(name)), "")
    found = _CODE.fullmatch(said)
    if found is None or found["language"].lower() == SOURCE:  # English is written as the source writes it
        return language(SOURCE)
    code = "-".join(part for part in (found["language"].lower(), found["country"]) if part)
    return language(code) if has_catalogue(code) else language(SOURCE)


def _values(typed: Sequence[str], option: str) -> Iterator[str]:
    """What stands behind an option, however it was joined to it."""
    for place, word in enumerate(typed):
        if word == option:
            yield from typed[place + 1 : place + 2]
        elif word.startswith(f"{option}="):
            yield word.partition("=")[2]


def _course_language(folder: str) -> Language | None:
    """The language of a folder's course, or of its studio; None where there is neither."""
    for name in SETTINGS_FILES:
        path = os.path.join(folder, name)
        if os.path.isfile(path):  # False for what can't be a path at all, as a message is
            # What reads settings takes long to load, and there are commands outside of any course.
            from wristwork.site.mkdocs.written_language import written_language

            return written_language(path) or language(SOURCE)
    path = os.path.join(folder, STUDIO_FILE)
    if os.path.isfile(path):
        found = _OF_STUDIO.search(_text(Path(path)))
        return language(found[1] if found else SOURCE)
    return None


def _text(path: Path) -> str:
    try:
        with path.open(encoding="utf-8-sig", errors="replace") as file:
            return file.read(_LARGEST)
    except OSError:
        return ""
