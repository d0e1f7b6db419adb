"""What the sound adds to a build: 300 two-bar exercises, three a lesson, against the same course without it.

The first build renders everything, on all cores; it is timed by the clock. A later build finds everything kept;
of several the smallest is told, in processor time, so that other work on the machine does not count.

    python tests/bench/bench_sound_build.py [LESSONS]
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path

from bench_build import build, write_course

LESSONS = 100
RUNS = 5


def later_builds(root: Path) -> float:
    return min(build(root)[0] for _ in range(RUNS))


def main(lessons: int) -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
        heard, mute = Path(one), Path(other)
        write_course(heard, lessons, plain=False, sound=True)
        write_course(mute, lessons, plain=False)
        build(mute)
        began = time.perf_counter()
        used, _ = build(heard)
        cold = time.perf_counter() - began
        sizes = [path.stat().st_size for path in (heard / "site").glob("x/*/*.mp3")]
        print(
            f"{3 * lessons} exercises, {os.cpu_count()} cores: first build {cold:.1f} s (aim 90 for 300), "
            f"{used:.1f} s of processor time; {len(sizes)} audio files, {sum(sizes) / 1e6:.1f} MB"
        )
        silent = later_builds(mute)
        with_sound = later_builds(heard)
        print(
            f"a later build: {with_sound:.2f} s of processor time, without sound {silent:.2f} s, "
            f"ratio {with_sound / silent:.2f} (aim 1.1)"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else LESSONS)
