"""The sound of a stretch of a video, and what is said where it can't be had."""

from __future__ import annotations

import sys
from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest

from tests.films import RATE as FILMED
from tests.films import write_film
from tests.sound.made_patterns import pattern
from tests.sound.take.played import take
from wristwork.site.audio.codecs import NoCodecs
from wristwork.site.audio.film_sound import RATE, film_sound
from wristwork.site.audio.takes import INSTALL, Takes
from wristwork.site.reading.course_site import Placed
from wristwork.store.store import Store


@pytest.fixture(scope="module")
def film(tmp_path_factory):
    """Six seconds with a click at each second from the first on."""
    path = tmp_path_factory.mktemp("film") / "clicks.webm"
    sound = np.zeros(6 * FILMED)
    for second in range(1, 6):
        sound[second * FILMED : second * FILMED + 400] = 0.8 * np.sin(np.arange(400) * 0.5) * np.hanning(400)
    write_film(path, sound)
    return path


@pytest.mark.parametrize(
    ("start", "end", "clicks"), [(0, None, [1, 2, 3, 4, 5]), (2, 5, [1, 2]), (3, 4, []), (9, 11, [])]
)
def test_the_stretch_begins_where_it_says(film, start, end, clicks):
    wave = film_sound(film, start, end)
    loud = np.flatnonzero(np.abs(wave) > 0.1) / RATE
    begun = loud[np.diff(loud, prepend=-1) > 0.5]
    assert np.round(begun[begun > 0.1]).tolist() == clicks
    assert np.abs(begun - np.round(begun)).max(initial=0) < 0.012


def test_what_is_no_film_is_silent(tmp_path):
    nothing = tmp_path / "nothing.mp4"
    nothing.write_bytes(b"no film at all")
    assert len(film_sound(nothing, 0, 5)) == 0
    assert len(film_sound(tmp_path / "not-there.mp4", 0, None)) == 0


def test_without_the_library_a_build_can_say_so(film, tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "av", None)
    with pytest.raises(NoCodecs):
        film_sound(film, 0, 5)
    exercise = cast(Placed, SimpleNamespace(id="one", pattern=pattern("RLRL", video=f"{film.name} at 0:00 to 0:05")))
    takes = Takes(film.parent, Store(tmp_path))
    assert takes.fit(exercise) is None
    assert list(takes.notes([exercise])) == [INSTALL]


def test_what_was_listened_to_once_is_kept_for_where_nothing_can_listen(tmp_path, monkeypatch):
    made = pattern("R>LRR L>RLL R>LRR L>RLL", tempo="80", video="played.webm at 0:01")
    write_film(tmp_path / "played.webm", take(made, 80, 2, before=2))
    exercise = cast(Placed, SimpleNamespace(id="one", pattern=made))
    store = Store(tmp_path / "kept")
    fit = Takes(tmp_path, store).fit(exercise)
    assert fit is not None
    assert fit.zero_s == pytest.approx(2, abs=0.012)
    monkeypatch.setitem(sys.modules, "av", None)
    assert Takes(tmp_path, store).fit(exercise) == fit
