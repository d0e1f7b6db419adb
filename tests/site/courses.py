"""Small courses on disk, built for real."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import yaml
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.site.kept_store import KeptStore
from tests.site.theme import theme_read_once

SETTINGS = {
    "site_name": "Larkspur Drum Loft",
    "site_description": "A course for a loft full of pads",
    "site_url": "https://larkspur.example/loft/",
    "theme": {"name": "material"},
    # What the checks find is tested where they are.
    "plugins": ["search", {"wristwork": {"checks": "off"}}],
}

WEEK_1 = """\
---
week: 1
title: First steps
grade: 1
minutes: 20
aim: Play two heights on purpose.
---

# First steps

Let the stick fall.

## Slow singles

```pattern
id: slow-singles
title: Slow singles
tempo: 60 to 72 by 4
hands: RLRL RLRL RLRL RLRL
note: Even, whatever happens.
```
"""

WEEK_2 = """\
---
week: 2
title: The paradiddle
grade: 2
minutes: 25
aim: Turn the hands round.
---

A sticking that turns itself round.

```pattern
id: accented-paradiddle
title: Accented paradiddle
tempo: 60 to 100 by 4
hands: R>LRR L>RLL R>LRR L>RLL
requires: slow-singles
```

```pattern
id: the-other-way
title: The other way
from: accented-paradiddle
change: other hand leads
```
"""

WRONG = """\
---
week: 3
title: Wrong
---

# Wrong

```pattern
id: wrong-one
title: Wrong one
hands: R>LRR >RLL
```
"""


class Course:
    """A course in a folder of its own, two good weeks to start with."""

    kept: KeptStore | None = None
    """What was made before; a course without it makes everything itself."""
    takes_all = True
    """Whether it takes everything that other courses have made, or only sound."""

    def __init__(self, root: Path, **settings: object) -> None:
        self.root = root
        self.site = root / "site"
        self.settings = {**SETTINGS, **settings}
        self.write("docs/weeks/week-01.md", WEEK_1)
        self.write("docs/weeks/week-02.md", WEEK_2)

    def write(self, path: str, text: str) -> Path:
        file = self.root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        return file

    def save_settings(self) -> None:
        self._save_settings()
        if self.kept:
            self.kept.lend(self.root)

    def _save_settings(self) -> None:
        self.write("mkdocs.yml", yaml.safe_dump(self.settings, sort_keys=False))

    def build(self, **settings: object) -> None:
        """Build in this process; a failure is an exception."""
        self._save_settings()
        with self._at_hand():
            config = load_config(str(self.root / "mkdocs.yml"), **settings)
            config.plugins.on_startup(command="build", dirty=False)
            try:
                build(config)
            finally:
                config.plugins.on_shutdown()

    def preview(self) -> None:
        """What a preview makes, without its server."""
        self._save_settings()
        with self._at_hand():
            config = load_config(str(self.root / "mkdocs.yml"))
            config.plugins.on_startup(command="serve", dirty=False)
            build(config, serve_url="http://127.0.0.1:8000/")

    @contextmanager
    def _at_hand(self) -> Iterator[None]:
        """What builds in this process share."""
        with theme_read_once(), self.kept.within_reach() if self.kept and self.takes_all else self._lent_sound():
            yield

    @contextmanager
    def _lent_sound(self) -> Iterator[None]:
        if self.kept:
            self.kept.lend(self.root)
        yield
        if self.kept:
            self.kept.collect(self.root)

    def run(self, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
        """Run MkDocs as a tutor does."""
        done = subprocess.run(
            self.command(*arguments),
            cwd=self.root,
            env=self.environment(**environment),
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )
        if self.kept:
            self.kept.collect(self.root)
        return done

    def command(self, *arguments: str) -> list[str]:
        self.save_settings()
        return [sys.executable, "-m", "mkdocs", *(arguments or ("build",))]

    @staticmethod
    def environment(**more: str) -> dict[str, str]:
        # A tutor's own machine, wherever these tests run.
        return {**os.environ, "NO_MKDOCS_2_WARNING": "1", "CI": "", **more}

    def page(self, address: str) -> str:
        """The HTML at an address of the site."""
        return (self.site / address / "index.html").read_text(encoding="utf-8")


def contents(folder: Path) -> dict[str, str]:
    """Every file below a folder with a digest of its content."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
