"""The shape of the code: imports go one way, modules stay small."""

from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "plugins" / "wristwork"
MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_is_small_enough_to_read_at_once(module):
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 400
