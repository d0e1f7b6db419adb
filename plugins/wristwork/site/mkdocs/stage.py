"""Build beside the site and swap at the end, so that a build never hurts the last good site.

A stage lives next to the site folder: ``.site.new`` takes what is being built, ``.site.old`` holds
the last good site for the moment of the swap. Whatever a killed build left is put right by the
next one. Only one build at a time may write a site folder.
"""

from __future__ import annotations

import filecmp
import os
import shutil
from pathlib import Path


class Stage:
    """The folder a build writes to until it has succeeded."""

    def __init__(self, site: Path) -> None:
        # A link to a folder elsewhere stays a link: the folder it leads to is swapped.
        self.site = Path(os.path.realpath(site))
        self.folder = self.site.with_name(f".{self.site.name}.new")
        self._old = self.site.with_name(f".{self.site.name}.old")

    @property
    def possible(self) -> bool:
        """False where the site folder cannot be swapped because something is mounted on it."""
        return not self.site.is_mount()

    def open(self) -> None:
        """Put right what a killed build left, then start with an empty folder."""
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
        if self.site.exists():
            _keep_unchanged(self.site, self.folder)
            shutil.copymode(self.site, self.folder)
            self.site.rename(self._old)
        self.folder.rename(self.site)
        self._retire_old()

    def _retire_old(self) -> None:
        if not self._old.exists():
            return
        # MkDocs leaves hidden entries of a site folder alone (a work tree's .git, say): so do we.
        for entry in self._old.iterdir():
            if entry.name.startswith(".") and not (self.site / entry.name).exists():
                entry.rename(self.site / entry.name)
        shutil.rmtree(self._old)


def _keep_unchanged(site: Path, built: Path) -> None:
    """Make each built file that equals the site's the very same file (or at least as old)."""
    for folder, _, names in os.walk(built):
        for name in names:
            new = os.path.join(folder, name)
            old = f"{site}{new[len(str(built)) :]}"
            if _same_content(old, new):
                _become(new, old)


def _same_content(old: str, new: str) -> bool:
    """Whether a built file holds what the site's does and is not that very file already."""
    try:
        before, after = os.stat(old), os.stat(new)
    except OSError:
        return False
    if before.st_size != after.st_size or os.path.samestat(before, after):
        return False
    return filecmp.cmp(old, new, shallow=False)


def _become(new: str, old: str) -> None:
    spare = f"{new}.link"
    try:
        os.link(old, spare)
    except OSError:  # a file system without hard links: the same bytes with the same time do as well
        shutil.copystat(old, new)
    else:
        os.replace(spare, new)
