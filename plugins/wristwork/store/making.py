"""Names for what is made: a digest of what went in, and of who made it.

Other input, other code or another version of a library makes another name, so nothing kept is ever stale.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import wristwork
from wristwork.languages.say import spoken

_CODE = (".py", ".typ", ".html", ".ttf", ".po")


@dataclass(frozen=True, slots=True)
class Maker:
    """Who makes something: code (files, or folders with all that is in them, below the package), and libraries."""

    code: tuple[str, ...]
    libraries: tuple[str, ...]
    speaks: bool = True
    """Does what is made hold words? Then their language is among what goes in."""


# Whatever is drawn or written may depend on any of the code.
PAGE_MAKER = Maker(("",), ("jinja2", "markupsafe", "mido", "typst"))
# Sound takes long to make. Beside its own code it depends on the strokes, which are among what goes in.
SOUND_MAKER = Maker(
    ("sound", "pattern/drums.py", "pattern/model.py", "pattern/pace.py"),
    ("lameenc", "numpy", "scipy", "soundfile"),
    speaks=False,
)
# What is wrong with sounds is kept with them, in words.
SOUND_WORDS_MAKER = replace(SOUND_MAKER, speaks=True)

# Listening to a video takes long too, and depends on little more than the video.
TAKE_MAKER = Maker(
    ("sound/take", "sound/schedule.py", "sound/swing.py", "pattern/pace.py", "site/audio/film_sound.py"),
    ("av", "numpy"),
    speaks=False,
)


def digest(*parts: str, by: Maker = PAGE_MAKER) -> str:
    """A name for what is made from these parts: 40 hexadecimal digits."""
    sum_ = hashlib.sha256(_fingerprint(by).encode())
    if by.speaks:
        sum_.update(f"{spoken().code} {spoken().sum} {spoken().counting}".encode())
    for part in parts:
        sum_.update(f"{len(part)}:{part}".encode("utf-8", "surrogatepass"))
    return sum_.hexdigest()[:40]


@cache
def _fingerprint(maker: Maker) -> str:
    home = Path(wristwork.__file__).parent
    sum_ = hashlib.sha256("\n".join(f"{name} {_version(name)}" for name in maker.libraries).encode())
    for source in sorted(source for name in maker.code for source in _sources(home / name)):
        sum_.update(source.relative_to(home).as_posix().encode() + b"\0" + source.read_bytes() + b"\0")
    return sum_.hexdigest()


def _sources(place: Path) -> list[Path]:
    if place.is_file():
        return [place]
    return [path for path in place.rglob("*") if path.suffix in _CODE]


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "none"
