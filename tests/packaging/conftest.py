from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.packaging.clean_python import CleanPython
from tests.site.conftest import _shared  # noqa: F401 (its courses are built too)

ROOT = Path(__file__).parents[2]

# What is left behind where the code has run, where a seed was built and where its build was killed.
LEFT_BEHIND = (
    "plugins/wristwork/cli/__pycache__/main.cpython-311.pyc",
    "plugins/wristwork/site/__pycache__/addresses.cpython-311.pyc",
    "seeds/starter/site/index.html",
    "seeds/starter/.site.new/index.html",
    "seeds/starter/.wristwork/kept/sound.json",
    "seeds/rudiments/.cache/plugin/a",
)


@pytest.fixture(scope="session")
def built_wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of these sources, built where much was left behind."""
    sources = tmp_path_factory.mktemp("sources")
    for name in ("pyproject.toml", "README.md", "LICENSE", "LICENSES.md"):
        shutil.copy(ROOT / name, sources)
    for folder in ("plugins", "seeds"):
        left_out = shutil.ignore_patterns("__pycache__", ".wristwork", ".site.*")
        shutil.copytree(ROOT / folder, sources / folder, ignore=left_out)
    for name in LEFT_BEHIND:
        (sources / name).parent.mkdir(parents=True, exist_ok=True)
        (sources / name).write_text("left behind", encoding="utf-8")
    target = tmp_path_factory.mktemp("wheel")
    command = ["wheel", str(sources), "--no-deps", "--no-index", "--no-build-isolation", "-q", "-w", str(target)]
    subprocess.run([sys.executable, "-m", "pip", *command], check=True)
    (wheel,) = target.iterdir()
    return wheel


@pytest.fixture(scope="session")
def installed(built_wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> CleanPython:
    """A clean Python into which that wheel was installed."""
    python = CleanPython(tmp_path_factory.mktemp("python"))
    done = python.run(f"pip install -q '{built_wheel}'", cwd=built_wheel.parent)
    assert done.returncode == 0, done.stderr
    return python
