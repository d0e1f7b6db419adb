"""Styles and scripts: where they are published, and which page needs which.

All files of ``assets/`` are published in one folder named by a digest of their content: a browser
may keep them for ever, and modules find each other by relative addresses.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from pathlib import Path

FOLDER = Path(__file__).parent / "assets"


@dataclass(frozen=True, slots=True)
class Bundle:
    """Files that a page needs if its HTML holds the ``marker``."""

    marker: str
    styles: tuple[str, ...] = ()
    scripts: tuple[str, ...] = ()


# A file that is not there (yet) is left out: see `links`.
BUNDLES = (
    Bundle("ww-exercise", styles=("diagram.css", "exercise.css", "player.css"), scripts=("player.js",)),
    Bundle("ww-diagram", styles=("diagram.css",)),
    Bundle("ww-index", scripts=("index.js",)),
    Bundle("data-ww-sound-day", styles=("sound-day.css",), scripts=("sound-day.js",)),
    Bundle("data-ww-warm-up", styles=("warm-up.css",), scripts=("warm-up.js",)),
    Bundle("data-ww-checklist", styles=("checklist.css",), scripts=("checklist.js",)),
)


@lru_cache(maxsize=1)
def asset_files() -> dict[str, bytes]:
    """Every published asset: its path below the assets folder, its content."""
    return {
        path.relative_to(FOLDER).as_posix(): path.read_bytes()
        for path in sorted(FOLDER.rglob("*"))
        if path.is_file()
    }


@lru_cache(maxsize=1)
def asset_root() -> str:
    """The folder of the assets in the site, without a slash at its end."""
    sum_ = hashlib.sha256()
    for name, content in asset_files().items():
        sum_.update(f"{name}:{len(content)}:".encode())
        sum_.update(content)
    return f"assets/wristwork/{sum_.hexdigest()[:10]}"


def links(html: str, base: str) -> str:
    """The ``<link>`` and ``<script>`` elements that this page needs; ``base`` leads to the site's root."""
    there = asset_files()
    wanted = [bundle for bundle in BUNDLES if bundle.marker in html]
    styles = dict.fromkeys(name for bundle in wanted for name in bundle.styles if name in there)
    scripts = dict.fromkeys(name for bundle in wanted for name in bundle.scripts if name in there)
    root = escape(f"{base}{asset_root()}")
    return "".join(
        [f'<link rel="stylesheet" href="{root}/{name}">' for name in styles]
        + [f'<script type="module" src="{root}/{name}"></script>' for name in scripts]
    )
