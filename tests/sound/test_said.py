"""All that is told of a tutor's own sounds is said: nothing of it stays English where another language is spoken."""

from __future__ import annotations

import numpy as np
import pytest

from tests.said import bracketed, unsaid
from tests.sound.test_own_sounds import GOOD, file, recorded
from wristwork.sound.own import OwnSoundsError, own_sounds

WRONG = {
    "snare-acent-1.wav": GOOD,
    "xyzzy.wav": GOOD,
    "snare-accent-0.wav": GOOD,
    "README": GOOD,
    "pad-tap-1.flac": GOOD,
    "pad-tap-1.wav": GOOD,
    "pad-tap-2.wav": file(recorded(rate=96_000), 96_000),
    "pad-tap-3.wav": file(recorded(6.5)),
    "pad-tap-4.wav": file(recorded(0.005)),
    "pad-tap-5.wav": file(np.zeros(0)),
    "pad-tap-6.wav": file(recorded(size=0.0005)),
    "pad-tap-7.wav": b"nothing that sounds",
    "pad-tap-8.wav": file(recorded(), kind="AIFF"),
    "pad-tap-9.wav": file(np.full(9000, np.nan), subtype="FLOAT"),
}


def test_everything_that_is_wrong_with_a_sound():
    with bracketed(), pytest.raises(OwnSoundsError) as told:
        own_sounds(WRONG)
    problems = told.value.problems
    assert len(problems) == len(WRONG) - 1
    assert [unsaid(text) for each in problems for text in (each.found, each.remedy)] == [""] * 2 * len(problems)
