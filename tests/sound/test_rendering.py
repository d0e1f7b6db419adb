from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from tests.sound.made_patterns import pattern
from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.pattern.problems import PatternError
from wristwork.sound import rendering
from wristwork.sound.heard import heard
from wristwork.sound.kit import Kit
from wristwork.sound.preview import preview_starts, preview_tempos, preview_times, previews

KIT = Kit()
FAST = pattern("R>L", time="1/4", tempo="300")
OTHER = pattern("RL", time="1/4", tempo="280 to 300")


def all_rendered(patterns, workers):
    return dict(one for some in rendering.rendered(patterns, KIT, workers) for one in some)


def test_every_pattern_gets_its_previews():
    assert all_rendered([FAST, OTHER], workers=1) == {0: previews(FAST, KIT), 1: previews(OTHER, KIT)}
    assert [list(previews(each, KIT)) for each in (FAST, OTHER)] == [["start.mp3"], ["start.mp3", "goal.mp3"]]


def test_what_is_heard_decides_and_nothing_else():
    key = heard(FAST)
    assert heard(replace(FAST, title="Another", id="another", note="x")) == key
    different = [
        heard(pattern(**lines))
        for lines in (
            {"hands": "RL", "time": "1/4", "tempo": "300"},
            {"hands": "R>L", "time": "1/4", "tempo": "299"},
            {"hands": "R>L", "time": "1/4", "tempo": "300 to 301"},
            {"hands": "R>L", "time": "1/4", "tempo": "300", "repeat": "2"},
            {"hands": "R>L", "time": "1/4", "tempo": "300", "place": "all on snare"},
            {"hands": "R>L", "time": "1/8", "tempo": "300", "loop": "no"},
            {"hands": "lR>L", "time": "1/4", "tempo": "300"},
            {"hands": "R>zL", "time": "1/4", "tempo": "300"},
            {"hands": "R>L R>L", "time": "2/4", "tempo": "300"},
            {"hands": "R>R", "time": "1/4", "tempo": "300"},
            {"hands": "L>R", "time": "1/4", "tempo": "300"},
        )
    ]
    assert len({key, *different}) == 1 + len(different)


CHANGES = {
    "tempo": ["61 to 90", "61"],
    "feel": ["straight", "swing", "swing 3:2", "swing sixteenths"],
    "place": ["all on snare", "left foot on cowbell", "grace notes on rim", "taps on cross-stick"],
    "dynamics": ["p at bar 1", "ff at beat 2", "p at bar 1 growing, ff at beat 2"],
    "time": ["4/4", "2/2", "3/4", "6/8", "7/8 as 2+2+3", "7/8 as 3+2+2"],
    "repeat": ["1", "2"],
    "loop": ["no"],
    "hands": ["R>L", "RL", "lR>L"],
    "feet": ["R", "L", "R L"],
}
LETTERS = [("R", "L"), ("L", "R"), (">", ""), (">", "^"), ("z", ""), ("l", ""), ("r", ""), (".", "-"), ("-", ".")]


@st.composite
def changed(draw, text):
    """The text with one of its lines written otherwise, or one more line."""
    lines = dict(line.split(": ", 1) for line in text.splitlines())
    key = draw(st.sampled_from([*CHANGES, "hands", "hands"]))
    if key == "hands" and draw(st.booleans()):
        lines["hands"] = lines["hands"].replace(*draw(st.sampled_from(LETTERS)))
    else:
        lines[key] = draw(st.sampled_from(CHANGES[key]))
    return "\n".join(f"{key}: {value}" for key, value in lines.items())


def read(text):
    try:
        return read_one(text)
    except PatternError:
        return assume(False)


def sounding(made):
    """Everything that starts in each preview, and when that ends."""
    return [(preview_times(made, tempo), preview_starts(made, tempo)) for tempo in preview_tempos(made).values()]


@given(pattern_texts().flatmap(lambda text: st.tuples(st.just(text), changed(text))))
@example(("title: Any pattern\nhands: RLRL RLRL", "title: Any pattern\nhands: RLRL RLRL\nfeel: swing"))
def test_patterns_with_one_key_have_one_sound(texts):
    one, other = map(read, texts)
    assert heard(one) != heard(other) or sounding(one) == sounding(other)


def test_many_are_rendered_in_processes_with_the_same_bytes():
    made = [pattern("R>L", time="1/4", tempo=str(tempo)) for tempo in range(300, 308)]
    assert all_rendered(made, workers=1) == all_rendered(made, workers=2)


def test_where_no_process_starts_it_renders_here(monkeypatch):
    def no_processes(jobs, kit, _workers):
        yield rendering._render(jobs[:2], kit)
        raise rendering.BrokenProcessPool("no more here")

    monkeypatch.setattr(rendering, "_rendered_in_processes", no_processes)
    made = [pattern("R>L", time="1/4", tempo=str(tempo)) for tempo in range(300, 306)]
    done = [number for some in rendering.rendered(made, KIT, 2) for number, _ in some]
    assert done == list(range(6))


@pytest.mark.parametrize("module", ["wristwork.sound.heard", "wristwork.site.audio.sounds"])
def test_looking_for_what_is_kept_loads_nothing_that_renders(module):
    script = f"import sys, {module}; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout.split()
    assert not {"numpy", "scipy", "lameenc", "soundfile"} & set(loaded)
