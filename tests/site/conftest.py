import os
from pathlib import Path

import pytest

from tests.site.courses import Course
from tests.site.kept_store import KeptStore

# What is kept and what is made anew is what these are about.
MAKE_THEIR_OWN = {"tests.site.test_building", "tests.site.test_keeping", "tests.site.test_sound_files"}


@pytest.fixture(scope="session", autouse=True)
def _shared(tmp_path_factory: pytest.TempPathFactory) -> None:
    """One store for all workers of a run, whose own folders lie side by side."""
    base = tmp_path_factory.getbasetemp()
    Course.kept = KeptStore((base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "kept")


@pytest.fixture
def course(request: pytest.FixtureRequest, tmp_path: Path) -> Course:
    course = Course(tmp_path)
    # A test that changes our code while it runs would pass on what nobody else makes, and is to make its own.
    course.takes_all = request.module.__name__ not in MAKE_THEIR_OWN and "monkeypatch" not in request.fixturenames
    return course


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A good course, built once; look, but do not change it."""
    course = Course(tmp_path_factory.mktemp("built"))
    course.build()
    return course
