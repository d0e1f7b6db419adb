"""Changes the code in many small ways, one at a time, and counts how many of the changes some test notices.

``make mutants``, or ``python -m tests.mutants FOLDER [ROOM …]``. The folder is made anew for each room. A change that
no test notices is shown: it is either a missing test or a change that means nothing.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]

# What is changed, and the tests that are to notice.
ROOMS = {
    "strokes": (
        ("technique/strokes.py", "technique/chain.py"),
        ("tests/technique/test_strokes.py", "tests/technique/test_stroke_list.py", "tests/technique/test_chain.py"),
    ),
    "beams": (("drawing/beams.py",), ("tests/drawing/test_beams.py", "tests/drawing/test_goldens.py")),
    "schedule": (("sound/schedule.py",), ("tests/sound/test_schedule.py",)),
    "checks": (("course/checks/*.py",), ("tests/course/test_checks.py", "tests/course/test_check_words.py")),
    "store": (("store/store.py", "store/turn.py"), ("tests/store",)),
    "keys": (("store/making.py", "site/figure/drawn.py"), ("tests/store/test_making.py", "tests/site/test_drawn.py")),
}
# The fork server has run no test, so what the code keeps from call to call was not worked out before the change.
SETTINGS = """\
[tool.mutmut]
source_paths = ["wristwork"]
only_mutate = {changed}
process_isolation = "forkserver"
pytest_add_cli_args_test_selection = {tests}
pytest_add_cli_args = ["-p", "no:cacheprovider", "-p", "no:xdist"]
also_copy = ["docs", "seeds", "mkdocs.yml"]
use_git_change_detection = false

[tool.pytest.ini_options]
markers = ["browser: drives a browser", "xdist_group: one worker"]
"""
NOTICED = ("killed", "timeout", "suspicious", "segfault")


def prepare(folder: Path, room: str) -> None:
    """The package at the root of a folder, as the changing tool wants to have it."""
    shutil.rmtree(folder, ignore_errors=True)
    left_out = shutil.ignore_patterns("__pycache__", ".wristwork")
    shutil.copytree(ROOT / "plugins" / "wristwork", folder / "wristwork", ignore=left_out)
    for name in ("tests", "docs", "seeds"):
        shutil.copytree(ROOT / name, folder / name, ignore=left_out)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    changed, tests = ROOMS[room]
    settings = SETTINGS.format(changed=json.dumps([f"wristwork/{name}" for name in changed]), tests=json.dumps(tests))
    (folder / "pyproject.toml").write_text(settings, encoding="utf-8")


def run(folder: Path, *arguments: str) -> str:
    command = [sys.executable, "-m", "mutmut", *arguments]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    return done.stdout if done.returncode == 0 else done.stdout + done.stderr


def score(folder: Path, room: str) -> tuple[int, int]:
    """Changes noticed, and all changes; those that no test noticed are printed."""
    prepare(folder, room)
    told = run(folder, "run", "--max-children", str(os.cpu_count()))
    lines = run(folder, "results", "--all", "true").splitlines()
    results = dict(line.strip().split(": ", 1) for line in lines if ": " in line)
    if not results:
        raise SystemExit(told)
    for name, result in results.items():
        if result not in NOTICED:
            print(f"-- {name}: {result}\n{run(folder, 'show', name)}")
    noticed = sum(result in NOTICED for result in results.values())
    print(f"{room}: {noticed} of {len(results)} changes noticed ({noticed / len(results):.1%})", flush=True)
    return noticed, len(results)


def main(folder: Path, rooms: list[str]) -> None:
    scores = [score(folder / room, room) for room in rooms or ROOMS]
    noticed, changes = (sum(column) for column in zip(*scores, strict=True))
    print(f"all: {noticed} of {changes} changes noticed ({noticed / changes:.1%})")


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
