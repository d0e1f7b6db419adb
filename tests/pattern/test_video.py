"""Where an exercise is shown in a video, as it is typed."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.pattern import read_one
from wristwork.pattern.problems import PatternError
from wristwork.pattern.video_span import VideoSpan, clock


def video(text: str) -> VideoSpan | None:
    return read_one(f"example: yes\ntitle: One\nhands: RL RL RL RL\nvideo: {text}\n").video


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("videos/lesson-3.mp4 at 3:46 to 4:12", VideoSpan("videos/lesson-3.mp4", None, 226, 252)),
        ("at the pad.webm from 9 to 1:00:01", VideoSpan("at the pad.webm", None, 9, 3601)),
        ("lesson.MP4", VideoSpan("lesson.MP4", None)),
        ("lesson.mp4 at 3:46", VideoSpan("lesson.mp4", None, 226)),
        ("https://film.example/a?b=c at 0:30", VideoSpan(None, "https://film.example/a?b=c", 30)),
    ],
)
def test_what_is_typed_is_what_is_shown(text: str, span: VideoSpan) -> None:
    assert video(text) == span


@pytest.mark.parametrize(
    ("text", "found", "remedy"),
    [
        ("lesson.mp4 at 4:12 to 3:46", "an end that is not after the start", "write the earlier time first"),
        ("lesson.mp4 at 3:46 to 3:46", "an end that is not after the start", "write the earlier time first"),
        ("lesson.mp4 at noon to 3:46", "times that can't be read", "at 3:46 to 4:12"),
        ("lesson.avi", "no video that browsers play", "save it as .mp4"),
        ("../lesson.mp4", "no file of the course", "from the folder of the pages"),
        ("/home/me/lesson.mp4", "no file of the course", "from the folder of the pages"),
        ("C:\\lesson.mp4", "no file of the course", "from the folder of the pages"),
        ("http://film.example/a", "no address", "https://"),
        ("javascript://film.example/a.mp4", "no address", "https://"),
        ("lesson.mp4 at 99999", "beyond twelve hours", "minutes and seconds"),
    ],
)
def test_what_is_wrong_is_said_with_its_remedy(text: str, found: str, remedy: str) -> None:
    with pytest.raises(PatternError) as error:
        video(text)
    assert found in str(error.value)
    assert remedy in str(error.value)
    assert ":4:8:" in str(error.value)


@given(st.integers(0, 43_000), st.integers(1, 200))
def test_times_come_back_as_they_were_written(start: int, length: int) -> None:
    text = f"lesson.mp4 at {clock(start)} to {clock(start + length)}"
    assert video(text) == VideoSpan("lesson.mp4", None, start, start + length)


@given(st.text(alphabet="<>&\"' /.:at to0123mp4", max_size=40))
def test_whatever_is_typed_is_read_or_told(text: str) -> None:
    with suppress(PatternError):
        found = video(text)
        assert found is None or (found.file is None) != (found.url is None)
