import os
from pathlib import Path

import pytest

from tests.site.courses import Course
from tests.site.sound_store import SoundStore


@pytest.fixture(scope="session", autouse=True)
def _shared_sound(tmp_path_factory: pytest.TempPathFactory) -> None:
    """One store for all workers of a run, whose own folders lie side by side."""
    base = tmp_path_factory.getbasetemp()
    Course.sound = SoundStore((base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "sound")


@pytest.fixture
def course(tmp_path: Path) -> Course:
    return Course(tmp_path)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A good course, built once; look, but do not change it."""
    course = Course(tmp_path_factory.mktemp("built"))
    course.build()
    return course
