"""Commands run as a tutor runs them: in a process of their own."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

PLUGINS = Path(__file__).parents[2] / "plugins"


@dataclass(frozen=True)
class Done:
    code: int
    out: str
    err: str


def run(*arguments, cwd=None, encoding="utf-8", **environment):
    """Run the command; its output as text."""
    own = {"PYTHONPATH": str(PLUGINS), "PYTHONIOENCODING": encoding, "COLUMNS": "100"}
    done = subprocess.run(
        [sys.executable, "-m", "wristwork.cli.main", *map(str, arguments)],
        cwd=cwd,
        env={**os.environ, **own, **environment},
        capture_output=True,
        check=False,
        timeout=60,
    )
    return Done(done.returncode, done.stdout.decode(encoding), done.stderr.decode(encoding))


@pytest.fixture(scope="session")
def new_course(tmp_path_factory):
    """A new course, as ``wristwork new`` makes it; look, but do not change it."""
    folder = tmp_path_factory.mktemp("new") / "my-course"
    assert run("new", folder).code == 0
    return folder


@pytest.fixture
def course(new_course, tmp_path):
    """One of its own for each test."""
    return Path(shutil.copytree(new_course, tmp_path / "my-course"))
