"""The theme of the courses is the same in every test: its templates are compiled, and its files listed, once."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from types import CodeType

import jinja2
import pytest
from jinja2.bccache import Bucket

# Whether a template is still the one that was compiled is asked each time; what is installed gets no new files.
INSTALLED = sys.prefix


class Compiled(jinja2.BytecodeCache):
    """Code of templates, by their names and digests of their text."""

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.code:
            self._codes[bucket.key, bucket.checksum] = bucket.code


COMPILED = Compiled()


class Loader(jinja2.FileSystemLoader):
    def list_templates(self) -> list[str]:
        return sorted({name for folder in self.searchpath for name in _names(folder)})


def _names(folder: str) -> tuple[str, ...]:
    return _installed_names(folder) if folder.startswith(INSTALLED) else _listed(folder)


def _listed(folder: str) -> tuple[str, ...]:
    return tuple(jinja2.FileSystemLoader(folder).list_templates())


_installed_names = cache(_listed)


@contextmanager
def theme_read_once() -> Iterator[None]:
    """Environments for templates that are made meanwhile know what earlier ones have read."""
    made = jinja2.Environment.__init__

    def make(environment: jinja2.Environment, *arguments: object, **settings: object) -> None:
        loader = settings.get("loader")
        if type(loader) is jinja2.FileSystemLoader:
            settings["loader"] = Loader(loader.searchpath, loader.encoding, loader.followlinks)
        made(environment, *arguments, **{"bytecode_cache": COMPILED, **settings})

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(jinja2.Environment, "__init__", make)
        yield
