"""The wheel holds what it should and nothing else; ``new`` gives a course the same one."""

from __future__ import annotations

import tomllib
import zipfile
from importlib.metadata import distribution
from pathlib import Path

from tests.packaging.conftest import LEFT_BEHIND, ROOT
from wristwork.cli.wheel import wheel, wheel_name


def members(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def of_the_package(path: Path) -> dict[str, bytes]:
    return {name: content for name, content in members(path).items() if name.startswith("wristwork/")}


def sources() -> dict[str, bytes]:
    """What the repository holds of the package and the seeds, under the names that the wheel has for it."""
    places = {ROOT / "plugins" / "wristwork": "wristwork", ROOT / "seeds": "wristwork/_seeds"}
    made = {"site", ".site.new", ".site.old", ".wristwork", ".cache"}
    return {
        f"{inside}/{file.relative_to(folder).as_posix()}": file.read_bytes()
        for folder, inside in places.items()
        for file in folder.rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
        if folder.name != "seeds" or not made & set(file.relative_to(folder).parts)
    }


def test_the_wheel_holds_the_package_and_the_seeds_and_nothing_that_was_left_behind(built_wheel):
    assert of_the_package(built_wheel) == sources()
    assert not any(Path(name).name in member for name in LEFT_BEHIND[:2] for member in members(built_wheel))


def test_licences_travel_with_it(built_wheel):
    names = {Path(name).name for name in members(built_wheel) if "/licenses/" in name}
    assert names == {"LICENSE", "LICENSES.md"}


def test_the_wheel_made_of_what_is_installed_holds_the_same(built_wheel, tmp_path):
    own = tmp_path / wheel_name(distribution("wristwork"))
    own.write_bytes(wheel(distribution("wristwork")))
    assert own.name == built_wheel.name
    assert of_the_package(own) == of_the_package(built_wheel)
    assert members(own).keys() == members(built_wheel).keys()
    assert wheel(distribution("wristwork")) == own.read_bytes()


def test_what_was_installed_runs_without_these_sources(installed, tmp_path):
    done = installed.run("wristwork new my-course && cd my-course && wristwork check", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.endswith("All is well (2 weeks, 6 exercises).\n")
    asked = 'python -c "import wristwork; print(wristwork.__file__)"'
    assert installed.run(asked, cwd=tmp_path).stdout.startswith(str(installed.programs.parent))


def test_the_wheel_that_a_course_carries_is_intact(installed, tmp_path):
    assert installed.run("wristwork new my-course", cwd=tmp_path).returncode == 0
    (carried,) = (tmp_path / "my-course" / "tools").iterdir()
    assert of_the_package(carried) == sources()
    # An installer compares every file with its digest in RECORD.
    command = f"pip install -q --force-reinstall --no-deps --target there '{carried}'"
    done = installed.run(command, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")


def test_the_build_backend_is_the_one_that_is_tested():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert settings["build-system"]["requires"] == [f"hatchling=={distribution('hatchling').version}"]
