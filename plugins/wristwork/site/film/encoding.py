"""Films as files that any chat plays: H.264 and AAC in MP4.

The encoders are an optional part, see :mod:`wristwork.site.audio.codecs`.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path
from typing import IO, TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wristwork.site.audio.codecs import codecs

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame
    from av.audio.stream import AudioStream
    from av.container import OutputContainer
    from av.video.frame import VideoFrame
    from av.video.stream import VideoStream

Decoder = Callable[[IO[bytes]], NDArray[np.uint8]]
_RATE = 44_100
# ITU-R BT.601, which `_in_yuv` works in and players are told.
_SPACE = "colormatrix=smpte170m:colorprim=smpte170m:transfer=smpte170m"
# With more threads bytes depend on the machine. The tree of macroblocks (mbtree) reads memory that nobody has written:
# with it two films of one exercise differ now and then.
_SAME_BYTES = "threads=1:lookahead-threads=1:sliced-threads=0:no-mbtree=1"
_SAMPLES = 1024  # of a frame of sound
_QUALITY = "27"  # x264's own scale; at 27 letters and lines are clean


def decoded(png: IO[bytes]) -> NDArray[np.uint8]:
    """A picture file as pixels."""
    with codecs().open(png) as container:
        frame = next(container.decode(video=0))
        pixels: NDArray[np.uint8] = frame.to_ndarray(format="rgb24")
    return pixels


def mp4(pictures: Iterator[NDArray[np.uint8]], sound: NDArray[np.float32], rate: int) -> bytes:
    """A film out of pictures, so many a second, and mono sound at 44.1 kHz. The same bytes from the same input."""
    av = codecs()
    first = next(pictures)
    with tempfile.TemporaryDirectory() as folder:  # what comes first in the file is known last
        path = Path(folder, "film.mp4")
        options = {"movflags": "+faststart", "fflags": "+bitexact"}
        with av.open(str(path), "w", format="mp4", options=options) as film:
            seen, heard = _video(film, first, rate), _audio(film)
            frames = _sound_frames(sound)
            for number, picture in enumerate(_again(first, pictures)):
                frame = _frame(picture)
                frame.pts, frame.time_base = number, Fraction(1, rate)
                film.mux(seen.encode(frame))
                for heard_frame in _until(frames, (number + 1) / rate):
                    film.mux(heard.encode(heard_frame))
            for rest in frames:
                film.mux(heard.encode(rest))
            for stream in (seen, heard):
                film.mux(stream.encode(None))
        return path.read_bytes()


def _video(film: OutputContainer, first: NDArray[np.uint8], rate: int) -> VideoStream:
    options = {"crf": _QUALITY, "preset": "veryfast", "x264-params": f"{_SPACE}:{_SAME_BYTES}"}
    stream = film.add_stream("libx264", rate=rate, options=options)
    stream.height, stream.width = first.shape[:2]
    stream.pix_fmt = "yuv420p"
    stream.codec_context.thread_count = 1
    return stream


def _frame(picture: NDArray[np.uint8]) -> VideoFrame:
    """A picture for the encoder, which reads what lies beside the lines too: zeros, not what was there before."""
    height, width = picture.shape[:2]
    frame: VideoFrame = codecs().VideoFrame(width, height, "yuv420p")
    for plane, values in zip(frame.planes, _in_yuv(picture), strict=True):
        room = np.zeros((plane.buffer_size // plane.line_size, plane.line_size), dtype=np.uint8)
        room[: plane.height, : plane.width] = values
        plane.update(room.tobytes())
    return frame


def _in_yuv(picture: NDArray[np.uint8]) -> tuple[NDArray[np.uint8], ...]:
    """Pixels as brightness, then two colours at half the size, in whole numbers as ITU-R BT.601 has it."""
    # 16 bits hold the greatest brightness before it is divided (56,228): half the time that 32 bits take.
    red, green, blue = (picture[..., channel].astype(np.uint16) for channel in range(3))
    luma = ((66 * red + 129 * green + 25 * blue + 128) >> 8) + 16
    half = [_by_fours(channel).astype(np.int32) for channel in (red, green, blue)]
    blueness = ((-38 * half[0] - 74 * half[1] + 112 * half[2] + 512) >> 10) + 128
    redness = ((112 * half[0] - 94 * half[1] - 18 * half[2] + 512) >> 10) + 128
    return luma.astype(np.uint8), blueness.astype(np.uint8), redness.astype(np.uint8)


def _by_fours(channel: NDArray[np.uint16]) -> NDArray[np.uint16]:
    """The sums of two by two pixels."""
    rows = channel[::2] + channel[1::2]
    sums: NDArray[np.uint16] = rows[:, ::2] + rows[:, 1::2]
    return sums


def _audio(film: OutputContainer) -> AudioStream:
    stream = film.add_stream("aac", rate=_RATE, layout="mono")
    stream.bit_rate = 96_000
    return stream


def _sound_frames(sound: NDArray[np.float32]) -> Iterator[AudioFrame]:
    av = codecs()
    for start in range(0, len(sound), _SAMPLES):
        samples = sound[start : start + _SAMPLES]
        frame = av.AudioFrame.from_ndarray(samples[np.newaxis, :].astype(np.float32), format="fltp", layout="mono")
        frame.sample_rate, frame.pts, frame.time_base = _RATE, start, Fraction(1, _RATE)
        yield frame


def _until(frames: Iterator[AudioFrame], seconds: float) -> Iterator[AudioFrame]:
    for frame in frames:
        yield frame
        if (frame.pts or 0) + frame.samples >= seconds * _RATE:
            return


def _again(first: NDArray[np.uint8], rest: Iterator[NDArray[np.uint8]]) -> Iterator[NDArray[np.uint8]]:
    yield first
    yield from rest
