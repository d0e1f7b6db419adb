"""`wristwork read`: another program's file becomes a pattern, or one line says why not."""

from pathlib import Path

import pytest

from tests.exchange.foreign import attributes, note, part, score
from wristwork.cli.main import main
from wristwork.exchange.score import score_bytes
from wristwork.pattern import read_course, read_one

SCORE = score(part(attributes(1) + note("snare", 1) * 4), title="Four")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "four.musicxml"
    path.write_bytes(SCORE)
    return path


def test_a_pattern_goes_to_the_screen_and_what_is_told_beside_it(file, capsys):
    assert main(["read", str(file)]) == 0
    shown = capsys.readouterr()
    assert shown.out == (
        "```pattern\nid: four\ntitle: Four\ntime: 4/4\nhands: x x x x\nplace: all on snare\n```\n"
    )  # fmt: skip
    assert "write R or L in place of each x" in shown.err


def test_what_is_written_can_be_put_into_a_page(tmp_path, capsys):
    pattern = read_one("title: One\nhands: R>LRR rL>RLL\nfeet: R L")
    (tmp_path / "one.musicxml").write_bytes(score_bytes(pattern))
    main(["read", str(tmp_path / "one.musicxml")])
    page = f"# A page\n\n{capsys.readouterr().out}"
    (fence,) = read_course({"page.md": page}).fences
    assert fence.problems == ()
    assert (fence.pattern.hands, fence.pattern.feet) == (pattern.hands, pattern.feet)


@pytest.mark.parametrize(
    ("options", "hands"), [(["--hands", "left"], "hands: L R L R\n"), (["--bars", "1-1"], "hands: x x x x\n")]
)
def test_hands_and_bars_can_be_asked_for(file, capsys, options, hands):
    assert main(["read", str(file), *options]) == 0
    assert hands in capsys.readouterr().out


@pytest.mark.parametrize(
    ("options", "said"),
    [(["--bars", "8-9"], "no bars 8 to 9"), (["--bars", "all"], "'all' are no bars, as 5-8 are"),
     (["--hands", "both"], "'both' is not one of 'right', 'left'"), (["--bars", "3-2"], "'3-2' are no bars")],
)  # fmt: skip
def test_what_can_not_be_asked_for(file, capsys, options, said):
    assert main(["read", str(file), *options]) in (1, 2)
    shown = capsys.readouterr()
    assert said in shown.err
    assert (shown.out, shown.err.count("\n")) == ("", 1)


def test_a_file_that_is_not_there_or_no_score_gets_one_line(tmp_path, capsys):
    (tmp_path / "junk.mid").write_bytes(b"MThd")
    for name, said in (("none.xml", "can't be read"), ("junk.mid", "a broken MIDI file: save it again"), ("", "can't")):
        assert main(["read", str(tmp_path / name)]) == 1
        shown = capsys.readouterr()
        assert said in shown.err
        assert (shown.out, shown.err.count("\n")) == ("", 1)
