"""The folder ``sounds/`` of a course, in which a tutor's own sounds lie."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path

from wristwork.files import read_plain
from wristwork.languages.say import say
from wristwork.page.problem import SOUND, Problem
from wristwork.store.making import SOUND_MAKER, digest

FOLDER = "sounds"

# Bytes of a file; six seconds of the most that a sound may be take far less.
LARGEST = 64_000_000

# Notes to oneself, and what systems leave in folders. Hidden files are no sounds either.
_NO_SOUNDS = ("readme", "license", "thumbs", "desktop")


def read_sounds(folder: Path) -> tuple[dict[str, bytes], list[Problem]]:
    """The files of the folder by name, and what could not be read; nothing of either where there is no folder."""
    files: dict[str, bytes] = {}
    problems = []
    try:
        paths = sorted(folder.iterdir())
    except FileNotFoundError:
        return {}, []
    except NotADirectoryError:
        return {}, [_problem("", say("is a file"), say("make it a folder, and put the sounds into it"))]
    except OSError as error:
        return {}, [_problem("", _unreadable(error), say("make it readable"))]
    for path in paths:
        if path.name.startswith(".") or path.stem.lower() in _NO_SOUNDS:
            continue
        if path.is_dir():
            problems.append(
                _problem(path.name, say("is a folder"), say("put its files right into {folder}/", folder=FOLDER))
            )
            continue
        try:
            files[path.name] = read_plain(path, LARGEST)
        except OSError as error:
            problems.append(_problem(path.name, _unreadable(error), say("put a sound there, or take it out")))
    return files, problems


def _problem(name: str, found: str, remedy: str) -> Problem:
    """What is wrong with a file of the folder, or with the folder itself where the name is empty."""
    return Problem(f"{FOLDER}/{name}" if name else FOLDER, 0, 0, found, remedy, SOUND)


def _unreadable(error: OSError) -> str:
    return say("can't be read ({reason})", reason=error.strerror or error)


def sounds_key(files: Mapping[str, bytes]) -> str:
    """The same for kits with the same files, made by the same code."""
    digests = (f"{name} {hashlib.sha256(content).hexdigest()}" for name, content in files.items())
    return digest("own sounds", *digests, by=SOUND_MAKER)


def faults(files: Mapping[str, bytes]) -> list[Problem]:
    """What is wrong with the files as sounds."""
    # Imported where there is something to read: it brings all that makes sound.
    from wristwork.sound.own import OwnSoundsError, own_sounds

    try:
        own_sounds(files)
    except OwnSoundsError as error:
        return [_problem(problem.path, problem.found, problem.remedy) for problem in error.problems]
    return []
