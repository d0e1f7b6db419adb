"""How well strokes are heard and judged, and what that costs. Run it: python tests/bench/bench_listening.py"""

from __future__ import annotations

import base64
import gzip
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

import numpy as np
from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.conftest import CHROMIUM
from tests.site.player import site
from tests.site.player.played import CLEAN, FAULTS, Fault, as_asked, as_heard, asked, played
from tests.site.player.server import serving
from tests.site.player.takes import SURFACES, Room, Stroke, matched, take
from tests.site.player.test_listening import FIND, JUDGE, MODULES

from wristwork.site.frontend.assets import published, source

SNRS = (30, 20, 10)
TEMPOS = (40, 60, 100, 150, 200)
SCRIPTS = (
    *("stroke-finder.js", "listen-worklet.js", "heard-fit.js", "judgement.js", "advice.js", "ear.js", "pads.js"),
    *("listen.js", "listen-asked.js", "listen-dots.js", "listen.css"),
)
# The strokes before an accent that a flam or a drag has, in seconds.
ORNAMENTS = {"plain": (), "flams": (0.03,), "drags": (0.09, 0.045)}
TIMED_FIND = f"""async (given) => {{ const find = {FIND}; const start = performance.now();
const told = find(given); return {{ ...told, ms: performance.now() - start }}; }}"""


def ornamented(strokes: list[Stroke], before: tuple[float, ...]) -> list[Stroke]:
    """The strokes, with grace notes before the loud ones where there is room."""
    found = list(strokes)
    for earlier, stroke in zip([None, *strokes], strokes, strict=False):
        if stroke.level < -4 or (earlier and stroke.time - max(before, default=0) - earlier.time < 0.03):
            continue
        found += [Stroke(stroke.time - ahead, -13.0, not stroke.is_right) for ahead in before]
    return sorted(found, key=lambda stroke: stroke.time)


def finding(page: Page, rng: np.random.Generator) -> None:
    """Takes on every surface, at every tempo and noise; rooms, phones, rates and clicks by chance."""
    sums: dict[int, dict[str, list[float]]] = defaultdict(lambda: defaultdict(list))
    spent = heard_s = 0.0
    for surface in SURFACES:
        for ornament, before in ORNAMENTS.items():
            for tempo in TEMPOS if ornament == "plain" else TEMPOS[:3]:
                for snr in SNRS:
                    clicks = (
                        [(0.6 + beat * 60 / tempo, beat % 4 == 0) for beat in range(8)] if rng.random() < 0.4 else []
                    )
                    room = Room(snr, float(rng.choice([0, 0, 0.3, 0.6])), bool(rng.random() < 0.3), clicks,
                                float(rng.choice([-12, -6, 0])), int(rng.choice([44_100, 48_000])))  # fmt: skip
                    jitter = float(rng.choice([0, 0.005, 0.015, 0.04])) * min(1, 60 / tempo)
                    strokes = played(rng, asked("accents", tempo, 2), CLEAN, jitter=jitter, uneven_db=1, offset=0)
                    strokes = ornamented(strokes, before)
                    strokes = [one for one, after in zip(strokes, [*strokes[1:], None], strict=True)
                               if after is None or after.time - one.time > 0.016]  # fmt: skip
                    samples = take(rng, strokes, SURFACES[surface], room)
                    told = page.evaluate(TIMED_FIND, [base64.b64encode(samples.tobytes()).decode(), room.rate])
                    spent, heard_s = spent + told["ms"] / 1000, heard_s + len(samples) / room.rate
                    found = [(one["time"], one["level"]) for one in told["found"]]
                    pairs = matched(found, strokes)
                    into = sums[snr]
                    into["takes"].append(1)
                    into["asked"].append(len(strokes))
                    into["found"].append(len(found))
                    into["hit"].append(len(pairs))
                    for name, apart in (
                        ("late", [found[at][0] - strokes[of].time for at, of in pairs]),
                        ("loud", [found[at][1] - strokes[of].level for at, of in pairs]),
                    ):
                        into[name].extend(np.abs(np.array(apart) - np.median(apart)))
    print("noise   takes  strokes    F     missed extra   time ms 50 %  95 %   level dB 50 %  95 %")
    for snr, into in sums.items():
        hit, all_asked, all_found = (sum(into[name]) for name in ("hit", "asked", "found"))
        late, loud = np.array(into["late"]) * 1000, np.array(into["loud"])
        print(
            f"{snr:3} dB  {len(into['takes']):5}  {all_asked:7.0f}  {2 * hit / (all_asked + all_found):.4f}"
            f"  {all_asked - hit:6.0f} {all_found - hit:5.0f}"
            f"  {np.median(late):12.2f} {np.percentile(late, 95):5.2f}"
            f"  {np.median(loud):13.2f} {np.percentile(loud, 95):5.2f}"
        )
    print(f"finding takes {100 * spent / heard_s:.2f} % of a core")


def judging(page: Page, rng: np.random.Generator) -> None:
    """Whether a planted fault is the one that is named first, and a clean take is blamed for nothing."""
    for name, fault in {"clean, nothing is blamed": CLEAN, **FAULTS}.items():
        right = [named_rightly(page, rng, fault, pattern, tempo, jitter)
                 for pattern in fault.patterns for tempo in (60, 90, 130) for jitter in (0.004, 0.008, 0.012)
                 for _ in range(14)]  # fmt: skip
        print(f"{name:28} {100 * np.mean(right):5.1f} % of {len(right)}")


def named_rightly(page: Page, rng: np.random.Generator, fault: Fault, pattern: str, tempo: int, jitter: float) -> bool:
    strokes = asked(pattern, tempo, 2 if tempo < 80 else 4)
    usual = {"jitter": jitter, "uneven_db": 0.6 + jitter * 60, "offset": float(rng.uniform(0.02, 0.14))}
    found = page.evaluate(JUDGE, [as_asked(strokes), as_heard(played(rng, strokes, fault, **usual))])
    faults = found["faults"] if found else [{"kind": "not judged"}]
    if not fault.kind:
        return not faults
    return bool(faults) and faults[0]["kind"] == fault.kind and fault.side in (None, faults[0].get("side"))


def main() -> None:
    weights = {name: len(gzip.compress(published(source(name)), 9)) for name in SCRIPTS}
    print(f"scripts and styles, gzip: {sum(weights.values())} B", weights)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        root = Path(folder)
        site.write_site(root)
        browser = playwright.chromium.launch(**CHROMIUM)
        with serving(root) as served:
            page = browser.new_page()
            page.goto(served.url)
            page.evaluate(
                """async ([base, names]) => { window.ww = Object.assign({},
                ...await Promise.all(names.map((name) => import(`/${base}/${name}.js`)))); }""",
                [site.SCRIPTS, MODULES],
            )
            rng = np.random.default_rng(int(sys.argv[1]) if len(sys.argv) > 1 else 1)
            finding(page, rng)
            judging(page, rng)
        browser.close()


if __name__ == "__main__":
    main()
