"""How long a pattern takes from text to diagram, and what three of them add to a page.

python tests/bench/bench_diagram.py
"""

from __future__ import annotations

import gzip
import re
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.site.courses import Course

from wristwork.drawing import diagram
from wristwork.pattern import read_one
from wristwork.technique.strokes import strokes

SAMPLES = 1000
TWO_BARS = "R>LRR L>RLL R>LRR L>RLL | R>LR>L L>RL>R R>LRR L>RLL"
KIT = "feet: R L R L\nplace: right on ride, left on snare, accents on high tom then floor tom"
PLAIN = "title: Two bars\ntempo: 60 to 100 by 4"
LONGEST = "title: As long as can be\nhands: " + " | ".join([" ".join(["RLRLRLRLRLRL"] * 4)] * 64)
KINDS = (".html", ".css", ".js")
LESSON = "---\nweek: 1\ntitle: A lesson\naim: An aim.\n---\n\n# A lesson\n\nWords.\n"


def milliseconds(text: str, samples: int) -> list[float]:
    """Processor time from text to the row of SVG, strokes worked out on the way, once for each sample."""
    taken = []
    for _ in range(samples):
        strokes.cache_clear()
        start = time.process_time()
        pattern = read_one(text)
        strokes(pattern)
        diagram(pattern).html()
        taken.append(1000 * (time.process_time() - start))
    return taken


def page_weight(fence: str) -> dict[str, int]:
    """Compressed bytes of a lesson page and of what it loads from its own site, by kind."""
    blocks = "\n\n".join(
        f"## {number}\n\nWords.\n\n```{fence}\nid: number-{number}\n{PLAIN}\nhands: {TWO_BARS}\n```"
        for number in ("one", "two", "three")
    )
    with tempfile.TemporaryDirectory() as folder:
        course = Course(Path(folder))
        course.write("docs/weeks/week-01.md", f"{LESSON}\n{blocks}\n")
        course.write("docs/weeks/week-02.md", "# Nothing\n")
        course.build()
        page = course.site / "weeks/week-01/index.html"
        addresses = re.findall(r'<(?:link|script)[^>]+(?:href|src)="([^"]+\.(?:css|js))"', page.read_text())
        files = [page, *((page.parent / address).resolve() for address in dict.fromkeys(addresses))]
        weight = dict.fromkeys(KINDS, 0)
        for file in files:
            weight[file.suffix] += len(gzip.compress(file.read_bytes(), 9))
    return weight


def main() -> None:
    for name, text in (("on the pad", ""), ("round the kit with feet", KIT)):
        taken = milliseconds(f"{PLAIN}\nhands: {TWO_BARS}\n{text}".strip(), SAMPLES)
        print(
            f"text to diagram, two bars of sixteenths {name}: median {statistics.median(taken):.2f} ms, "
            f"95 of 100 under {statistics.quantiles(taken, n=20)[-1]:.2f} ms ({SAMPLES} samples; aim under 2 ms)"
        )
    longest = min(milliseconds(LONGEST, 3))
    print(f"text to diagram, 64 bars of twelve slots a beat: {longest:.0f} ms (best of 3; aim under 1000 ms)")
    with_patterns, without = page_weight("pattern"), page_weight("text")
    more = {kind: (with_patterns[kind] - without[kind]) / 1000 for kind in KINDS}
    print(
        f"three two-bar exercises on a page: {more['.html'] + more['.css']:.1f} kB more compressed in page and styles "
        f"(aim 25 kB), {more['.js']:.1f} kB in scripts, player and sharing with them (aims 25 and 20 kB)"
    )


if __name__ == "__main__":
    main()
