"""How the scripts stand to one another: imports go one way, and only a page's own scripts do something when read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wristwork.site.frontend.assets import BUNDLES, FOLDER

# A room imports from itself and from those before it.
ROOMS = ("base", "listening", "player", "safety", "reader", "student")
# What a page names in its head; everything else is there to be imported.
STARTED = {
    *(name for bundle in BUNDLES for name in bundle.scripts),
    "offline.js",
    "forward.js",
    "waiting.js",
    "scheme.js",
    "listen-worklet.js",
}
SCRIPTS = {path.name: path for path in sorted(FOLDER.rglob("*.js"))}
_COMMENT = re.compile(r"/\*.*?\*/|^[ \t]*//[^\n]*$", re.MULTILINE | re.DOTALL)
_IMPORT = re.compile(r'^import\s+(?:[^;"]*?\sfrom\s+)?"(\.[^"]+)"|\bimport\("(\.[^"]+)"\)', re.MULTILINE)
# The only one that may: for each thing that must be done in one way.
KEEPERS = {
    "createElement": "elements.js",
    "wakeLock": "awake.js",
    "new AudioContext(": "warm-up-chime.js",
}


def code_of(path: Path) -> str:
    """A script without its comments, in which types may be imported from anywhere."""
    return _COMMENT.sub("", path.read_text(encoding="utf-8"))


def imported(path: Path) -> list[Path]:
    found = [first or second for first, second in _IMPORT.findall(code_of(path))]
    return [(path.parent / name).resolve() for name in found]


def test_names_are_one_of_a_kind_for_they_are_published_in_one_folder() -> None:
    assert len(SCRIPTS) == len(list(FOLDER.rglob("*.js")))


@pytest.mark.parametrize("path", SCRIPTS.values(), ids=SCRIPTS)
def test_imports_go_one_way_between_rooms(path: Path) -> None:
    mine = ROOMS.index(path.parent.name)
    for other in imported(path):
        assert other.is_file()
        assert ROOMS.index(other.parent.name) <= mine, other.name


def test_no_imports_go_round_in_a_circle_not_even_late_ones() -> None:
    arrows = {path: imported(path) for path in SCRIPTS.values()}
    done: set[Path] = set()

    def visit(path: Path, way: tuple[Path, ...]) -> None:
        assert path not in way, " -> ".join(one.name for one in (*way, path))
        if path not in done:
            for other in arrows[path]:
                visit(other, (*way, path))
            done.add(path)

    for path in arrows:
        visit(path, ())


@pytest.mark.parametrize("name", sorted(SCRIPTS.keys() - STARTED))
def test_a_script_that_is_imported_does_nothing_on_its_own(name: str) -> None:
    """Its outermost lines only import, declare or export."""
    outermost = [line for line in code_of(SCRIPTS[name]).splitlines() if line and not line[0].isspace()]
    declares = re.compile(r"(import|export|const|let|async function|function|class)\b|[)}\]]")
    assert [line for line in outermost if not declares.match(line)] == []
    assert [line for line in outermost if re.search(r"= new \w+Observer\(|addEventListener", line)] == []


def test_a_script_that_a_page_names_is_not_imported() -> None:
    assert {other.name for path in SCRIPTS.values() for other in imported(path)} & STARTED == set()


def test_what_stays_on_the_device_has_one_keeper_and_a_look_before_anything_is_painted() -> None:
    users = {name for name, path in SCRIPTS.items() if "localStorage" in code_of(path)}
    assert users == {"store.js", "scheme.js"}
    assert "setItem" not in code_of(SCRIPTS["scheme.js"])


@pytest.mark.parametrize(("what", "keeper"), KEEPERS.items(), ids=KEEPERS)
def test_one_script_alone_does_it(what: str, keeper: str) -> None:
    users = {name for name, path in SCRIPTS.items() if what in path.read_text(encoding="utf-8")}
    assert users <= {keeper}
