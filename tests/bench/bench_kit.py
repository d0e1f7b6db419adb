"""Where each made drum lies among recorded ones.

    python tests/bench/bench_kit.py

For every figure of ``stroke_figures`` it tells whether the median of the made sounds lies between the tenth and the
ninetieth percentile of recorded strokes, accents among the louder ones and ghost notes among the softer ones.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

from tests.bench.stroke_figures import figures

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, voice_of

RECORDED = Path(__file__).with_name("recorded_strokes.json")
# The bounds of a fundamental in hertz, where one is looked for.
FUNDAMENTALS = {Drum.HIGH_TOM: (80.0, 260.0), Drum.MID_TOM: (65.0, 200.0), Drum.FLOOR_TOM: (45.0, 140.0)}
EFFORTS = {Level.ACCENT: "loud", Level.GHOST: "soft"}
BRIGHTER = "brightness loud to soft"


class Standing(NamedTuple):
    """One figure of a drum: what it is, and the tenth, the middle and the ninetieth percentile of the recorded ones."""

    drum: Drum
    figure: str
    made: float
    low: float
    middle: float
    high: float

    @property
    def is_inside(self) -> bool:
        """Whether most recorded drums lie about there too."""
        return self.low <= self.made <= self.high


def recorded() -> dict[str, Any]:
    """Figure by figure of the recorded strokes, by drum and by how loud they are."""
    found: dict[str, Any] = json.loads(RECORDED.read_text(encoding="utf-8"))["drums"]
    return found


def standings(drum: Drum, kit: Kit) -> Iterator[Standing]:
    """Every figure of a drum that there are recordings of."""
    told = recorded()[drum.value]
    centroids = {}
    for level, effort in EFFORTS.items():
        made = [figures(sound.samples, FUNDAMENTALS.get(drum)) for sound in kit.sounds(voice_of(drum, level))]
        centroids[effort] = median(found["centroid Hz"] for found in made)
        for figure, bounds in told[effort].items():
            yield Standing(drum, f"{level}: {figure}", median(found[figure] for found in made), *bounds)
    if told[BRIGHTER]:
        yield Standing(drum, BRIGHTER, centroids["loud"] / centroids["soft"], *told[BRIGHTER])


def main() -> None:
    """Print the share of figures inside, drum by drum, and those that are not."""
    kit = Kit()
    everything: list[Standing] = []
    for drum in (drum for drum in Drum if drum.value in recorded()):
        found = list(standings(drum, kit))
        everything += found
        print(f"{drum.value}: {sum(one.is_inside for one in found)} of {len(found)} figures inside p10-p90")
        for one in found:
            if not one.is_inside:
                print(f"    {one.figure}: {one.made:.4g}, recorded {one.low:.4g} to {one.high:.4g} ({one.middle:.4g})")
    inside = sum(one.is_inside for one in everything)
    print(f"together: {inside} of {len(everything)}, {100 * inside / len(everything):.0f} %")


if __name__ == "__main__":
    main()
