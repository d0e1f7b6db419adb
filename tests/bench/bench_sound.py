"""How fast previews are rendered and encoded, on one core and on several, how large the sounds are.

    python tests/bench/bench_sound.py [EXERCISES]

Times of one core are processor time, so that other work on the machine does not count; those of several are by the
clock.
"""

from __future__ import annotations

import random
import statistics
import sys
import time

from wristwork.pattern import Pattern, read_one
from wristwork.sound.kit import Kit
from wristwork.sound.oneshots import oneshots
from wristwork.sound.preview import preview, preview_tempos, preview_times, previews
from wristwork.sound.rendering import rendered

EXERCISES = 300
WORKERS = 2
STICKINGS = ("R>LRR L>RLL", "R>LR>L L>RL>R", "RRLL R>RLL", "lR>LRL rL>RLR", "R>LLR (L)R(R)L", "R/LR/L RzLz")
PLACES = ("all on pad", "right on hi-hat, left on snare", "right on ride", "accents on high tom then floor tom")


def exercises(count: int) -> list[Pattern]:
    """Different two-bar exercises on the pad and on the kit, every second one with feet."""
    chance = random.Random(3)
    made = []
    for number in range(count):
        hands = " ".join(chance.choice(STICKINGS) for _ in range(4))
        start = chance.randrange(50, 90)
        feet = "\nfeet: R . R ." if number % 2 else ""
        made.append(
            read_one(
                f"id: exercise-{number}\ntitle: Exercise {number}\ntime: 4/4\nplace: {chance.choice(PLACES)}\n"
                f"tempo: {start} to {start + chance.randrange(10, 60)}\nhands: {hands}{feet}"
            )
        )
    return made


def seconds_of_sound(made: Pattern) -> float:
    return sum(float(preview_times(made, tempo).ends) for tempo in preview_tempos(made).values())


def times_real_time(made: list[Pattern], kit: Kit) -> tuple[list[float], list[float]]:
    """How many times faster than it sounds each exercise is rendered alone, and rendered and encoded."""
    rendering, everything = [], []
    for pattern in made:
        sound = seconds_of_sound(pattern)
        began = time.process_time()
        for tempo in preview_tempos(pattern).values():
            preview(pattern, tempo, kit)
        rendered = time.process_time()
        previews(pattern, kit)
        rendering.append(sound / (rendered - began))
        everything.append(sound / (time.process_time() - rendered))
    return rendering, everything


def all_rendered(made: list[Pattern]) -> tuple[float, int]:
    """Seconds by the clock, and the bytes of all previews."""
    began = time.perf_counter()
    size = sum(
        len(content) for some in rendered(made, Kit(), WORKERS) for _, files in some for content in files.values()
    )
    return time.perf_counter() - began, size


def main(count: int) -> None:
    """Print the figures."""
    made = exercises(count)
    kit = Kit()
    began = time.process_time()
    previews(made[0], kit)
    for place in PLACES:
        previews(
            read_one(f"id: warm\ntitle: Warm\nplace: {place}\nhands: R>L(R)z. R>L(R)z. RRLL RRLL\nfeet: R R R R"), kit
        )
    print(f"making the sounds they need (first use): {time.process_time() - began:.1f} s of processor time")
    sample = made[:: max(1, count // 30)]
    rendering, everything = times_real_time(sample, kit)
    total = sum(map(seconds_of_sound, sample))
    print(f"{len(sample)} exercises, {total:.0f} s of sound, one core:")
    print(f"  rendering:                       {statistics.median(rendering):7.0f} x real time (median)")
    print(f"  rendering and encoding:          {statistics.median(everything):7.0f} x real time (median)")
    print(f"                                   {min(everything):7.0f} x real time (slowest)")
    seconds, size = all_rendered(made)
    print(f"{count} exercises on {WORKERS} cores: {seconds:.1f} s, {size / 1e6:.1f} MB")
    sounds = oneshots(kit)
    pad = sum(len(content) for name, content in sounds.items() if name.startswith(("pad-", "click-")))
    whole = sum(map(len, sounds.values()))
    print(f"player's sounds: a pad exercise {pad / 1e3:.1f} kB, a full kit {whole / 1e3:.1f} kB, {len(sounds)} files")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else EXERCISES)
