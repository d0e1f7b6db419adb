"""Rendered sound, kept in a folder by what it was made from. With :mod:`wristwork.sound.rendering` the
only part of the sound that touches files.

A file's name holds a digest of all that decides its content: the strokes, the tempos, the kit's own
sounds, and the code that renders. So nothing kept is ever stale, and an exercise that did not change
costs a look into the folder. Files appear whole or not at all.

The libraries that render are only loaded when something is rendered.
"""

from __future__ import annotations

import hashlib
import json
import os
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import wristwork.sound
from wristwork.files import PART, write_whole
from wristwork.pattern.model import Pattern
from wristwork.sound.schedule import preview_names
from wristwork.technique.strokes import strokes

if TYPE_CHECKING:
    from wristwork.sound.kit import Kit

Progress = Callable[[int, int], None]

MANIFEST_FILE = "sounds.json"

ABANDONED_AFTER = 3600.0  # seconds after which a file that was never finished is nobody's any more


def preview_files(pattern: Pattern, kit: Kit, folder: Path) -> dict[str, Path]:
    """Where the previews of a pattern are kept, by the names they have on the site."""
    return previews_at(folder, preview_key(pattern, kit), pattern)


def previews_at(folder: Path, key: str, pattern: Pattern) -> dict[str, Path]:
    """:func:`preview_files` for who knows the pattern's :func:`preview_key` already."""
    return {name: folder / key[:2] / f"{key}-{name}" for name in preview_names(pattern)}


def are_there(files: Mapping[str, Path]) -> bool:
    """Whether all of these files have been made."""
    return all(path.exists() for path in files.values())


def preview_key(pattern: Pattern, kit: Kit) -> str:
    """The same for patterns whose previews are the same on this kit."""
    told = [pattern.tempo.start, pattern.tempo.goal, pattern.time.beats, pattern.beats, pattern.repeat, pattern.loop]
    sounding = [
        (str(s.at), s.level, s.kind, s.on, str(s.length), s.ahead_ms, str(s.ahead_at_most)) for s in strokes(pattern)
    ]
    return _digest("previews", kit.digest, json.dumps([told, sounding]))


def render_all(
    patterns: Sequence[Pattern], kit: Kit, folder: Path, workers: int | None = None, progress: Progress | None = None
) -> list[dict[str, Path]]:
    """Render what is not in the folder yet; where the previews of each pattern are, in order.

    ``workers``: how many processes at most (None: one for each core). ``progress`` is told how many of the missing
    exercises are done and how many there are, first with 0; never if none is missing.
    """
    kept = [preview_files(pattern, kit, folder) for pattern in patterns]
    # By place, so that exercises that sound the same are rendered once.
    missing = {
        tuple(found.values()): (pattern, found)
        for pattern, found in zip(patterns, kept, strict=True)
        if not are_there(found)
    }
    if missing:
        from wristwork.sound.rendering import rendered

        tell = progress or (lambda _done, _count: None)
        tell(0, len(missing))
        done = 0
        for more in rendered(list(missing.values()), kit, workers or os.cpu_count() or 1):
            done = min(done + more, len(missing))
            tell(done, len(missing))
    return kept


def oneshot_files(kit: Kit, folder: Path) -> dict[str, Path]:
    """The player's sounds and their manifest (:data:`MANIFEST_FILE`), made if they are not in the folder yet."""
    key = oneshots_key(kit)
    return oneshots_at(folder, key) or _make_oneshots(kit, _home(folder, key))


def oneshots_key(kit: Kit) -> str:
    """The same for kits whose one-shots are the same."""
    return _digest("oneshots", kit.digest)


def oneshots_at(folder: Path, key: str) -> dict[str, Path] | None:
    """What :func:`oneshot_files` gives for the kit of this :func:`oneshots_key`, or None where it is not made yet."""
    home = _home(folder, key)
    if not (home / MANIFEST_FILE).exists():  # it is written last
        return None
    files = _listed(home)
    return files if are_there(files) else None


def forget_unused(folder: Path, used: Iterable[Path]) -> None:
    """Remove every file that is not among those ``used``, and what an interrupted build left half written."""
    keep = {os.fspath(path) for path in used}
    long_ago = time.time() - ABANDONED_AFTER
    for home, _, names in os.walk(folder, topdown=False):
        for name in names:
            path = os.path.join(home, name)
            if path not in keep and not (name.endswith(PART) and os.stat(path).st_mtime > long_ago):
                os.unlink(path)
        if not os.listdir(home):
            os.rmdir(home)


def _home(folder: Path, key: str) -> Path:
    return folder / f"kit-{key}"


def _make_oneshots(kit: Kit, home: Path) -> dict[str, Path]:
    from wristwork.sound.oneshots import manifest, oneshots

    for name, content in oneshots(kit).items():
        write_whole(home / name, content)
    write_whole(home / MANIFEST_FILE, json.dumps(manifest(kit), sort_keys=True, separators=(",", ":")).encode())
    return _listed(home)


def _listed(home: Path) -> dict[str, Path]:
    """The files that the manifest in a folder speaks of, and itself."""
    told = json.loads((home / MANIFEST_FILE).read_bytes())
    washes = [wash["file"] for wash in told["washes"].values()]
    return {name: home / name for name in (*told["gain"], *washes, MANIFEST_FILE)}


def _digest(*parts: str) -> str:
    told = hashlib.sha256(_code_digest().encode())
    for part in parts:
        told.update(f"{len(part)}:{part}".encode())
    return told.hexdigest()[:40]


@cache
def _code_digest() -> str:
    """A digest of the code that makes the sound: whatever other code made is not used."""
    told = hashlib.sha256()
    home = Path(wristwork.sound.__file__).parent
    for source in sorted(home.rglob("*.py")):
        told.update(source.relative_to(home).as_posix().encode() + b"\0" + source.read_bytes() + b"\0")
    return told.hexdigest()
