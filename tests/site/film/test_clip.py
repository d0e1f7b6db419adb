"""Films of exercises: what is seen and heard when, opened again by a decoder."""

from __future__ import annotations

import io
import os
import subprocess
import sys

import av
import numpy as np
import pytest
from hypothesis import given, settings

from tests.site.courses import Course
from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.site.film.clip import clip, film_sound
from wristwork.site.film.encoding import decoded
from wristwork.site.film.hands import HANDS, moving_hands
from wristwork.site.film.layout import SQUARE, FilmWords
from wristwork.site.film.pictures import Pictures
from wristwork.site.film.press import FilmPress
from wristwork.site.film.timing import END_CARD, LONGEST, SHORTEST, Way, film_times
from wristwork.site.frontend import colours
from wristwork.sound.kit import Kit
from wristwork.sound.schedule import schedule

WORDS = FilmWords("Paradiddle <&>", "Week 5: Turning", "60 beats a minute", "Loft", "loft.example/x/paradiddle")
PATTERN = read_one("title: Paradiddle\ntempo: 60\nhands: R>LRR L>RLL R>LRR L>RLL")
RATE = 44_100


@pytest.fixture(scope="module")
def kit() -> Kit:
    return Kit()


@pytest.fixture(scope="module")
def film(kit: Kit) -> bytes:
    return clip(PATTERN, WORDS, kit, colours.house().light)


def opened(film: bytes) -> tuple[np.ndarray, np.ndarray]:
    """Pictures at full length and the sound."""
    with av.open(io.BytesIO(film)) as file:
        pictures = np.stack([frame.to_ndarray(format="rgb24") for frame in file.decode(video=0)])
    with av.open(io.BytesIO(film)) as file:
        sound = np.concatenate([frame.to_ndarray()[0] for frame in file.decode(audio=0)])
    return pictures, sound


def test_any_chat_plays_it(film: bytes) -> None:
    with av.open(io.BytesIO(film)) as file:
        video, audio = file.streams.video[0], file.streams.audio[0]
        assert (video.codec_context.name, video.codec_context.pix_fmt) == ("h264", "yuv420p")
        assert (video.width, video.height) == (SQUARE.width, SQUARE.height)
        assert audio.codec_context.name == "aac"
        assert SHORTEST <= file.duration / 1e6 <= LONGEST + 0.1
    # What a player needs first stands first.
    assert film.index(b"moov") < film.index(b"mdat")


def test_the_same_exercise_is_the_same_file(film: bytes, kit: Kit) -> None:
    assert clip(PATTERN, WORDS, kit, colours.house().light) == film


FILMED = """
import hashlib
import numpy as np
from wristwork.site.film.encoding import mp4
still = np.random.default_rng(5).integers(0, 255, (45, 45, 3), dtype=np.uint8).repeat(16, 0).repeat(16, 1)
moving = (np.roll(still, 5 * number, axis=1) for number in range(24))
print(hashlib.sha256(mp4(moving, np.zeros(44_100, np.float32), 25)).hexdigest())
"""


@pytest.mark.skipif(sys.platform != "linux", reason="only there memory can be filled beforehand")
def test_bytes_do_not_depend_on_what_was_in_memory_before() -> None:
    films = {
        subprocess.run(
            [sys.executable, "-c", FILMED],
            env={**os.environ, "MALLOC_PERTURB_": filled},
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        ).stdout
        for filled in ("1", "85", "170")
    }
    assert len(films) == 1


