"""LICENSES.md names all libraries that are installed with Wristwork or its tests, and the licence that each states."""

from __future__ import annotations

import re
from importlib.metadata import PackageMetadata, distribution, metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "LICENSES.md").read_text(encoding="utf-8")
ROWS = dict(re.findall(r"^\| `([^`]+)` \| ([^|]+?) \|", TEXT, re.M))
PINNED = sorted(
    canonicalize_name(line.split("==")[0]) for line in (ROOT / "constraints.txt").read_text().splitlines() if line
)

# What libraries wrote about themselves before there was one way to write it.
SPDX = {
    "MIT": "MIT",
    "MIT License": "MIT",
    "BSD License": "BSD-3-Clause",
    "BSD-3-Clause": "BSD-3-Clause",
    "BSD 3-Clause License": "BSD-3-Clause",
    "BSD 2-Clause License": "BSD-2-Clause",
    "Apache-2.0": "Apache-2.0",
    "Apache 2.0": "Apache-2.0",
    "Apache Software License": "Apache-2.0",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "MPL-2.0": "MPL-2.0",
}
# States nothing where programs look; so says its licence file.
UNSTATED = {"axe-playwright-python": "MIT"}


def stated(about: PackageMetadata, name: str) -> str:
    """The licence that a library states, by the open list of short names for licences (SPDX)."""
    if about["License-Expression"]:
        return about["License-Expression"]
    classifiers = [line.split(" :: ")[-1] for line in about.get_all("Classifier") or [] if line.startswith("License")]
    return next((SPDX[word] for word in (about["License"], *classifiers) if word in SPDX), UNSTATED.get(name, ""))


def needed() -> set[str]:
    """What runs with Wristwork: its libraries, and theirs, on whatever system."""
    found, open_names = set(), ["wristwork"]
    while open_names:
        for line in distribution(open_names.pop()).requires or ():
            requirement = Requirement(line)
            name = canonicalize_name(requirement.name)
            if name in PINNED and name not in found and "extra" not in str(requirement.marker):
                found.add(name)
                open_names.append(name)
    return found


@pytest.mark.parametrize("name", PINNED)
def test_the_licence_of_every_library_is_the_one_that_it_states(name):
    assert ROWS.get(name) == stated(metadata(name), name)


def test_libraries_are_in_the_part_of_the_page_that_they_belong_to():
    run, tests = TEXT.split("## Only for tests")
    assert {name for name in ROWS if f"`{name}` |" in run} == needed()
    assert {name for name in ROWS if f"`{name}` |" in tests} == set(PINNED) - needed()


def test_licences_that_ask_for_more_than_a_notice_are_explained():
    explained = TEXT.split("## Libraries")[0]
    asks = {name for name in needed() if re.search("GPL|MPL", ROWS[name])}
    assert [name for name in sorted(asks) if f"`{name}`" not in explained] == []
    assert {"lameenc", "soundfile"} <= set(re.findall("`([^`]+)`", explained))


def test_the_fonts_and_their_licences_are_named():
    fonts = ROOT / "plugins" / "wristwork" / "drawing" / "fonts"
    assert [path.name for path in fonts.glob("*-*.t*") if path.stem.split("-")[0] not in TEXT] == []
    assert [path.name for path in fonts.glob("*.txt") if path.name not in TEXT] == []
