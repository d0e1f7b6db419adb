"""The sound of a site: audio previews of its exercises, and the sounds that the player plays.

All of it is made once and kept by content. Where everything is kept already nothing that makes sound is
loaded, not even to learn what the kit sounds like: the keys are kept as well.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from wristwork.site.audio.sound_folder import FOLDER, faults, read_sounds, sounds_key
from wristwork.site.reading.course_site import Placed
from wristwork.sound.cache import (
    are_there,
    forget_unused,
    oneshot_files,
    oneshots_at,
    oneshots_key,
    preview_key,
    previews_at,
    render_all,
)
from wristwork.sound.schedule import preview_names
from wristwork.store.cache import Cache
from wristwork.store.kept_keys import KeptKeys
from wristwork.store.ledger import Ledger
from wristwork.wording import counted

if TYPE_CHECKING:
    from wristwork.sound.kit import Kit

# Where the player looks for its sounds: beside the folder of its scripts.
PUBLISHED = "assets/wristwork/sounds"

TELL_EVERY = 5.0  # seconds between two lines on how far the rendering is

Tell = Callable[[str], None]


class Sounds:
    """The sounds of one build.

    ``root`` is the course's folder, ``work`` the one for what is made anew at any time. What is wrong with the
    tutor's own sounds is in ``problems``, a line each; the kit is then the made one. Unless it ``renders``, as in a
    preview of the site, exercises are heard as far as their audio is kept already.
    """

    def __init__(self, root: Path, work: Path, cache: Cache, renders: bool) -> None:
        self._folder = work / "sound"
        self._heard = KeptKeys(work / "heard.json")
        self._renders = renders
        self._own, self.problems = read_sounds(root / FOLDER)
        # The key of a kit is kept once its sounds were found good.
        if self._own and not cache.keep(".kit", sounds_key(self._own)).exists():
            self.problems += faults(self._own)
        if self.problems:
            self._own = {}
        self._kit_key = cache.text(".kit", sounds_key(self._own), lambda: oneshots_key(self._kit))
        self._used: set[Path] = set()

    def names(self, placed: Placed) -> tuple[str, ...]:
        """The names of the audio files that an exercise has in its own place."""
        if self._renders or are_there(self._previews(placed)):
            return preview_names(placed.pattern)
        return ()

    def render(self, exercises: Iterable[Placed], tell: Tell) -> None:
        """Make the audio that is missing, or tell that it waits for a build."""
        missing = [placed.pattern for placed in exercises if not are_there(self._previews(placed))]
        if missing and self._renders:
            render_all(missing, self._kit, self._folder, progress=_Progress(tell))
        elif missing:
            tell(f"The audio of {counted(len(missing), 'exercise')} is left out until a build has rendered it.")

    def write(self, site_dir: Path, ledger: Ledger, exercises: Iterable[Placed]) -> None:
        """Put the audio of the exercises into their places, whose folders are there."""
        for placed in exercises:
            files = self._previews(placed)
            for name in self.names(placed):
                self._place(site_dir, ledger, f"{placed.folder}{name}", files[name], files[name].name)
        self._heard.save()

    def write_kit(self, site_dir: Path, ledger: Ledger) -> None:
        """Publish what the player plays with, for a site that has something to play."""
        (site_dir / PUBLISHED).mkdir(parents=True, exist_ok=True)
        files = oneshots_at(self._folder, self._kit_key) or oneshot_files(self._kit, self._folder)
        for name, path in files.items():
            self._place(site_dir, ledger, f"{PUBLISHED}/{name}", path, self._kit_key)

    def forget_unused(self) -> None:
        """Remove what is kept and was not placed by this build."""
        forget_unused(self._folder, self._used)

    def _place(self, site_dir: Path, ledger: Ledger, address: str, kept: Path, key: str) -> None:
        self._used.add(kept)
        ledger.place(site_dir, address, key, lambda: kept)

    def _previews(self, placed: Placed) -> dict[str, Path]:
        """Where the audio of an exercise is kept or will be, by name."""
        # An exercise's own key says all that can be heard of it, but changes with its title as well.
        key = self._heard.key(f"{placed.key} {self._kit_key}", lambda: preview_key(placed.pattern, self._kit))
        return previews_at(self._folder, key, placed.pattern)

    @cached_property
    def _kit(self) -> Kit:
        from wristwork.sound.kit import Kit

        if not self._own:
            return Kit()
        from wristwork.sound.own import own_sounds

        return Kit(own_sounds(self._own))


class _Progress:
    """Tells how far a rendering is: at its start, every few seconds, at its end."""

    def __init__(self, tell: Tell) -> None:
        self._tell = tell
        self._told_at = 0.0

    def __call__(self, done: int, count: int) -> None:
        now = time.monotonic()
        if done == 0:
            self._tell(
                f"Rendering the audio of {counted(count, 'exercise')}. Next time what did not change is there already."
            )
        elif done < count and now - self._told_at < TELL_EVERY:
            return
        else:
            self._tell(f"Rendered the audio of {done} of {counted(count, 'exercise')}.")
        self._told_at = now
