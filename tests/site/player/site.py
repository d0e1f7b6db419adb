"""Pages with exercises on disk: real figures, real data, real scripts; sounds that are easy to find again."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable, Mapping
from html import escape
from pathlib import Path

import numpy as np
import soundfile

from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.pattern import read_one
from wristwork.pattern.model import Drum, Level, Pattern
from wristwork.site.figure.drawn import draw
from wristwork.site.figure.figure import Link, Surroundings, figure
from wristwork.site.frontend.assets import FOLDER as ASSETS
from wristwork.site.frontend.assets import published
from wristwork.site.reading.example_data import example_data
from wristwork.sound.kit import Clip, Kit, Sound
from wristwork.sound.kit.voices import VOICES
from wristwork.sound.oneshots import manifest, oneshots

RATE = 44_100
SCRIPTS = "assets/wristwork/0123456789"
SOUNDS = "assets/wristwork/sounds"

PARADIDDLE = """\
id: accented-paradiddle
title: Accented paradiddle
tempo: 60 to 100 by 4
hands: R>LRR L>RLL R>LRR L>RLL
"""
FLAMS = """\
id: flams-and-drags
title: Flams and drags
tempo: 90
hands: lR>LrlR rL.(R)L/ llR>.R/3. Rz-lR>Lz
note: Let the grace note stay low.
"""
GROOVE = """\
id: first-groove
title: First groove
tempo: 72 to 96
hands: B>RRR RB>RR RRRR RB>RR
feet: R.. .R. R.. ..L
place: right on hi-hat, left on snare, right accents on open hi-hat
"""
ENDING = """\
id: ending
title: An ending
tempo: 120
hands: R>LRL R>---
loop: no
repeat: 2
"""
EXAMPLE = """\
example: yes
title: Singles
hands: RLRL
"""
# What a player has to know beside its sounds, without the seconds that making them takes.
SILENT = Kit(dict.fromkeys(VOICES, (Sound(((Clip("silence", np.zeros(1, np.int16)), 1.0),)),)))
EXERCISES = (PARADIDDLE, FLAMS, GROOVE, ENDING)

PAGE = """\
<!doctype html>
<html lang="en" data-md-color-scheme="{scheme}" data-ww-hearing="hearing.html">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<link rel="icon" href="data:,">
{links}
<style>body {{ background: var(--ww-paper); color: var(--ww-ink); font: 17px/1.6 var(--ww-sans); margin: 0 auto;
max-width: 780px; padding: 16px; }} main {{ display: block; }}</style>
</head>
<body><main><h1>{title}</h1>
{figures}
<p style="height: 1200px">The end of the page.</p></main></body>
</html>
"""


def links(base: str) -> str:
    """What a page of the course loads."""
    styles = [
        f"{base}{SCRIPTS}/{name}.css" for name in ("tokens", "disclosure", "exercise", "diagram", "player", "share")
    ]
    return "".join(f'<link rel="stylesheet" href="{href}">' for href in styles) + (
        f'<script type="module" src="{base}{SCRIPTS}/player.js"></script>'
    )


def write_site(root: Path, texts: Iterable[str] = EXERCISES, scheme: str = "default") -> None:
    """A lesson page with all exercises, and each one's own page and data."""
    patterns = [read_one(text) for text in texts]
    (root / SCRIPTS).mkdir(parents=True, exist_ok=True)
    for source in (path for path in ASSETS.rglob("*") if path.suffix in (".css", ".js")):
        (root / SCRIPTS / source.name).write_bytes(published(source))
    figures = "".join(exercise_figure(pattern, f"x/{pattern.id}/") for pattern in patterns)
    write_page(root / "index.html", "A lesson", figures, "", scheme)
    write_page(root / "hearing.html", "Look after your hearing", "", "", scheme)
    write_page(root / "example.html", "An example", example_figure(EXAMPLE), "", scheme)
    for index, pattern in enumerate(patterns):
        folder = root / "x" / str(pattern.id)
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "exercise.json").write_bytes(json_bytes(exercise_data(pattern, Lesson("index.html"))))
        (folder / "start.mp3").write_bytes(b"")
        after = patterns[(index + 1) % len(patterns)]
        own = str(exercise_figure(pattern, "")).replace("<figure", f'<figure data-ww-next="../{after.id}/"', 1)
        write_page(folder / "index.html", str(pattern.title), own, "../../", scheme)


def write_page(file: Path, title: str, figures: str, base: str, scheme: str) -> None:
    page = PAGE.format(title=escape(title), links=links(base), figures=figures, scheme=scheme)
    file.write_text(page, encoding="utf-8")


def exercise_figure(pattern: Pattern, folder: str) -> str:
    sounds = (Link("At 60", f"{folder}start.mp3"), Link("At 100", f"{folder}goal.mp3"))
    return figure(pattern, draw(pattern), Surroundings(folder=folder, sounds=sounds))


def example_figure(text: str) -> str:
    pattern = read_one(text)
    return figure(pattern, draw(pattern), Surroundings(data=example_data(pattern)))


def exercise_json(text: str) -> str:
    """The data of one exercise, as a script would read it."""
    return json.dumps(exercise_data(read_one(text), Lesson("index.html")))


def write_sounds(root: Path, sounds: Mapping[tuple[str, str], list[np.ndarray]]) -> None:
    """One-shots for each place and level, with their list."""
    folder = root / SOUNDS
    folder.mkdir(parents=True, exist_ok=True)
    listed: dict[str, dict[str, list[list[list[str | float]]]]] = {}
    for (place, level), variants in sounds.items():
        for number, samples in enumerate(variants, 1):
            name = f"{place}-{level}-{number}.wav".replace(" ", "-")
            (folder / name).write_bytes(wav(samples))
            listed.setdefault(place, {}).setdefault(level, []).append([[name, 1.0]])
    (folder / "sounds.json").write_text(json.dumps(manifest(SILENT) | {"sounds": listed}))


def write_kit(root: Path) -> None:
    """The real kit as it is published."""
    folder, kit = root / SOUNDS, Kit()
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in oneshots(kit).items():
        (folder / name).write_bytes(content)
    (folder / "sounds.json").write_text(json.dumps(manifest(kit)))


def wav(samples: np.ndarray) -> bytes:
    file = io.BytesIO()
    soundfile.write(file, samples, RATE, format="WAV", subtype="FLOAT")
    return file.getvalue()


def ticks() -> dict[tuple[str, str], list[np.ndarray]]:
    """One sample long each, so that a rendering shows exactly where each stroke stands."""
    heights = {"ghost": 0.03125, "tap": 0.0625, "accent": 0.125}
    voices = {(drum.value, level.value): heights[level.value] for drum in Drum for level in Level}
    voices |= {("click", "high"): 0.0078125, ("click", "low"): 0.00390625}
    return {voice: [np.array([height] + [0.0] * 7, np.float32)] for voice, height in voices.items()}


def ringing(place: str, level: str, seconds: float, height: float) -> dict[tuple[str, str], list[np.ndarray]]:
    """Ticks, and a sound that rings without fading."""
    return ticks() | {(place, level): [np.full(round(RATE * seconds), height, np.float32)]}


def beeps() -> dict[tuple[str, str], list[np.ndarray]]:
    """Short tones, two for each voice."""
    times = np.arange(RATE // 8) / RATE
    fade = np.exp(-40 * times)
    voices = list(ticks())
    return {
        voice: [(0.2 * fade * np.sin(2 * np.pi * (300 + 20 * number + 5 * take) * times)).astype(np.float32)
                for take in range(2)]
        for number, voice in enumerate(voices)
    }  # fmt: skip
