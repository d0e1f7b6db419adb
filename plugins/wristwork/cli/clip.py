"""``wristwork clip``: exercises as short films for messages."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path

from wristwork.cli.course_files import CourseFiles, read_files
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.files import write_whole
from wristwork.languages.say import say
from wristwork.site.audio.codecs import INSTALL, MISSING, has_codecs
from wristwork.site.audio.sounds import Sounds
from wristwork.site.film.clips import Clips
from wristwork.site.film.layout import SQUARE, UPRIGHT
from wristwork.site.mkdocs.looking import read_look
from wristwork.site.reading.course_site import Placed
from wristwork.store.store import Store
from wristwork.wording import nearest

_SUFFIX = ".mp4"


def make_clips(ids: Sequence[str], is_upright: bool, folder: Path, target: Path | None, paint: Paint) -> int:
    """Write the film of each exercise to a file of its own; returns the exit code."""
    if not has_codecs():
        raise Trouble(say(MISSING), say(INSTALL))
    files = read_files(folder)
    found = [_exercise(name, files) for name in ids]
    shape, ending = (UPRIGHT, f"-upright{_SUFFIX}") if is_upright else (SQUARE, _SUFFIX)
    with tempfile.TemporaryDirectory() as kept:
        sounds = Sounds(folder, Store(Path(kept) / "kept"), renders=True)
        look = read_look(files.config, files.own).look
        clips = Clips(files.config.site_name, files.config.site_url or None, look, sounds.fresh_kit, sounds.kit_key)
        for placed in found:
            path = _path(f"{placed.id}{ending}", target, is_only_one=len(found) == 1)
            try:
                write_whole(path, clips.film(placed, shape))
            except OSError as error:
                cause = say("{file} can't be written ({reason})", file=path, reason=error.strerror)
                raise Trouble(cause, say("name another place with --to")) from error
            paint.line(paint.styled("good", say("Made {file}", file=path)))
    return 0


def _exercise(name: str, files: CourseFiles) -> Placed:
    placed = files.site.exercises.get(name)
    if placed is None:
        near = nearest(name, files.site.exercises)
        remedy = say("did you mean {near}?", near=near) if near else say("its id is the last part of its address")
        raise Trouble(say("there is no exercise '{name}' in this course", name=name), remedy)
    return placed


def _path(name: str, target: Path | None, is_only_one: bool) -> Path:
    """Where a film goes: several go into a folder."""
    if target is None:
        return Path(name)
    if target.suffix.lower() != _SUFFIX or target.is_dir():
        return target / name
    if not is_only_one:
        found = say("{file} is one file, and several clips are asked for", file=target)
        raise Trouble(found, say("name a folder, as in --to clips"))
    return target
