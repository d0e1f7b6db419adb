"""The look of a course out of its settings, and what is wrong with it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from urllib.parse import urlsplit

from mkdocs.config.defaults import MkDocsConfig

from wristwork.files import read_plain
from wristwork.languages.catalogues import SOURCE
from wristwork.languages.numbers import decimal
from wristwork.languages.say import marked, say
from wristwork.look.finished import finished_look
from wristwork.look.letters import Letters, NoLetters, read_letters
from wristwork.look.palette import WHITE, Palette, dyed
from wristwork.look.shades import contrast
from wristwork.page.problem import SETTINGS, Problem
from wristwork.site.frontend import colours
from wristwork.site.frontend.look import FOLDER, Look, Picture, picture
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.sources import course_folder
from wristwork.site.mkdocs.studio import Studio, read_studio

# A file of more bytes makes every page slow.
LARGEST_LOGO = 1_000_000
LARGEST_FONT = 1_000_000
# Kinds of pictures that cards and papers can hold.
DRAWN = (".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp")
_BEGINNINGS = {
    ".png": b"\x89PNG\r\n",
    ".jpg": b"\xff\xd8\xff",
    ".jpeg": b"\xff\xd8\xff",
    ".gif": b"GIF8",
    ".webp": b"RIFF",
}

_UNDER_LETTERS = marked(
    "colours: {asked} under white letters has a contrast of {contrast} to 1, and 4.5 is the least that everybody can "
    "read; {taken} is taken, the nearest shade that has it"
)
_FOR_LETTERS = marked(
    "colours: {asked} for letters on paper has a contrast of {contrast} to 1, and 4.5 is the least that everybody can "
    "read; {taken} is taken, the nearest shade that has it"
)


@dataclass(frozen=True, slots=True)
class Seen:
    """A course's look, what is wrong with it, and what a build says of it."""

    look: Look
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()


def read_look(config: MkDocsConfig, own: WristworkConfig) -> Seen:
    """The look that the settings ask for; what they leave open, the studio's file says.

    Files that the theme's settings name are looked for among the pages, as MkDocs does.
    """
    studio = read_studio(config, own.studio, line_of(config, "studio:"))
    shared = studio.says
    asked = own if own.look or own.colours else shared
    palette, notes = _palette(asked.look, asked.colours)
    named = str(config.theme.get("logo") or "")
    icon = config.theme.get("favicon") or None
    if named and not named.startswith(FOLDER):
        drawn, problems = _drawn(config, named)
        logo: str | None = named
    else:
        drawn, problems = _shared_logo(studio) if shared.logo else (None, ())
        logo = drawn.address if drawn else None
    font = (course_folder(config), own.font, "") if own.font else (studio.folder, shared.font, studio.shown)
    letters, more = _letters(config, font[0], font[1], font[2]) if font[1] else (None, ())
    look = Look(
        palette=palette,
        logo=logo,
        drawn=drawn,
        icon=None if icon is None or icon == "assets/images/favicon.png" or str(icon).startswith(FOLDER) else str(icon),
        styles=tuple(_own_styles(config)),
        letters=letters,
    )
    return Seen(look, (*studio.problems, *problems, *more, *unknown_language(config)), notes)


def _shared_logo(studio: Studio) -> tuple[Picture | None, tuple[Problem, ...]]:
    """The studio's logo, which each of its courses publishes."""
    file = studio.folder / str(studio.says.logo)
    name, remedy = studio.says.logo, say("put a picture there, or correct logo:")
    if file.suffix.lower() not in DRAWN:
        found = say("the logo {name} is none of {endings}", name=name, endings=", ".join(DRAWN))
        return None, (Problem(studio.shown, 0, 0, found, remedy, SETTINGS),)
    try:
        content = read_plain(file, LARGEST_LOGO)
    except OSError as error:
        found = say("the logo {name} can't be read: {reason}", name=name, reason=error.strerror or error)
        return None, (Problem(studio.shown, 0, 0, found, remedy, SETTINGS),)
    address = f"{FOLDER}/{hashlib.sha256(content).hexdigest()[:10]}/logo{file.suffix.lower()}"
    return picture(address, content), ()


def _palette(look: str | None, asked: tuple[str, ...]) -> tuple[Palette | None, tuple[str, ...]]:
    pattern = finished_look(look) if look else None
    if not asked:
        return pattern, ()
    main, second = asked[0], asked[-1]
    palette = dyed(pattern or colours.house(), main, second)
    taken = [(main, palette.light["deep"], WHITE, _UNDER_LETTERS)]
    if len(asked) > 1:
        taken.append((second, palette.light["accent"], palette.light["paper"], _FOR_LETTERS))
    return palette, tuple(_note(*each) for each in taken if each[0] != each[1])


