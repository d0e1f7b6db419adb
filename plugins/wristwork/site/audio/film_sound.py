"""The sound of a stretch of a video.

Decoding needs an optional part, see :mod:`wristwork.site.audio.codecs`.
"""

from __future__ import annotations

from itertools import chain
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wristwork.site.audio.codecs import codecs

if TYPE_CHECKING:
    from av.container import InputContainer

RATE = 22_050
LONGEST_S = 300
_BEFORE_S = 0.5  # decoders of sound need a little of what comes before


def film_sound(path: Path, start: int, end: int | None) -> NDArray[np.float32]:
    """What is heard from ``start`` to ``end`` seconds (None: to its end; five minutes at most), mono at :data:`RATE`.

    Nothing where the video has no sound there or can't be read. Raises NoCodecs.
    """
    av = codecs()
    length = min(LONGEST_S, LONGEST_S if end is None else end - start)
    try:
        with av.open(str(path)) as film:
            return _decoded(av, film, start, length)
    except (av.error.FFmpegError, OSError):
        return np.zeros(0, np.float32)


def _decoded(av: ModuleType, film: InputContainer, start: int, length: int) -> NDArray[np.float32]:
    if not film.streams.audio:
        return np.zeros(0, np.float32)
    stream = film.streams.audio[0]
    # A browser counts from where the video begins, whatever its own clock says there.
    begins = start + (film.start_time or 0) / av.time_base
    film.seek(max(0, int((begins - _BEFORE_S) * av.time_base)))
    resampler = av.AudioResampler(format="flt", layout="mono", rate=RATE)
    whole = np.zeros(length * RATE, np.float32)
    reached = 0
    place: int | None = None
    frames = chain(film.decode(stream), [None])  # the last call gives what the resampler still holds
    for frame in frames:
        if frame is not None and place is None:
            place = round((float(frame.time or 0) - begins) * RATE)
        for part in resampler.resample(frame):
            samples = part.to_ndarray().ravel()
            reached = max(reached, _put(whole, samples, place or 0))
            place = (place or 0) + len(samples)
        if place is not None and place >= len(whole):
            break
    return whole[:reached]


def _put(whole: NDArray[np.float32], samples: NDArray[np.float32], place: int) -> int:
    """Put samples at their place, as far as that is within the whole: where they end there."""
    first, last = max(0, place), min(len(whole), place + len(samples))
    if last > first:
        whole[first:last] = samples[first - place : last - place]
    return max(0, last)
