"""A Python of its own with every library that Wristwork needs and without Wristwork, made without a network."""

from __future__ import annotations

import os
import subprocess
import sysconfig
import venv
from pathlib import Path


class CleanPython:
    """A virtual environment whose libraries are those of the environment that the tests run in."""

    def __init__(self, folder: Path) -> None:
        venv.create(folder, symlinks=True)
        self.programs = folder / "bin"
        libraries = folder / "libraries"
        libraries.mkdir()
        for entry in Path(sysconfig.get_path("purelib")).iterdir():
            if "wristwork" not in entry.name:
                (libraries / entry.name).symlink_to(entry)
        (found,) = folder.glob("lib/python*/site-packages")
        (found / "libraries.pth").write_text(f"{libraries}\n")
        for name in ("pip", "mkdocs"):
            program = self.programs / name
            program.write_text(f'#!/bin/sh\nexec "{self.programs / "python"}" -m {name} "$@"\n')
            program.chmod(0o755)

    def run(self, command: str, cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
        """Run a line of shell as the steps of a workflow are run: it ends at the first command that fails."""
        kept = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "VIRTUAL_ENV")}
        own = {
            "PATH": f"{self.programs}{os.pathsep}{os.environ['PATH']}",
            "PIP_NO_INDEX": "1",
            "PIP_DISABLE_PIP_VERSION_CHECK": "1",
            "NO_MKDOCS_2_WARNING": "1",
        }
        return subprocess.run(
            ["bash", "-e", "-c", command],
            cwd=cwd,
            env={**kept, **own, **environment},
            capture_output=True,
            text=True,
            check=False,
            timeout=300,
        )
