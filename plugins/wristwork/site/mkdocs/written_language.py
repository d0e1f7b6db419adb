"""The language of a course by a look ahead into its settings, so that what is wrong in them is told in it too."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.base import ValidationError
from mkdocs.utils.yaml import get_yaml_loader

from wristwork.files import read_plain
from wristwork.languages.catalogues import SOURCE, Language, language
from wristwork.languages.own_words import right_words
from wristwork.site.mkdocs.config import Counting

_NAMES = ("mkdocs.yml", "mkdocs.yaml")
_LARGEST = 1_000_000  # bytes of a file that somebody typed
_DEEPEST = 9  # files that take over one another; a circle of them ends there
# The settings of the theme, in lines below its own or in that line, and the language in them.
_THEME = re.compile(r"^theme[ \t]*:.*(?:\n(?:[ \t#].*)?)*", re.MULTILINE)
_LANGUAGE = re.compile(
    r"""^(?:[^#\n]*[{,])?[ \t]*language[ \t]*:[ \t]*["']?(?P<code>[A-Za-z]{2,3}(?:-\w+)?)\b""", re.MULTILINE
)


class _Tolerant(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
    """Reads on past what is no value for us: tags of other tools, days that no calendar has."""


_Tolerant.add_constructor(None, lambda loader, node: None)
_Tolerant.add_constructor("tag:yaml.org,2002:timestamp", lambda loader, node: node.value)
_LOADER = get_yaml_loader(_Tolerant)


def written_language(place: str | Path | None) -> Language | None:
    """The language that settings ask for, with the tutor's own words in it: those of a file, or of a course's folder.

    None where they ask for none, or can't be read. Nothing that is wrong in them stands in the way: of a file that is
    no YAML the line that names the language is believed, and words that can't be said are left out.
    """
    text, file = _text(place)
    if file is None:
        return None
    try:
        said = _settings(text, file, _DEEPEST)
    except (yaml.YAMLError, ValueError, TypeError, RecursionError):
        code = _guess(text)
        return language(code) if code else None
    theme = said.get("theme")
    code = theme.get("language") if isinstance(theme, dict) else None
    code = code if isinstance(code, str) and code else None
    own = _options(said.get("plugins"))
    words, counting = right_words(own.get("words")), _counting(own.get("counting"))
    return language(code or SOURCE, words, counting) if code or words or counting else None


def _text(place: str | Path | None) -> tuple[str, Path | None]:
    """The settings' text, and the file that holds it; no file where none can be read."""
    for file in _files(place):
        try:
            return read_plain(file, _LARGEST).decode("utf-8-sig", errors="replace"), file
        except OSError:
            continue
    return "", None


def _files(place: str | Path | None) -> Iterator[Path]:
    if place is not None:
        path = Path(place)
        yield from [path / name for name in _NAMES] if path.is_dir() else [path]


def _settings(text: str, file: Path, deep: int) -> dict[Any, Any]:
    """What a file says of theme and plugins, over what those say that it takes over."""
    said = yaml.load(text, Loader=_LOADER)
    if not isinstance(said, dict):
        return {}
    taken = said.get("INHERIT")
    over, parent = _text(file.parent / taken) if isinstance(taken, str) and deep else ("", None)
    below = _settings(over, parent, deep - 1) if parent else {}
    return {key: _over(said.get(key), below.get(key)) for key in ("theme", "plugins")}


def _over(said: object, below: object) -> object:
    if isinstance(said, dict) and isinstance(below, dict):
        return {**below, **said}
    return below if said is None else said


def _options(plugins: object) -> dict[Any, Any]:
    """The options of our plugin."""
    entries: Iterable[object] = plugins if isinstance(plugins, list) else [plugins]
    found = (entry.get("wristwork") for entry in entries if isinstance(entry, dict))
    return next((options for options in found if isinstance(options, dict)), {})


def _counting(value: object) -> str | None:
    try:
        return None if value is None else Counting().run_validation(value)
    except ValidationError:
        return None


def _guess(text: str) -> str | None:
    """The language that a line of the theme's names."""
    theme = _THEME.search(text)
    line = _LANGUAGE.search(theme[0]) if theme else None
    return line["code"] if line else None
