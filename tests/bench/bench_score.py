"""How long a score takes to write and to read, how much it weighs, and whether patterns come back as they were.

python tests/bench/bench_score.py
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from hypothesis import HealthCheck, Phase, given, seed, settings
from tests.exchange.known import known_patterns
from tests.exchange.schema import mistakes
from tests.strategies import pattern_texts

from wristwork.exchange.incoming import Asked, read_file
from wristwork.exchange.score import score_bytes
from wristwork.pattern import Pattern, read_one
from wristwork.technique.strokes import strokes

# Patterns that no test was made with.
HELD_OUT, SEED = 347, 20261126


def held_out() -> list[Pattern]:
    """Random patterns, the same ones every time."""
    found: list[Pattern] = []

    @seed(SEED)
    @settings(
        max_examples=HELD_OUT, database=None, deadline=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(pattern_texts())
    def draw(text: str) -> None:
        found.append(read_one(text))

    draw()
    return found


def played(pattern: Pattern) -> list[tuple[object, ...]]:
    """Time, hand, level and drum of every stroke."""
    return sorted((s.at, s.limb.value, s.level.value, s.on.value) for s in strokes(pattern))


def measure(name: str, patterns: list[Pattern]) -> None:
    """Print the figures for some patterns."""
    writing, reading, sizes, invalid, other = [], [], [], 0, 0
    for pattern in patterns:
        start = time.process_time()
        score = score_bytes(pattern)
        written = time.process_time()
        again = read_file(score, "bench", Asked())
        reading.append(1000 * (time.process_time() - written))
        writing.append(1000 * (written - start))
        sizes.append(len(score))
        invalid += bool(mistakes(score))
        other += played(read_one(again.text)) != played(pattern)
    print(f"{name}: {len(patterns)}; invalid by the schema: {invalid}; other strokes when read back: {other}")
    for what, figures in (("ms to write", writing), ("ms to read", reading), ("bytes", sizes)):
        print(f"  {what}: median {statistics.median(figures):.1f}, most {max(figures):.1f}")


if __name__ == "__main__":
    measure("patterns of the course, the handbook, the rudiments and the hard cases", list(known_patterns().values()))
    measure("held-out patterns", held_out())
