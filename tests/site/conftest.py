from pathlib import Path

import pytest

from tests.site.courses import Course


@pytest.fixture
def course(tmp_path: Path) -> Course:
    return Course(tmp_path)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A good course, built once; look, but do not change it."""
    course = Course(tmp_path_factory.mktemp("built"))
    course.build()
    return course
