"""Styles and scripts: where they are published, and which page needs which.

The rooms of ``assets/`` are for those who read the source. All files are published in one folder named by a
digest of their content: a browser may keep them for ever, and modules find each other by relative addresses.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from markupsafe import Markup

from wristwork.drawing.counting_words import COUNTINGS, counting_name
from wristwork.languages.catalogues import Language
from wristwork.languages.say import spoken
from wristwork.site.frontend import colours
from wristwork.site.frontend.lean import lean
from wristwork.site.templating import markup

FOLDER = Path(__file__).parents[1] / "assets"
_ROOM = re.compile(rb'(?<=")\.\./[a-z]+/(?=[\w-]+\.js")')
_WORDS, _WORDS_PLACE = "words.js", b"const WORDS = {};"
_COUNTED_PLACE = b'const QUARTERS = ["e", "&", "a"];'
_IMPORT = re.compile(rb'\bfrom\s*"\./([\w-]+\.js)"')


@dataclass(frozen=True, slots=True)
class Bundle:
    """Files that a page needs if its HTML holds the ``marker``."""

    marker: str
    styles: tuple[str, ...] = ()
    scripts: tuple[str, ...] = ()


# Styles that are published as one file, by its name, so that a page asks for few.
JOINED = {
    "site.css": ("tokens.css", "site.css", "offline.css"),
    "lesson.css": (
        "disclosure.css",
        "exercise.css",
        "diagram.css",
        "demand.css",
        "player.css",
        "share.css",
        "film.css",
    ),
    "safe.css": ("safe-practice.css", "sound-day.css", "warm-up.css", "checklist.css"),
    "curriculum.css": ("disclosure.css", "charts.css", "curriculum.css"),
    "place.css": (
        "tokens.css",
        "dark.css",
        "disclosure.css",
        "exercise.css",
        "diagram.css",
        "demand.css",
        "player.css",
        "share.css",
        "film.css",
        "offline.css",
        "place.css",
    ),
}

# A file that is not there is left out: see `links`.
BUNDLES = (
    Bundle("ww-exercise", styles=("lesson.css",), scripts=("player.js",)),
    Bundle("data-ww-id=", scripts=("share.js", "log.js")),
    Bundle('class="ww-disclosure ww-film"', scripts=("film.js",)),
    Bundle("ww-whole-film", styles=("lesson.css",), scripts=("film.js",)),
    Bundle("ww-week-head", styles=("practice.css",)),
    Bundle('class="ww-sessions"', scripts=("week-sessions.js",)),
    Bundle("data-ww-going-on", styles=("student.css",), scripts=("going-on.js",)),
    Bundle("ww-named-hand", scripts=("sides.js",)),
    Bundle("ww-curriculum", styles=("curriculum.css",)),
    Bundle("ww-chart", styles=("curriculum.css",)),
    Bundle("ww-problem", styles=("lesson.css",)),
    Bundle("data-ww-list>", styles=("lesson.css", "student.css"), scripts=("list-page.js",)),
    Bundle("data-ww-log>", styles=("lesson.css", "student.css"), scripts=("log-page.js",)),
    Bundle("data-ww-starts", styles=("student.css",), scripts=("this-week.js",)),
    Bundle("ww-needs-map", scripts=("map.js",)),
    Bundle("ww-index", scripts=("index.js",)),
    Bundle("data-ww-lost", scripts=("lost.js",)),
    Bundle("<table>", scripts=("tables.js",)),
    Bundle('data-md-component="search-query"', scripts=("search.js",)),
    Bundle("data-ww-sound-day", styles=("safe.css",), scripts=("sound-day.js",)),
    Bundle("data-ww-warm-up", styles=("safe.css",), scripts=("warm-up.js",)),
    Bundle("data-ww-checklist", styles=("safe.css",), scripts=("checklist.js",)),
    Bundle("ww-usual-advice", styles=("safe.css",)),
    Bundle("ww-drawings", styles=("safe.css",)),
    Bundle("ww-facts", styles=("safe.css",)),
)


def asset_files() -> dict[str, bytes]:
    """Every published asset in the language that is spoken: its path below the assets folder, its content."""
    return _asset_files(spoken())


@lru_cache(maxsize=2)
def _asset_files(language: Language) -> dict[str, bytes]:
    there = {_published_name(path): published(path) for path in FOLDER.rglob("*") if path.is_file()}
    there[_WORDS] = _with_words(there[_WORDS], language)
    there["dark.css"] = colours.dark_by_device().encode()
    joined = {name: b"\n".join(there[part] for part in parts if part in there) for name, parts in JOINED.items()}
    alone = there.keys() - {part for parts in JOINED.values() for part in parts}
    return {**{name: there[name] for name in sorted(alone)}, **joined}


def _with_words(script: bytes, language: Language) -> bytes:
    """The script that says things, with the words of a language in it, and how the quarters of a beat are counted."""
    words = json.dumps(language.scripts, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    counted = json.dumps(COUNTINGS[counting_name()].simple[4], ensure_ascii=False)
    for place, value in ((_WORDS_PLACE, words), (_COUNTED_PLACE, counted)):
        assert script.count(place) == 1, "the script has a place for it"
        script = script.replace(place, place.partition(b"=")[0] + f"= {value};".encode())
    return script


def source(name: str) -> Path:
    """Where the asset of that published name is kept."""
    (path,) = FOLDER.glob(f"*/{name}")
    return path


def _published_name(path: Path) -> str:
    """The path of an asset below the published folder, which knows no rooms."""
    return path.relative_to(FOLDER).as_posix().partition("/")[2]


def published(path: Path) -> bytes:
    """The content of an asset as browsers get it: lean, and with the rooms taken out of what it imports."""
    content = lean(path.name, path.read_bytes())
    return _ROOM.sub(b"./", content) if path.suffix == ".js" else content


def asset_root() -> str:
    """The folder of the assets in the site, without a slash at its end."""
    return _asset_root(spoken())


@lru_cache(maxsize=2)
def _asset_root(language: Language) -> str:
    sum_ = hashlib.sha256()
    for name, content in _asset_files(language).items():
        sum_.update(f"{name}:{len(content)}:".encode())
        sum_.update(content)
    return f"assets/wristwork/{sum_.hexdigest()[:10]}"


def links(html: str, base: str) -> Markup:
    """The ``<link>`` and ``<script>`` elements that this page needs; ``base`` leads to the site's root."""
    wanted = _wanted(html)
    return _linked(_there(dict.fromkeys(name for bundle in wanted for name in bundle.styles)), wanted, base)


