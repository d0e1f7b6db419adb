"""Runs the quick tests on every Python from 3.11 that this machine has, and says which it does not have.

``make pythons``, or ``python -m tests.pythons FOLDER``: each Python gets an environment of its own below the folder.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parents[1]
VERSIONS = ("3.11", "3.12", "3.13", "3.14")
# What needs no browser and builds no course; the one build below stands for those.
QUICK = ("pattern", "technique", "drawing", "sound", "course", "store", "cli")


def runs(version: str) -> bool:
    """Whether there is such a Python; a stand-in that only says how to get one is none."""
    try:
        asked = [f"python{version}", "-c", "import ensurepip, sys; print('%d.%d' % sys.version_info[:2])"]
        return subprocess.run(asked, capture_output=True, text=True, check=False).stdout.strip() == version
    except FileNotFoundError:
        return False


def goes_well_on(version: str, folder: Path) -> bool:
    """Install, test, and build a new course."""
    print(f"== Python {version}", flush=True)
    environment = folder / version
    python = str(environment / "bin" / "python")
    rooms = [f"tests/{room}" for room in QUICK]
    with TemporaryDirectory() as course:
        return all(
            subprocess.run(command, cwd=place, check=False).returncode == 0
            for place, command in (
                (ROOT, [f"python{version}", "-m", "venv", str(environment)]),
                (ROOT, [python, "-m", "pip", "install", "-q", "-c", "constraints.txt", "-e", ".[test]"]),
                (ROOT, [python, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-m", "not browser", *rooms]),
                (ROOT, [python, "-m", "wristwork.cli.main", "new", course]),
                (course, [python, "-m", "mkdocs", "build", "-q", "--strict"]),
            )
        )


def main(folder: Path) -> int:
    folder = folder.resolve()
    there = [version for version in VERSIONS if runs(version)]
    failed = [version for version in there if not goes_well_on(version, folder)]
    for version in VERSIONS:
        said = "failed" if version in failed else "well" if version in there else "not on this machine"
        print(f"Python {version}: {said}")
    return 1 if failed or not there else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
