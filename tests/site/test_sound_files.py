"""The sound of a built site: audio previews, the player's sounds, a tutor's own sounds."""

from __future__ import annotations

import io
import json
import os
import re
import signal
import subprocess
import time
from collections.abc import Callable
from html import unescape
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import soundfile
from mkdocs.config import load_config
from mkdocs.exceptions import Abort
from mkdocs.livereload import LiveReloadServer

from tests.site.courses import WEEK_2, WRONG, Course, contents
from wristwork.pattern import read_one
from wristwork.sound import rendering
from wristwork.sound.kit import made
from wristwork.sound.kit.voices import VOICES
from wristwork.sound.preview import preview_times
from wristwork.sound.schedule import beat_seconds, schedule

RATE = 44_100
PLAYED = "assets/wristwork/sounds"
WEEK_3 = """\
---
week: 3
title: One tempo
---

# One tempo

```pattern
id: steady
title: Steady
tempo: 90
hands: R>LRR L>RLL
```

```pattern
example: yes
hands: RLRL
```
"""
PARADIDDLE = "tempo: 60 to 100 by 4\nhands: R>LRR L>RLL R>LRR L>RLL"
# Short beats in a short bar: as little sound as a preview can hold.
QUICK = "\n".join(
    f"```pattern\nid: quick-{number}\ntitle: Quick {number}\ntime: 1/4\ntempo: {250 + number}\nhands: R>L\n```\n"
    for number in range(12)
)