def scripts(html: str, base: str) -> Markup:
    """The ``<script>`` elements alone, for a page that brings its own styles."""
    return _linked((), _wanted(html), base)


def _wanted(html: str) -> list[Bundle]:
    return [bundle for bundle in BUNDLES if bundle.marker in html]


def _linked(styles: Iterable[str], bundles: Iterable[Bundle], base: str) -> Markup:
    """What scripts import is asked for at once: else a phone learns of it one journey after another."""
    modules = _there(dict.fromkeys(name for bundle in bundles for name in bundle.scripts))
    early = [name for name in _imported(tuple(modules)) if name not in modules]

    def addresses(names: Iterable[str]) -> list[str]:
        return [f"{base}{asset_root()}/{name}" for name in names]

    return markup("frontend/links.html", styles=addresses(styles), early=addresses(early), modules=addresses(modules))


@lru_cache(maxsize=64)
def _imported(names: tuple[str, ...]) -> list[str]:
    """These modules and all that they import from the start, each once."""
    found = dict.fromkeys(names)
    waiting = list(names)
    while waiting:
        imports = _IMPORT.findall(asset_files()[waiting.pop(0)])
        fresh = [name for name in _there(found_name.decode() for found_name in imports) if name not in found]
        found.update(dict.fromkeys(fresh))
        waiting += fresh
    return list(found)


def _there(names: Iterable[str]) -> list[str]:
    return [name for name in names if name in asset_files()]
