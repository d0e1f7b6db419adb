"""The shape of the code: imports go one way, modules stay small, scripts and Python agree on what can be typed."""

import logging
import re
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

from wristwork.pattern.settings import FASTEST, LONGEST_ID, SHORTEST_ID, SLOWEST

PACKAGE = Path(__file__).parent.parent / "plugins" / "wristwork"
MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_is_small_enough_to_read_at_once(module):
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 320


@pytest.fixture
def loggers():
    """Whoever sets up a log of its own switches all others off."""
    there = [each for each in logging.root.manager.loggerDict.values() if isinstance(each, logging.Logger)]
    off = {each: each.disabled for each in there}
    yield
    for each, was_off in off.items():
        each.disabled = was_off


@pytest.mark.usefixtures("loggers")
def test_imports_go_one_way():
    assert lint_imports(str(PACKAGE.parents[1] / "pyproject.toml"), no_cache=True) == 0


def test_scripts_take_the_ids_and_tempos_that_the_reader_of_patterns_takes():
    script = (PACKAGE / "site" / "assets" / "base" / "limits.js").read_text(encoding="utf-8")
    limits = {name: int(number) for name, number in re.findall(r"const ([A-Z_]+) = (\d+);", script)}
    assert limits == {"SLOWEST": SLOWEST, "FASTEST": FASTEST, "SHORTEST_ID": SHORTEST_ID, "LONGEST_ID": LONGEST_ID}
