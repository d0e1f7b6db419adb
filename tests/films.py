"""Films of strokes for the tests: a grey picture, and sound."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np

RATE = 44_100
PICTURES = 10  # a second


def write_film(path: Path, sound: np.ndarray) -> None:
    """A video of this mono sound (at 44.1 kHz) in a format that the browser of the tests plays."""
    with av.open(str(path), "w", format="webm") as film:
        seen = film.add_stream("libvpx", rate=PICTURES, options={"deadline": "realtime", "cpu-used": "8"})
        seen.width, seen.height, seen.pix_fmt = 64, 48, "yuv420p"
        heard = film.add_stream("libopus", rate=48_000, layout="mono")
        resampler = av.AudioResampler(format="flt", layout="mono", rate=48_000)
        for number in range(round(len(sound) / RATE * PICTURES)):
            frame = av.VideoFrame.from_ndarray(np.full((48, 64, 3), 90 + number % 60, np.uint8), format="rgb24")
            frame.pts, frame.time_base = number, Fraction(1, PICTURES)
            film.mux(seen.encode(frame))
        whole = av.AudioFrame.from_ndarray(sound[np.newaxis, :].astype(np.float32), format="flt", layout="mono")
        whole.sample_rate, whole.pts, whole.time_base = RATE, 0, Fraction(1, RATE)
        for frame in (*resampler.resample(whole), *resampler.resample(None)):
            film.mux(heard.encode(frame))
        for stream in (seen, heard):
            film.mux(stream.encode(None))
