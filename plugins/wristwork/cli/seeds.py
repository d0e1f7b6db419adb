"""What courses grow from: the starter course and the rudiment library, in the package or in the repository."""

from __future__ import annotations

from pathlib import Path

import wristwork
from wristwork.cli.trouble import Trouble

# What building, testing and running leave in a folder: no part of a seed.
BUILT = frozenset(("site", ".site.new", ".site.old", ".wristwork", ".cache", "__pycache__"))

_IN_PACKAGE = Path(wristwork.__file__).parent / "_seeds"
_IN_REPOSITORY = Path(wristwork.__file__).parents[2] / "seeds"


def seed_folder(name: str) -> Path:
    """The folder of a seed: ``starter`` or ``rudiments``."""
    for place in (_IN_PACKAGE, _IN_REPOSITORY):
        if (place / name).is_dir():
            return place / name
    raise Trouble(f"the seed '{name}' did not come with this installation", "install Wristwork again")