def test_the_mark_stands_at_the_note_that_is_heard(film: bytes) -> None:
    """Where it is, is read from the pictures; where the notes are, from the drawing."""
    times = film_times(PATTERN)
    pictures, sound = opened(film)
    shown = Pictures(
        PATTERN, WORDS, times, SQUARE, FilmPress(colours.house().light, decoded), dict(colours.house().light)
    )
    for beat in (0.25, 1.5, 2.75, 3.5):
        at = float(times.begins) + beat  # a beat a second
        picture = pictures[round(at * 25)].astype(int)
        number = shown._line_at(beat)
        line, top = shown._lines[number], shown._tops[number]
        ground = shown._pages[number // shown._at_once].astype(int)
        band = slice(top + 4, top + line.picture.shape[0] - 4)
        changed = np.abs(picture[band] - ground[band]).sum(axis=2) > 60
        columns = np.flatnonzero(changed.mean(axis=0) > 0.6)
        expected = shown._left(line) + line.scale * shown._x(line, beat)
        assert abs(columns.mean() - expected) <= 2 + line.scale * 3, beat
        # The stroke is heard within a picture of where the mark is.
        start = round((at - 0.04) * RATE)
        before, after = sound[start - 800 : start], sound[round(at * RATE) : round(at * RATE) + 2200]
        assert np.abs(after).max() > 4 * max(np.abs(before).max(), 1e-3) or np.abs(after).max() > 0.05


def test_the_address_is_seen_at_the_end(film: bytes) -> None:
    pictures, _ = opened(film)
    deep = [int(colours.house().light["deep"][at : at + 2], 16) for at in (1, 3, 5)]
    assert np.abs(pictures[-1][20, 20].astype(int) - deep).max() < 12
    assert (pictures[-1].astype(int).sum(axis=2) > 600).sum() > 2000, "letters on it"
    assert np.abs(pictures[25][20, 20].astype(int) - deep).max() > 40


@settings(max_examples=60)
@given(pattern_texts().map(read_one))
def test_it_lasts_as_long_as_a_chat_plays(pattern) -> None:
    times = film_times(pattern)
    assert SHORTEST <= times.ends <= LONGEST
    assert times.begins < times.closes == times.ends - END_CARD
    if times.is_whole:
        assert times.passes >= 1


@settings(max_examples=60)
@given(pattern_texts().map(read_one))
def test_the_mark_goes_through_the_bars_as_they_are_played(pattern) -> None:
    times = film_times(pattern)
    way = Way(pattern, times)
    assert way.written_beat(0) is None or times.begins <= 0
    onsets = [
        onset for onset in schedule(pattern, times.tempo) if onset.stroke.kind != "grace" and pattern.swing is None
    ]
    for onset in onsets[:12]:
        at = times.begins + onset.starts_s
        if at >= times.closes:
            break
        beat = way.written_beat(float(at) + 1e-4)
        stroke = onset.stroke
        written = stroke.at % pattern.played_beats if stroke.written is None else stroke.written
        assert beat is not None
        assert abs(beat - float(written)) < 0.06 or abs(beat - float(written) - pattern.played_beats) < 0.06


@settings(max_examples=40, deadline=None)
@given(pattern_texts().map(read_one))
def test_every_hand_that_plays_moves_and_reaches_its_strokes(pattern) -> None:
    times = film_times(pattern)
    hands = {hand.limb: hand for hand in moving_hands(pattern, times)}
    onsets = [onset for onset in schedule(pattern, times.tempo, times.passes) if onset.stroke.limb.is_hand]
    heard = {onset.stroke.limb for onset in onsets if times.begins + onset.starts_s < times.closes}
    assert set(hands) == heard <= set(HANDS)
    for hand in hands.values():
        assert "NaN" not in hand.drawn(1.0)
        assert "nan" not in hand.drawn(1.0)


def test_nothing_is_louder_than_it_may_be(kit: Kit) -> None:
    times = film_times(PATTERN)
    sound = film_sound(PATTERN, times, kit)
    assert np.abs(sound).max() <= 1
    assert np.abs(sound[-200:]).max() < 0.01


def test_a_course_that_wants_them_has_one_for_every_exercise_and_makes_it_once(
    course: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    (course.root / "docs/weeks/week-02.md").unlink()
    course.settings["plugins"] = ["search", {"wristwork": {"checks": "off", "clips": True}}]
    course.build()
    place = course.site / "x/slow-singles"
    film = (place / "clip.mp4").read_bytes()
    assert len(film) > 50_000
    page = (place / "index.html").read_text()
    assert '<video class="ww-clip" controls playsinline preload="none" src="clip.mp4"' in page
    assert 'href="clip.mp4" download' in page
    assert 'href="../../x/slow-singles/clip.mp4" download' in (course.site / "weeks/week-01/index.html").read_text()
    assert "clip.mp4" not in (course.site / "offline.json").read_text()
    monkeypatch.setattr("wristwork.site.film.clip.clip", None)
    course.build()
    assert (place / "clip.mp4").read_bytes() == film


def test_a_course_has_none_unless_it_wants_them(built: Course) -> None:
    assert not list(built.site.glob("x/*/clip.mp4"))
    assert "ww-clip" not in (built.site / "x/slow-singles/index.html").read_text()


def test_without_the_library_the_setting_says_what_to_install(course: Course) -> None:
    course.write("without/av.py", "raise ImportError('not here')\n")
    course.settings["plugins"] = ["search", {"wristwork": {"clips": True}}]
    done = course.run(PYTHONPATH=str(course.root / "without"))
    assert done.returncode != 0
    assert 'install it with pip install "wristwork[clip]"' in done.stderr
