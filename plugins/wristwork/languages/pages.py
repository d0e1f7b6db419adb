"""Whole pages in the spoken language: ``key.md`` in English, ``key.de.md`` beside it in German."""

from __future__ import annotations

from importlib.resources.abc import Traversable

from wristwork.languages.say import spoken


def spoken_page(folder: Traversable, name: str) -> str:
    """The text of a page of ours in the spoken language, in English where it has none."""
    return (_own(folder, name) or folder.joinpath(name)).read_text(encoding="utf-8")


def has_spoken_page(folder: Traversable, name: str) -> bool:
    """Is there such a page in the spoken language?"""
    return spoken().is_source or _own(folder, name) is not None


def _own(folder: Traversable, name: str) -> Traversable | None:
    stem = name.removesuffix(".md")
    pages = (folder.joinpath(f"{stem}.{code}.md") for code in spoken().from_near_to_far)
    return next((page for page in pages if page.is_file()), None)
