"""Build beside the site and swap at the end, so that a build never hurts the last good site.

A stage lives next to the site folder: ``.site.new`` takes what is being built, ``.site.old`` holds
the last good site for the moment of the swap. Whatever a killed build left is put right by the
next one. Only one build at a time may write a site folder (see :mod:`wristwork.store.turn`).
"""

from __future__ import annotations

import filecmp
import os
import shutil
from collections.abc import Iterator
from pathlib import Path

from wristwork.files import refuse_link, sync_all, write_whole
from wristwork.languages.say import say

# MkDocs writes it into every site.
_OF_EVERY_SITE = "sitemap.xml"


class StageError(Exception):
    """Something else is where the site, or what is built beside it, belongs."""


class Stage:
    """The folder a build writes to until it has succeeded. All but :meth:`abandon` raise OSError."""

    def __init__(self, site: Path) -> None:
        # A link to a folder elsewhere stays a link: the folder it leads to is swapped.
        self.site = Path(os.path.realpath(site))
        if site.is_symlink() and not _may_be_replaced(self.site):
            raise StageError(
                say(
                    "{link} is a link to {folder}, which holds other things than a site: a build would delete them. "
                    "Take the link away, or lead it to an empty folder.",
                    link=site,
                    folder=self.site,
                )
            )
        self.folder = self.site.with_name(f".{self.site.name}.new")
        self._old = self.site.with_name(f".{self.site.name}.old")

    def open(self) -> None:
        """Put right what a killed build left, then start with an empty folder. Raises StageError and LinkRefused."""
        for folder in (self.folder, self._old):
            refuse_link(folder)
        for folder in (self.site, self.folder, self._old):
            if folder.exists() and not folder.is_dir():
                raise StageError(
                    say("{path} is a file where a folder belongs: move it away, then build again.", path=folder)
                )
        if self._old.exists() and not self.site.exists():
            self._old.rename(self.site)
        self._retire_old()
        self.abandon()
        self.folder.mkdir(parents=True)

    def abandon(self) -> None:
        """Drop what was built; the site stays as it is."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def swap(self) -> None:
        """Put what was built in place of the site.

        Files whose content is the same stay the files they were. Between the two renames the last
        good site is ``.site.old``; :meth:`open` brings it back should the build die right there.
        """
        if self.site.is_mount():
            _replace_content(self.site, self.folder)
            self.abandon()
            return
        sync_all(_kept_unchanged(self.site, self.folder))
        if self.site.exists():
            shutil.copymode(self.site, self.folder)
            self.site.rename(self._old)
        try:
            self.folder.rename(self.site)
        except OSError:
            self._old.rename(self.site)
            raise
        self._retire_old()

    def _retire_old(self) -> None:
        if not self._old.exists():
            return
        # MkDocs leaves hidden entries of a site folder alone (a work tree's .git, say): so do we.
        for entry in self._old.iterdir():
            if entry.name.startswith(".") and not os.path.lexists(self.site / entry.name):
                entry.rename(self.site / entry.name)
        shutil.rmtree(self._old, ignore_errors=True)  # what is left of it goes with the next build


def _may_be_replaced(folder: Path) -> bool:
    """Whether a folder is not there, empty or a site."""
    if not folder.is_dir() or (folder / _OF_EVERY_SITE).is_file():
        return not folder.is_file()
    return all(entry.name.startswith(".") for entry in folder.iterdir())


def _files(folder: Path) -> Iterator[str]:
    """Every file below a folder, by its path from there."""
    for inside, _, names in os.walk(folder):
        for name in names:
            yield os.path.relpath(os.path.join(inside, name), folder)


def _kept_unchanged(site: Path, built: Path) -> list[str]:
    """Make each built file that equals the site's the very same file (or at least as old); the others."""
    changed = []
    for name in _files(built):
        old, new = os.path.join(site, name), os.path.join(built, name)
        if not _is_own(site, name) or not _same_content(old, new):
            changed.append(new)
        elif not os.path.samefile(old, new):
            _become(new, old)
    return changed


def _is_own(site: Path, name: str) -> bool:
    """Whether a site has a file of its own there, and does not reach it through a link."""
    path = os.path.join(site, name)
    return os.path.isfile(path) and os.path.realpath(path) == path


def _same_content(old: str, new: str) -> bool:
    return os.path.samefile(old, new) or filecmp.cmp(old, new, shallow=False)


def _become(new: str, old: str) -> None:
    spare = f"{new}.link"
    try:
        os.link(old, spare)
    except OSError:  # a file system without hard links: the same bytes with the same time do as well
        shutil.copystat(old, new)
    else:
        os.replace(spare, new)


def _replace_content(site: Path, built: Path) -> None:
    """Make a folder that can't be swapped, for something is mounted on it, hold what was built, file by file."""
    names = sorted(_files(built))
    for name in names:
        if not _is_own(site, name) or not _same_content(os.path.join(site, name), os.path.join(built, name)):
            _make_way(site, Path(name))
            write_whole(site / name, (built / name).read_bytes())
    for name in set(_files(site)) - set(names):
        if not name.startswith("."):
            (site / name).unlink()
    for folder, _, _ in os.walk(site, topdown=False):
        inside = os.path.relpath(folder, site)
        if not inside.startswith(".") and not os.listdir(folder):
            os.rmdir(folder)


def _make_way(site: Path, name: Path) -> None:
    """Take away what is no folder where a folder is to be, and no file where a file is to be."""
    for folder in [*reversed(name.parents)][1:]:
        if (site / folder).is_symlink() or (site / folder).is_file():
            (site / folder).unlink()
    if (site / name).is_dir() and not (site / name).is_symlink():
        shutil.rmtree(site / name)
