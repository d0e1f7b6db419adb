from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from tests.sound.made_patterns import pattern
from wristwork.sound import cache, rendering
from wristwork.sound.kit import Kit, Sound, Voice
from wristwork.sound.preview import previews

KIT = Kit()
FAST = pattern("R>L", time="1/4", tempo="300")
OTHER = pattern("RL", time="1/4", tempo="280 to 300")


def every_file(folder):
    return sorted(path for path in folder.rglob("*") if path.is_file())


def test_previews_are_rendered_and_kept(tmp_path):
    (fast, other) = cache.render_all([FAST, OTHER], KIT, tmp_path, workers=1)
    assert list(fast) == ["start.mp3"]
    assert list(other) == ["start.mp3", "goal.mp3"]
    assert fast["start.mp3"].read_bytes() == previews(FAST, KIT)["start.mp3"]
    assert every_file(tmp_path) == sorted([*fast.values(), *other.values()])


def test_what_is_kept_is_not_rendered_again(tmp_path, monkeypatch):
    kept = cache.render_all([FAST, OTHER], KIT, tmp_path, workers=1)
    monkeypatch.setattr(rendering, "_render", lambda *_: pytest.fail("rendered again"))
    told = []
    assert cache.render_all([FAST, OTHER], KIT, tmp_path, 1, lambda *both: told.append(both)) == kept
    assert told == []


def test_a_lost_file_is_made_again(tmp_path):
    (kept,) = cache.render_all([OTHER], KIT, tmp_path, workers=1)
    whole = kept["goal.mp3"].read_bytes()
    kept["goal.mp3"].unlink()
    cache.render_all([OTHER], KIT, tmp_path, workers=1)
    assert kept["goal.mp3"].read_bytes() == whole


def test_progress_is_told_from_nothing_to_all(tmp_path):
    told = []
    cache.render_all([FAST, OTHER, FAST], KIT, tmp_path, 1, lambda *both: told.append(both))
    assert told == [(0, 2), (1, 2), (2, 2)]


def test_what_is_heard_decides_the_key_and_nothing_else():
    key = cache.preview_key(FAST, KIT)
    assert cache.preview_key(replace(FAST, title="Another", id="another", note="x"), KIT) == key
    louder = Kit({Voice("pad", "tap"): (Sound(np.array([9, 0], np.int16), 0.5),)})
    different = [
        cache.preview_key(FAST, louder),
        *(
            cache.preview_key(pattern(**lines), KIT)
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
            )
        ),
    ]
    assert len({key, *different}) == 1 + len(different)


def test_many_are_rendered_in_processes_with_the_same_bytes(tmp_path):
    made = [pattern("R>L", time="1/4", tempo=str(tempo)) for tempo in range(300, 308)]
    told = []
    alone = cache.render_all(made, KIT, tmp_path / "alone", workers=1)
    shared = cache.render_all(made, KIT, tmp_path / "shared", 2, lambda *both: told.append(both))
    assert [f["start.mp3"].read_bytes() for f in alone] == [f["start.mp3"].read_bytes() for f in shared]
    assert told == [(0, 8), (4, 8), (8, 8)]


def test_where_no_process_starts_it_renders_here(tmp_path, monkeypatch):
    def no_processes(*_args):
        raise rendering.BrokenProcessPool("none here")
        yield

    monkeypatch.setattr(rendering, "_rendered_in_processes", no_processes)
    made = [pattern("R>L", time="1/4", tempo=str(tempo)) for tempo in range(300, 306)]
    assert all(kept["start.mp3"].exists() for kept in cache.render_all(made, KIT, tmp_path, workers=2))


def test_a_build_that_is_killed_leaves_no_half_written_file(tmp_path):
    script = "import os, sys, pathlib; from wristwork.files import write_whole\n"
    script += "pathlib.Path.replace = lambda *_: os._exit(9)\n"
    script += "write_whole(pathlib.Path(sys.argv[1]) / 'sound.mp3', b'x' * 100000)"
    assert subprocess.run([sys.executable, "-c", script, str(tmp_path)], check=False).returncode == 9
    assert not (tmp_path / "sound.mp3").exists()
    (part,) = every_file(tmp_path)
    cache.forget_unused(tmp_path, [])
    assert part.exists(), "it may still belong to a build that runs"
    os.utime(part, (0, 0))
    cache.forget_unused(tmp_path, [])
    assert every_file(tmp_path) == []


def test_what_nobody_uses_is_forgotten_with_its_folder(tmp_path):
    (fast, other) = cache.render_all([FAST, OTHER], KIT, tmp_path, workers=1)
    cache.forget_unused(tmp_path, fast.values())
    assert every_file(tmp_path) == sorted(fast.values())
    assert {path for path in tmp_path.iterdir() if path.is_dir()} == {fast["start.mp3"].parent}
    assert not any(path.exists() for path in other.values())


def test_the_players_sounds_are_kept_whole(tmp_path, monkeypatch):
    first = cache.oneshot_files(KIT, tmp_path)
    assert cache.MANIFEST_FILE in first
    assert every_file(tmp_path) == sorted(first.values())
    monkeypatch.setattr("wristwork.sound.oneshots.oneshots", lambda _: pytest.fail("made again"))
    assert cache.oneshot_files(KIT, tmp_path) == first


def test_looking_into_the_cache_loads_nothing_that_renders():
    script = "import sys, wristwork.sound.cache; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout.split()
    assert not {"scipy", "lameenc", "soundfile", "pyloudnorm"} & set(loaded)