@pytest.fixture(scope="session")
def heard(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A good course of three weeks, built once; look, but do not change it."""
    course = Course(tmp_path_factory.mktemp("heard"))
    course.takes_all = False
    course.write("docs/weeks/week-03.md", WEEK_3)
    course.build()
    return course


def tone(seconds: float = 0.2, hertz: float = 2000.0, rate: int = 48_000) -> bytes:
    """A WAV file that nothing in the made kit sounds like."""
    times = np.arange(round(seconds * rate)) / rate
    file = io.BytesIO()
    soundfile.write(file, 0.5 * np.sin(2 * np.pi * hertz * times), rate, format="WAV", subtype="PCM_16")
    return file.getvalue()


def own(course: Course, files: dict[str, bytes]) -> None:
    """Put files into the course's folder of sounds."""
    folder = course.root / "sounds"
    folder.mkdir(exist_ok=True)
    for name, content in files.items():
        (folder / name).write_bytes(content)


def rendered(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The ids of the exercises that builds of this process render from now on."""
    ids: list[str] = []
    real = rendering.rendered

    def watched(patterns, *arguments, **named):
        ids.extend(pattern.id for pattern in patterns)
        return real(patterns, *arguments, **named)

    monkeypatch.setattr(rendering, "rendered", watched)
    return ids


def audio_of(html: str) -> list[tuple[str, str]]:
    """The audio elements of a page: what each is called, where its file is."""
    found = re.findall(r'<span>([^<]*)</span><audio controls preload="none" src="([^"]*)" aria-label="([^"]*)">', html)
    assert len(found) == html.count("<audio")
    assert all(words == label for words, _, label in found)
    return [(unescape(words), unescape(src)) for words, src, _ in found]


def test_every_exercise_has_two_previews_and_one_where_the_tempos_are_the_same(heard: Course) -> None:
    names = {path.name: sorted(file.name for file in path.glob("*.mp3")) for path in heard.site.glob("x/*/")}
    assert names == {
        "slow-singles": ["goal.mp3", "start.mp3"],
        "accented-paradiddle": ["goal.mp3", "start.mp3"],
        "the-other-way": ["goal.mp3", "start.mp3"],
        "steady": ["start.mp3"],
    }
    assert list(heard.site.rglob("*.mp3")) == [*heard.site.glob("x/*/*.mp3")]


@pytest.mark.parametrize(
    ("address", "folder"), [("weeks/week-02", "../../x/accented-paradiddle/"), ("x/accented-paradiddle", "")]
)
def test_pages_hold_plain_audio_elements(heard: Course, address: str, folder: str) -> None:
    html = heard.page(address)
    assert audio_of(html)[:2] == [
        ("At the starting tempo, 60 beats a minute", f"{folder}start.mp3"),
        ("At the goal tempo, 100 beats a minute", f"{folder}goal.mp3"),
    ]
    for _, src in audio_of(html):
        assert (heard.site / address / src).is_file()
    assert '<div class="ww-controls"><div class="ww-audio">' in html


def test_examples_have_no_audio_and_one_tempo_has_one(heard: Course) -> None:
    html = heard.page("weeks/week-03")
    assert html.count("<figure") == 2
    assert audio_of(html) == [("At the starting tempo, 90 beats a minute", "../../x/steady/start.mp3")]


def test_a_link_preview_knows_the_audio(heard: Course) -> None:
    html = heard.page("x/steady")
    assert '<meta property="og:audio" content="https://larkspur.example/loft/x/steady/start.mp3">' in html
    assert '<meta property="og:audio:type" content="audio/mpeg">' in html
    assert heard.page("x/slow-singles").count('property="og:audio"') == 1


def test_the_player_finds_what_it_needs(heard: Course) -> None:
    lesson, place = heard.page("weeks/week-02"), heard.page("x/the-other-way")
    assert lesson.count('data-ww-hearing="../../safe-practice/hearing/"') == 2
    assert 'data-ww-hearing="../../safe-practice/hearing/"' in place
    assert 'data-ww-before="../accented-paradiddle/"' in place
    assert "data-ww-next" not in place
    assert 'data-ww-next="../the-other-way/"' in heard.page("x/accented-paradiddle")
    for address in ("weeks/week-02", "x/the-other-way", "key"):
        (script,) = re.findall(r'src="([^"]*)/player\.js"', heard.page(address))
        # See `mountPlayers` in player.js.
        assert (heard.site / address / script / "../sounds").resolve() == (heard.site / PLAYED).resolve()


def test_the_kit_is_published_whole(heard: Course) -> None:
    listed = json.loads((heard.site / PLAYED / "sounds.json").read_text())
    assert {path.name for path in (heard.site / PLAYED).iterdir()} == {*listed["files"], "sounds.json"}


def test_the_onsets_of_a_preview_are_those_of_the_score(heard: Course) -> None:
    wave, rate = soundfile.read(heard.site / "x/accented-paradiddle/goal.mp3")
    assert rate == RATE
    pattern = read_one(f"id: abc\ntitle: Abc\n{PARADIDDLE}")
    times = preview_times(pattern, 100)
    strokes = [float(times.begins + onset.starts_s) for onset in schedule(pattern, 100, times.passes)]
    clicks = [float(times.begins - number * beat_seconds(100)) for number in range(times.clicks, 0, -1)]
    found = onsets(wave)
    ideal = np.array([*clicks, *strokes])
    assert len(found) == len(ideal)
    # The encoder's delay is the same for all of them.
    off = found - ideal
    assert np.median(off) < 0.05
    assert np.abs(off - np.median(off)).max() < 0.003


def onsets(wave: np.ndarray) -> np.ndarray:
    """Seconds at which a sound sets in: where a millisecond is far louder than the ten before it."""
    frame = RATE // 1000
    loudness = np.abs(wave[: len(wave) // frame * frame]).reshape(-1, frame).max(axis=1)
    starts: list[int] = []
    for at in range(10, len(loudness)):
        is_new = not starts or at - starts[-1] > 50
        if is_new and loudness[at] > 0.01 and loudness[at] > 4 * loudness[at - 10 : at].max():
            starts.append(at)
    assert all(after > before for before, after in pairwise(starts))
    return np.array(starts) * frame / RATE


def test_a_second_build_renders_nothing_and_writes_nothing(course: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    course.build()
    before, ids = contents(course.site), rendered(monkeypatch)
    times = {path: path.stat().st_mtime_ns for path in (*course.site.rglob("*.mp3"), *(course.site / PLAYED).iterdir())}
    course.build()
    assert ids == []
    assert contents(course.site) == before
    assert {path: path.stat().st_mtime_ns for path in times} == times


def test_a_build_from_nothing_makes_the_same_and_tells_how_far_it_is(
    course: Course, heard: Course, caplog: pytest.LogCaptureFixture
) -> None:
    course.kept = None
    caplog.set_level("INFO")
    course.build()
    for path in (*course.site.rglob("*.mp3"), *(course.site / PLAYED).iterdir()):
        assert path.read_bytes() == (heard.site / path.relative_to(course.site)).read_bytes()
    # All three: the one that only swaps the hands sounds otherwise too, since each hand has hits of its own.
    told = [record.getMessage().partition(": ")[2] for record in caplog.records if "audio" in record.getMessage()]
    assert told[0] == "Rendering the audio of 3 exercises. Next time what did not change is there already."
    assert told[-1] == "Rendered the audio of 3 of 3 exercises."
    caplog.clear()
    course.build()
    assert "audio" not in caplog.text


def test_a_build_that_has_everything_loads_nothing_that_makes_sound(course: Course) -> None:
    own(course, {"pad-accent-1.wav": tone()})
    course.build()
    course.write("hook.py", "import atexit, sys\natexit.register(lambda: print('LOADED', *sys.modules))\n")
    course.settings["hooks"] = ["hook.py"]
    loaded = course.run().stdout.split()
    assert "wristwork.site.audio.sounds" in loaded
    assert not {"numpy", "scipy", "soundfile", "lameenc"} & set(loaded)


def test_only_what_sounds_different_is_rendered(course: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    course.build()
    ids = rendered(monkeypatch)
    before = (course.site / "x/accented-paradiddle/goal.mp3").read_bytes()
    course.write("docs/weeks/week-02.md", WEEK_2.replace("Accented paradiddle", "Paradiddle with accents"))
    course.build()
    assert ids == []
    course.write("docs/weeks/week-02.md", WEEK_2.replace("R>LRR L>RLL R>LRR L>RLL", "R>LRR LRLL R>LRR LRLL"))
    course.build()
    # What grows out of it changes with it; each hand has hits of its own, so its audio is not this one's.
    assert ids == ["accented-paradiddle", "the-other-way"]
    assert (course.site / "x/accented-paradiddle/goal.mp3").read_bytes() != before


def test_what_no_exercise_needs_is_forgotten(course: Course) -> None:
    course.build()
    kept = set((course.root / ".wristwork/kept").rglob("*.mp3"))
    (course.root / "docs/weeks/week-02.md").unlink()
    (course.root / "addresses.yml").unlink()
    course.build()
    left = set((course.root / ".wristwork/kept").rglob("*.mp3"))
    assert len(left) == 2
    assert left < kept


def test_a_build_that_is_killed_leaves_whole_files_and_no_process(course: Course) -> None:
    course.write("docs/weeks/week-03.md", f"---\nweek: 3\ntitle: Quick\n---\n\n# Quick\n\n{QUICK}")
    work = course.root / ".wristwork/kept"
    build = subprocess.Popen(
        course.command(),
        cwd=course.root,
        env=course.environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    there = len(list(work.rglob("*.mp3")))
    until(lambda: len(list(work.rglob("*.mp3"))) > there)
    build.send_signal(signal.SIGKILL)
    build.wait()
    until(lambda: not group_lives(build.pid))
    names = {path.name: path.read_bytes() for path in work.rglob("*.mp3")}
    assert len(names) < there + 12
    assert not course.site.exists()
    course.build()
    assert len(list(course.site.glob("x/quick-*/start.mp3"))) == 12
    assert not [name for name, content in names.items() for path in work.rglob(name) if path.read_bytes() != content]


def until(condition: Callable[[], bool]) -> None:
    for _ in range(3000):
        if condition():
            return
        time.sleep(0.02)
    pytest.fail("waited for a minute")


def group_lives(group: int) -> bool:
    """Whether any process of a group is still there."""
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


def test_the_kit_is_made_once_and_then_read_back(
    course: Course, heard: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    course.build()
    monkeypatch.setattr(made, "made_sounds", lambda voice: pytest.fail(f"{voice} is made again"))
    course.write("docs/weeks/week-03.md", WEEK_3.replace("tempo: 90", "tempo: 137"))
    course.build()
    assert (course.site / "x/steady/start.mp3").exists()
    assert same(course, heard, f"{PLAYED}/sounds.json")


def test_a_tutors_own_sound_takes_the_place_of_the_made_one(course: Course, heard: Course) -> None:
    own(course, {"pad-accent-1.wav": tone(), "README.md": b"Recorded in the loft.", ".hidden": b"?"})
    course.build()
    listed = json.loads((course.site / PLAYED / "sounds.json").read_text())
    assert [[name for name, _ in sound] for sound in listed["sounds"]["pad"]["accent"]] == [["own-pad-accent-1.flac"]]
    assert len(listed["sounds"]["pad"]["tap"]) == 4
    played, rate = soundfile.read(course.site / PLAYED / "own-pad-accent-1.flac")
    assert main_tone(played, rate) == pytest.approx(2000, abs=10)
    # Singles have no accent: they sound as before. A paradiddle begins with one.
    assert same(course, heard, "x/slow-singles/start.mp3")
    assert not same(course, heard, "x/accented-paradiddle/start.mp3")
    wave, rate = soundfile.read(course.site / "x/accented-paradiddle/start.mp3")
    first = round((0.05 + 4 + 0.06) * rate)
    assert main_tone(wave[first : first + rate // 10], rate) == pytest.approx(2000, abs=20)
    (course.root / "sounds/pad-accent-1.wav").unlink()
    course.build()
    assert same(course, heard, "x/accented-paradiddle/start.mp3")
    assert same(course, heard, f"{PLAYED}/pad-accent-1.flac")


def main_tone(wave: np.ndarray, rate: int) -> float:
    return float(np.argmax(np.abs(np.fft.rfft(wave, 1 << 16))) * rate / (1 << 16))


def same(one: Course, other: Course, address: str) -> bool:
    return (one.site / address).read_bytes() == (other.site / address).read_bytes()


def test_wrong_sounds_are_told_with_all_else_that_is_wrong(course: Course) -> None:
    course.build()
    before = contents(course.site)
    wrong = {"pad-acent-1.wav": tone(), "snare-tap-1.wav": b"RIFF", "snare-tap-2.wav": tone(seconds=7)}
    own(course, {**wrong, "pad-tap-1.wav": tone()})
    (course.root / "sounds/snare").mkdir()
    course.write("docs/weeks/week-03.md", WRONG)
    done = course.run()
    assert done.returncode != 0
    assert "Traceback" not in done.stderr
    for line in (
        "5 things are wrong in the course:",
        "docs/weeks/week-03.md:11:14: pattern 'wrong-one': an accent mark with no stroke before it",
        "sounds/pad-acent-1.wav: names no sound\n    rename it to <place>-<level>-<number>, perhaps pad-accent-1.wav",
        "sounds/snare-tap-1.wav: can't be read as WAV or FLAC\n    export it again",
        "sounds/snare-tap-2.wav: lasts 7.0 s\n    cut it to 6 s or less",
        "sounds/snare: is a folder\n    put its files right into sounds/",
    ):
        assert line in done.stderr
    assert contents(course.site) == before


def test_a_preview_tells_of_a_wrong_sound_and_plays_the_made_ones(
    course: Course, caplog: pytest.LogCaptureFixture, heard: Course
) -> None:
    own(course, {"pad-acent-1.wav": tone(), "pad-tap-1.wav": tone()})
    site = previewed(course)
    assert [record.levelname for record in caplog.records if "sounds/pad-acent-1.wav" in record.message] == ["ERROR"]
    assert (site / PLAYED / "pad-tap-1.flac").read_bytes() == (heard.site / PLAYED / "pad-tap-1.flac").read_bytes()
    (course.root / "sounds/pad-acent-1.wav").unlink()
    assert previewed(course) == site
    assert (site / PLAYED / "own-pad-tap-1.flac").exists()


def previewed(course: Course) -> Path:
    """The site that a preview shows; here it lies where a build puts its own."""
    course.preview()
    return course.site


def test_a_preview_renders_nothing_and_leaves_out_what_no_build_has_rendered(
    course: Course, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    course.build()
    ids = rendered(monkeypatch)
    course.write("docs/weeks/week-03.md", WEEK_3.replace("tempo: 90", "tempo: 91"))
    caplog.set_level("INFO")
    site = previewed(course)
    assert ids == []
    assert "The audio of 1 exercise is left out until a build has rendered it." in caplog.text
    assert audio_of(course.page("weeks/week-03")) == []
    assert "og:audio" not in course.page("x/steady")
    assert len(audio_of(course.page("weeks/week-02"))) == 4
    assert (site / "x/accented-paradiddle/goal.mp3").exists()
    assert (site / PLAYED / "sounds.json").exists()


def test_a_preview_follows_the_folder_of_sounds(course: Course) -> None:
    own(course, {"pad-tap-1.wav": tone()})
    course.save_settings()
    config = load_config(str(course.root / "mkdocs.yml"))
    config.plugins.on_startup(command="serve", dirty=False)
    from mkdocs.commands.build import build

    build(config)
    server = LiveReloadServer(lambda: None, "127.0.0.1", 0, str(course.site))
    config.plugins.on_serve(server, config=config, builder=build)
    assert str(course.root / "sounds") in server._watched_paths
    server.server_close()


def test_a_site_with_nothing_to_play_publishes_no_sounds(course: Course) -> None:
    for page in (course.root / "docs/weeks").iterdir():
        page.unlink()
    course.write("docs/index.md", "# No patterns\n")
    # The tool's own pages hold examples.
    course.write("docs/key.md", "# A key of my own\n")
    course.write("docs/warm-up.md", "---\nsafe-practice: warm-up\n---\n\n# A warm-up of my own\n\nTake your time.\n")
    course.build()
    assert not (course.site / PLAYED).exists()
    course.write("docs/index.md", "# A pattern\n\n```pattern\nexample: yes\nhands: RLRL\n```\n")
    course.build()
    assert (course.site / PLAYED / "sounds.json").exists()
    assert not list(course.site.rglob("*.mp3"))


def test_the_handbook_names_every_sound() -> None:
    page = (Path(__file__).parents[2] / "docs/handbook/sound.md").read_text(encoding="utf-8")
    rows = dict(re.findall(r"^\| ([a-z ]+) \| (.+) \|$", page, re.M))
    named = {row: re.findall(r"`([a-z-]+)`", rows[row]) for row in ("places", "levels", "the click")}
    stems = {f"{place}-{level}" for place in named["places"] for level in named["levels"]} | {*named["the click"]}
    assert stems == {f"{voice.instrument.replace(' ', '-')}-{voice.level}" for voice in VOICES}


def test_a_folder_of_sounds_that_is_wrong_fails_a_build_of_this_process(course: Course) -> None:
    own(course, {"cowbell-loud-1.wav": tone()})
    with pytest.raises(Abort):
        course.build()
    assert not course.site.exists()
