"""Published scripts and styles mean what their sources mean, in fewer bytes."""

from __future__ import annotations

import gzip

import pytest

from wristwork.site.frontend.assets import FOLDER
from wristwork.site.frontend.lean import lean

SCRIPTS = sorted(path for path in FOLDER.rglob("*.js"))
# What a browser fetches of the player with its styles: for every page with an exercise, and when a stand is opened.
PLAYER_LIMIT = 25_000
STAND_LIMIT = 4_000
# What is behind "More", fetched when that is first opened.
BEHIND_MORE = ("player-more.js", "player-click.js", "player-setup.js", "player-part.js", "player-arrange.js")
MORE_LIMIT = 7_000
# What listens, fetched when it is opened; an electronic pad's part comes with the pad.
LISTENING = (
    *("stroke-finder.js", "listen-worklet.js", "heard-fit.js", "judgement.js", "advice.js", "ear.js"),
    *("listen.js", "listen-asked.js", "listen-dots.js"),
)
LISTENING_LIMIT = 17_200


def test_comments_on_lines_of_their_own_and_indentation_go_and_code_stays():
    source = """\
/**
 * What it is. A url: https://x.example // and more
 */
import { a } from "./a.js";

// Why.
const b = "// no comment"; // stays
  /* one line */
  const c = a /* stays */ + b;


const d = `http://x.example`;
"""
    assert lean("x.js", source.encode()).decode() == (
        'import { a } from "./a.js";\nconst b = "// no comment"; // stays\nconst c = a /* stays */ + b;\n'
        "const d = `http://x.example`;\n"
    )


def test_other_files_are_left_alone():
    assert lean("icon.svg", b"/* a */\n\n\n") == b"/* a */\n\n\n"


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_no_text_runs_over_lines(script):
    """What looks like a comment or like indentation would be taken out of it."""
    assert [line for line in script.read_text().splitlines() if line.count("`") % 2] == []


def weights(*beginnings: str, leave_out: tuple[str, ...] = ()) -> dict[str, int]:
    paths = [
        path
        for path in (FOLDER / "player").iterdir()
        if path.name.startswith(beginnings) and path.name not in leave_out
    ]
    return {path.name: len(gzip.compress(lean(path.name, path.read_bytes()), 9)) for path in paths}


def test_the_player_and_its_styles_weigh_at_most_25_kilobytes():
    found = weights("player", leave_out=BEHIND_MORE)
    assert {"player.js", "player.css"} <= found.keys()
    early = "".join(source("player", name) for name in found if name.endswith(".js"))
    assert not [name for name in BEHIND_MORE if f'from "./{name}"' in early]
    assert sum(found.values()) <= PLAYER_LIMIT, found


def source(room: str, name: str) -> str:
    return (FOLDER / room / name).read_text(encoding="utf-8")


def test_what_is_behind_more_and_comes_when_it_is_opened_weighs_little():
    found = weights(*BEHIND_MORE)
    assert found.keys() == set(BEHIND_MORE)
    assert sum(found.values()) <= MORE_LIMIT, found


def test_the_stand_which_comes_when_it_is_opened_weighs_little():
    found = weights("stand")
    assert {"stand.js", "stand.css"} <= found.keys()
    assert sum(found.values()) <= STAND_LIMIT, found


def test_what_listens_comes_when_it_is_opened_and_weighs_little():
    paths = [path for name in LISTENING for path in FOLDER.glob(f"*/{name}")]
    found = {path.name: len(gzip.compress(lean(path.name, path.read_bytes()), 9)) for path in paths}
    assert found.keys() == set(LISTENING)
    assert sum(found.values()) <= LISTENING_LIMIT, found
    early = "".join(path.read_text(encoding="utf-8") for path in (FOLDER / "player").glob("player*.js"))
    assert not [name for name in LISTENING if f'from "./{name}"' in early]
