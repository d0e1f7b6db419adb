"""Waveform → MP3 bytes, and back."""

from __future__ import annotations

import io

import lameenc
import numpy as np
import soundfile

from wristwork.sound.kit.samples import FULL_SCALE, RATE
from wristwork.sound.mixing import Waveform

KILOBITS = 96
QUALITY = 7  # the quickest: at this rate its error on these sounds is no larger than that of 5, which takes longer
SCALED_BY = 0.95  # the encoder takes that much off, so that loud music does not clip; ours has room


def encoded(wave: Waveform) -> bytes:
    """The waveform as a mono MP3 of constant bit rate, without tags: the same bytes for the same samples."""
    encoder = lameenc.Encoder()
    encoder.silence()
    encoder.set_channels(1)
    encoder.set_in_sample_rate(RATE)
    encoder.set_bit_rate(KILOBITS)
    encoder.set_quality(QUALITY)
    values = np.clip(np.round(wave * (FULL_SCALE / SCALED_BY)), -FULL_SCALE, FULL_SCALE).astype("<i2")
    return bytes(encoder.encode(values.tobytes())) + bytes(encoder.flush())


def decoded(file: bytes) -> Waveform:
    """The waveform that an MP3 holds, with the encoder's delay (somewhat over a thousand samples) in front."""
    wave: Waveform = soundfile.read(io.BytesIO(file), dtype="float32")[0]
    return wave
