"""``--update-goldens`` writes what is drawn now over the files that drawings are held against."""

from __future__ import annotations

from pathlib import Path

import pytest

GOLDENS = Path(__file__).parent / "goldens"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update-goldens", action="store_true", help="write the golden drawings anew")


@pytest.fixture
def golden(request):
    """Holds a text against ``goldens/<name>``, or writes it there."""

    def check(name: str, text: str) -> None:
        kept = GOLDENS / name
        if request.config.getoption("--update-goldens", default=False):
            kept.parent.mkdir(exist_ok=True)
            kept.write_text(text, encoding="utf-8")
        assert text == kept.read_text(encoding="utf-8")

    return check
