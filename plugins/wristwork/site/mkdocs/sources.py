"""The pages of a course as MkDocs collects them, and those of them that cannot be read."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File

from wristwork.languages.say import say
from wristwork.page.problem import PAGE, Problem
from wristwork.pattern.claims import claimed_ids
from wristwork.site.reading.lessons import PageSource

Shown = Callable[[File], str]


@dataclass(frozen=True, slots=True)
class Sources:
    """The pages of a course; those that cannot be read are empty.

    ``problems`` tell of these, ``unread`` are their ``src_uri``, ``claimed`` the ids that they seem to name.
    ``left_out`` are pages that the settings keep out of the site.
    """

    pages: tuple[PageSource, ...]
    problems: tuple[Problem, ...] = ()
    claimed: frozenset[str] = frozenset()
    unread: tuple[str, ...] = ()
    left_out: tuple[PageSource, ...] = ()


def read_sources(files: Iterable[File], shown: Shown) -> Sources:
    """The texts of some files; ``shown`` says how messages name a file."""
    pages: list[PageSource] = []
    problems: list[Problem] = []
    claimed: frozenset[str] = frozenset()
    unread: list[str] = []
    for file in files:
        text = ""
        try:
            text = file.content_string
        except UnicodeDecodeError as error:
            problems.append(_other_encoding(shown(file), error))
            claimed |= claimed_ids(_as_far_as_known(error.object))
            unread.append(file.src_uri)
        except OSError as error:
            found = say("can't be read: {reason}", reason=error.strerror or error)
            remedy = say("look at its permissions, or put it back")
            problems.append(Problem(shown(file), 0, 0, found, remedy, PAGE))
            unread.append(file.src_uri)
        pages.append(PageSource(file.src_uri, shown(file), file.url, text))
    return Sources(tuple(pages), tuple(problems), claimed, tuple(unread))


def _other_encoding(path: str, error: UnicodeDecodeError) -> Problem:
    """What to say of a page in another encoding, at the first character that shows it."""
    content = bytes(error.object)
    if content[:4] in (b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff"):
        found = say("a page that is not written in UTF-8 but in UTF-32")
        return Problem(path, 1, 0, found, say("save it as UTF-8"), PAGE)
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        found = say("a page that is not written in UTF-8 but in UTF-16")
        return Problem(path, 1, 0, found, say("save it as UTF-8"), PAGE)
    before = content[: error.start].split(b"\n")
    byte = f"{content[error.start]:02X}"
    found = say("a page that is not written in UTF-8: the byte {byte} is no character there", byte=byte)
    return Problem(path, len(before), 0, found, say("save it in that encoding"), PAGE)


def _as_far_as_known(content: bytes) -> str:
    """The plain letters of a text in whatever encoding: enough for the ids in it."""
    return bytes(content).replace(b"\x00", b"").decode("latin-1")


def shown_path(file: File, config: MkDocsConfig) -> str:
    """How messages name a page: from the folder of the course's settings, with forward slashes."""
    if file.abs_src_path is None:
        return file.src_uri
    return Path(os.path.relpath(file.abs_src_path, course_folder(config))).as_posix()


def course_folder(config: MkDocsConfig) -> Path:
    """The folder that holds the course's settings."""
    return Path(config.config_file_path or config.docs_dir).parent
