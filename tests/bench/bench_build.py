"""How long and how large a build is, against the same pages with plain code fences and no plugin.

A generated course, three two-bar patterns a lesson. Every figure is the second build (the first fills
the caches), each in a process of its own; the smallest of the runs is told, on one core. The sound is left
out: see ``bench_sound_build.py``.

    python tests/bench/bench_build.py [LESSONS ...]
"""

from __future__ import annotations

import json
import os
import random
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

RUNS = 3
STICKINGS = ("R>LRR L>RLL", "R>LR>L L>RL>R", "RRLL R>RLL", "lR>LRL rL>RLR", "R>LLR (L)R(R)L", "R/LR/L RLRL")
WORDS = (
    "Let the stick fall from its height and wait where it comes to rest. The hand that leads stays loose, the other "
    "one listens. Count aloud, and stop when the count stops."
)

# A hook that takes the sound out of a build.
MUTE = """\
from wristwork.site.audio.sounds import Sounds

Sounds.__init__ = lambda self, *_: setattr(self, "problems", [])
Sounds.names = lambda self, placed: ()
Sounds.render = Sounds.write = Sounds.write_kit = lambda self, *_: None
"""


def pattern(lesson: int, number: int, chance: random.Random) -> str:
    bars = " | ".join(" ".join(chance.choice(STICKINGS) for _ in range(2)) for _ in range(2))
    title = f"Lesson {lesson}, number {number}"
    return f"id: lesson-{lesson}-{number}\ntitle: {title}\ntempo: 60 to 100 by 4\nhands: {bars}"


def lesson_text(lesson: int, fence: str, chance: random.Random) -> str:
    """A week's page with its three patterns in fences of that name."""
    week = f"week: {lesson}\n" if lesson < 1000 else ""  # weeks have at most three digits
    front = f"{week}title: Week {lesson}\ngrade: 2\nminutes: 20\naim: An aim."
    parts = [f"---\n{front}\n---\n\n# Week {lesson}\n"]
    for number in range(3):
        block = f"```{fence}\n{pattern(lesson, number, chance)}\n```"
        parts.append(f"## Number {number}\n\n{WORDS}\n\n{block}\n\n{WORDS}\n")
    return "\n".join(parts)


def write_course(root: Path, lessons: int, plain: bool, sound: bool = False) -> None:
    """The pages of the course; ``plain`` writes the patterns as ordinary code and leaves the plugin out."""
    chance = random.Random(7)
    for lesson in range(1, lessons + 1):
        page = root / "docs" / f"week-{lesson:04}.md"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(lesson_text(lesson, "text" if plain else "pattern", chance))
    (root / "docs" / "index.md").write_text("# A course\n\nA generated course.\n")
    plugins = "[search]" if plain else "[search, wristwork: {checks: 'off'}]"
    (root / "mkdocs.yml").write_text(
        "site_name: A course\nsite_url: https://course.example/\n"
        f"theme: {{name: material, font: false}}\nplugins: {plugins}\n{'' if plain or sound else 'hooks: [mute.py]'}\n"
    )
    (root / "mute.py").write_text(MUTE)


def build(root: Path) -> tuple[float, float]:
    """Seconds of processor time and the peak memory in megabytes of one build."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        subprocess.run(
            [sys.executable, "-m", "mkdocs", "build", "-q"],
            cwd=root,
            check=True,
            env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
            stderr=subprocess.DEVNULL,
        )
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        os.write(writing, json.dumps([used.ru_utime + used.ru_stime, used.ru_maxrss / 1024]).encode())
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as answer:
        seconds, megabytes = json.loads(answer.read())
    os.waitpid(child, 0)
    return seconds, megabytes


def measure(lessons: int, plain: bool) -> tuple[float, float, float]:
    """The first build's seconds, then the best of the later ones with its memory."""
    with tempfile.TemporaryDirectory() as folder:
        write_course(Path(folder), lessons, plain)
        first, _ = build(Path(folder))
        later = [build(Path(folder)) for _ in range(RUNS)]
    return first, min(seconds for seconds, _ in later), min(megabytes for _, megabytes in later)


def main() -> None:
    print(f"lessons × 3 patterns, sound left out; seconds of processor time, best of {RUNS} later builds; peak memory")
    for lessons in map(int, sys.argv[1:] or ("100", "300", "1000")):
        _, plain_seconds, plain_memory = measure(lessons, plain=True)
        first, seconds, memory = measure(lessons, plain=False)
        print(
            f"{lessons:5} lessons: first {first:6.1f} s, later {seconds:6.1f} s "
            f"({1000 * seconds / lessons:5.1f} ms a lesson), plain {plain_seconds:6.1f} s, "
            f"ratio {seconds / plain_seconds:4.2f} (aim 1.5); memory {memory:4.0f} MB, "
            f"plain {plain_memory:4.0f} MB, ratio {memory / plain_memory:4.2f} (aim 1.5)",
            flush=True,
        )


if __name__ == "__main__":
    main()