def _note(asked: str, taken: str, other: str, told: str) -> str:
    return say(told, asked=asked, contrast=decimal(contrast(asked, other), 1), taken=taken)


def _own_styles(config: MkDocsConfig) -> Iterator[str]:
    """The tutor's own style sheets that lie on the site."""
    for style in map(str, config.extra_css):
        if _is_ours(style) and not style.startswith(FOLDER):
            yield style


def _is_ours(address: str) -> bool:
    parts = urlsplit(address)
    return not parts.scheme and not parts.netloc


def _drawn(config: MkDocsConfig, logo: str) -> tuple[Picture | None, tuple[Problem, ...]]:
    """The logo as a picture, for what shows it without a browser."""
    if not _is_ours(logo):
        return None, ()
    places = (Path(folder, logo) for folder in (config.docs_dir, *config.theme.dirs))
    file = next((place for place in places if place.exists()), None)
    if file is None:
        found = say("the logo {name} is not among the pages", name=logo)
        remedy = say("put the picture there, or correct logo: under theme:")
        return None, (_problem(config, "logo:", found, remedy),)
    try:
        content = read_plain(file, LARGEST_LOGO)
    except OSError as error:
        found = say("the logo {name} can't be read: {reason}", name=logo, reason=error.strerror or error)
        remedy = say("put a picture there, small enough for a phone")
        return None, (_problem(config, "logo:", found, remedy),)
    kind = file.suffix.lower()
    if kind in DRAWN and not _is_picture(kind, content):
        found = say("the logo {name} holds no such picture", name=logo)
        remedy = say("save the picture again, as SVG or PNG")
        return None, (_problem(config, "logo:", found, remedy),)
    return (picture(logo, content) if kind in DRAWN else None), ()


def _is_picture(kind: str, content: bytes) -> bool:
    """Does a file begin as its kind of picture does? What can't be drawn would stop a build in its middle."""
    if kind == ".svg":
        return b"<svg" in content
    return content.startswith(_BEGINNINGS[kind])


def unknown_language(config: MkDocsConfig) -> tuple[Problem, ...]:
    """A language that the theme does not have would end a build in its middle."""
    if theme_language(config):
        return ()
    found = say("'{code}' is no language of the theme", code=config.theme["language"])
    return (_problem(config, "language:", found, say("write its code, as in language: de")),)


def theme_language(config: MkDocsConfig) -> str | None:
    """By which code the theme has the course's language: ``de`` for ``de-AT``; None where it has it by none."""
    code = str(config.theme.get("language") or SOURCE)
    folders = [Path(folder, "partials", "languages") for folder in config.theme.dirs]
    known = {path.stem for folder in folders if folder.is_dir() for path in folder.glob("*.html")}
    return next((each for each in (code, code.partition("-")[0]) if each in known or not known), None)


def _letters(config: MkDocsConfig, folder: Path, font: str, studio: str) -> tuple[Letters | None, tuple[Problem, ...]]:
    """The tutor's letters, or the studio's where a problem is told of its file."""
    try:
        return _opened(read_plain(folder / font, LARGEST_FONT)), ()
    except FileNotFoundError:
        found, remedy = say("the font {name} is not there", name=font), say("put the file there, or correct font:")
    except OSError as error:
        found = say("the font {name} can't be read: {reason}", name=font, reason=error.strerror or error)
        remedy = say("put a WOFF2 file there")
    except NoLetters as error:
        found = say("the font {name} can't be used: {reason}", name=font, reason=error)
        remedy = say("put a WOFF2 file there, as its maker offers it")
    if studio:
        return None, (Problem(studio, 0, 0, found, remedy, SETTINGS),)
    return None, (_problem(config, "font:", found, remedy),)


@lru_cache(maxsize=2)
def _opened(content: bytes) -> Letters:
    return read_letters(content)


def _problem(config: MkDocsConfig, key: str, found: str, remedy: str) -> Problem:
    return Problem(Path(config.config_file_path).name, line_of(config, key), 0, found, remedy, SETTINGS)


def line_of(config: MkDocsConfig, key: str) -> int:
    """The line of a course's settings that begins with a key; 1 where none does, or where there are no settings."""
    file = Path(config.config_file_path or "")
    if not file.is_file():  # a bare folder of pages
        return 1
    lines = file.read_text(encoding="utf-8", errors="replace").splitlines()
    return next((number for number, text in enumerate(lines, start=1) if text.strip().startswith(key)), 1)
