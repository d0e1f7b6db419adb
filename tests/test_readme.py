"""What the README shows and says is true."""

from pathlib import Path

from wristwork.drawing import diagram
from wristwork.pattern import read_one

ROOT = Path(__file__).parents[1]
PICTURE = ROOT / "docs" / "images" / "accented-paradiddle.svg"
PATTERN = """\
id: accented-paradiddle
title: Accented paradiddle
tempo: 60 to 100
hands: R>LRR L>RLL R>LRR L>RLL
"""


def test_the_picture_is_what_the_tool_draws():
    assert diagram(read_one(PATTERN)).svg() == PICTURE.read_text(encoding="utf-8")
