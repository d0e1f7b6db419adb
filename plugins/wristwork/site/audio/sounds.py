"""The sound of a site: audio previews of its exercises, and the sounds that the player plays.

All of it is made once and kept by content. Where everything is kept already nothing that makes sound is loaded.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wristwork.languages.say import say_count
from wristwork.page.problem import SOUND, Problem
from wristwork.pattern.model import Pattern
from wristwork.site.audio.sound_folder import FOLDER, faults, read_sounds, sounds_key
from wristwork.site.reading.course_site import Placed
from wristwork.sound.heard import heard
from wristwork.sound.schedule import preview_names
from wristwork.store.making import SOUND_MAKER, SOUND_WORDS_MAKER, digest
from wristwork.store.publication import Publication
from wristwork.store.store import Store, json_text

if TYPE_CHECKING:
    from wristwork.sound.kit import Kit

# Where the player looks for its sounds, beside the folder of its scripts, and for the list of them.
PUBLISHED = "assets/wristwork/sounds"
LIST = "sounds.json"

TELL_EVERY = 5.0  # seconds between two lines on how far the rendering is

Tell = Callable[[str], None]


class Sounds:
    """The sounds of one build.

    ``root`` is the course's folder. What is wrong with the tutor's own sounds is in ``problems``; the kit is then
    the made one. Unless it ``renders``, as in a preview of the site, exercises are heard as far as their audio
    is kept already.
    """

    def __init__(self, root: Path, store: Store, renders: bool) -> None:
        self._store = store
        self._renders = renders
        self._own, self.problems = read_sounds(root / FOLDER)
        if self._own:
            key = digest("faults", sounds_key(self._own), by=SOUND_WORDS_MAKER)
            self.problems += store.value(
                key, lambda: [(fault.path, fault.found, fault.remedy) for fault in faults(self._own)], _faults
            )
        if self.problems:
            self._own = {}
        self._kit_key = sounds_key(self._own)
        self._previews: dict[str, dict[str, str]] = {}

    def names(self, placed: Placed) -> tuple[str, ...]:
        """The names of the audio files that an exercise has in its own place."""
        if self._renders or self._is_kept(placed):
            return preview_names(placed.pattern)
        return ()

    def render(self, exercises: Iterable[Placed], tell: Tell) -> None:
        """Make the audio that is missing, or tell that it waits for a build."""
        missing = [placed for placed in exercises if not self._is_kept(placed)]
        if missing and self._renders:
            self._render(missing, _Progress(tell))
        elif missing:
            tell(
                say_count(
                    "The audio of {count} exercise is left out until a build has rendered it.",
                    "The audio of {count} exercises is left out until a build has rendered it.",
                    len(missing),
                )
            )

    def write(self, publication: Publication, exercises: Iterable[Placed]) -> None:
        """Put the audio of the exercises into their places, whose folders are there."""
        for placed in exercises:
            for name in self.names(placed):
                make = partial(self._preview, placed.pattern, name)
                publication.place(f"{placed.folder}{name}", self._kept_as(placed)[name], make)

    def write_kit(self, publication: Publication) -> None:
        """Publish what the player plays with, for a site that has something to play."""
        (publication.folder / PUBLISHED).mkdir(parents=True, exist_ok=True)
        for name in self._store.value(self._list_key, self._manifest, _listed):
            publication.place(f"{PUBLISHED}/{name}", self._oneshot_kept_as(name), partial(self._oneshot, name))
        kept_list = f"{self._list_key}.json"
        publication.place(f"{PUBLISHED}/{LIST}", kept_list, lambda: json_text(self._manifest()).encode())

    def _is_kept(self, placed: Placed) -> bool:
        return all(self._store.has(name) for name in self._kept_as(placed).values())

    def _kept_as(self, placed: Placed) -> dict[str, str]:
        """What the audio files of an exercise are kept as, by name."""
        if placed.id not in self._previews:
            # An exercise's own key says all that can be heard of it, but changes with its title as well.
            strokes_digest = self._store.value(digest("heard", placed.key), lambda: digest(heard(placed.pattern)), str)
            self._previews[placed.id] = {
                name: f"{digest('preview', self._kit_key, strokes_digest, name, by=SOUND_MAKER)}.mp3"
                for name in preview_names(placed.pattern)
            }
        return self._previews[placed.id]

    def _render(self, missing: Iterable[Placed], progress: Callable[[int, int], None]) -> None:
        from wristwork.sound.rendering import rendered

        # By what it is kept as, so that exercises that sound the same are rendered once.
        alone: dict[tuple[str, ...], Placed] = {}
        for placed in missing:
            alone.setdefault(tuple(self._kept_as(placed).values()), placed)
        jobs = list(alone.values())
        progress(0, len(jobs))
        count = 0
        for done in rendered([placed.pattern for placed in jobs], self._kit):
            for number, files in done:
                for name, content in files.items():
                    self._store.put(self._kept_as(jobs[number])[name], content)
            count += len(done)
            progress(count, len(jobs))

    def _preview(self, pattern: Pattern, name: str) -> bytes:
        """A preview that was kept a moment ago and is gone."""
        from wristwork.sound.preview import previews

        return previews(pattern, self._kit)[name]

    @property
    def kit_key(self) -> str:
        """Shows whether it is another kit."""
        return self._kit_key

    def kit(self) -> Kit:
        """The drum kit, with the tutor's own sounds in it."""
        return self._kit

    def fresh_kit(self) -> Kit:
        """The same for whoever keeps nothing and plays little: only what is played is made."""
        return self._made_kit

    @property
    def _list_key(self) -> str:
        return digest("oneshots", self._kit_key, by=SOUND_MAKER)

    def _oneshot_kept_as(self, name: str) -> str:
        return f"{digest('oneshot', self._kit_key, name, by=SOUND_MAKER)}{Path(name).suffix}"

    def _oneshot(self, name: str) -> bytes:
        return self._oneshots[name]

    @cached_property
    def _oneshots(self) -> dict[str, bytes]:
        from wristwork.sound.oneshots import oneshots

        return oneshots(self._made_kit)

    def _manifest(self) -> dict[str, Any]:
        from wristwork.sound.oneshots import manifest

        return manifest(self._made_kit)

    @cached_property
    def _kit(self) -> Kit:
        """The kit as it is kept, so that it is made in one build and in one process only."""
        return self._store.value(self._list_key, self._manifest, self._kept_kit)

    def _kept_kit(self, manifest: dict[str, Any]) -> Kit:
        from wristwork.sound.oneshots import kit_of

        def file(name: str) -> bytes:
            return self._store.content(self._oneshot_kept_as(name), partial(self._oneshot, name))

        return kit_of(manifest, {name: file(name) for name in _listed(manifest)})

    @cached_property
    def _made_kit(self) -> Kit:
        from wristwork.sound.kit import Kit

        if not self._own:
            return Kit()
        from wristwork.sound.own import own_sounds

        return Kit(own_sounds(self._own))


def _faults(kept: list[list[str]]) -> list[Problem]:
    return [Problem(path, 0, 0, found, remedy, SOUND) for path, found, remedy in kept]


def _listed(manifest: dict[str, Any]) -> list[str]:
    """The files that a manifest speaks of."""
    files: list[str] = manifest["files"]
    return files


class _Progress:
    """Tells how far a rendering is: at its start, every few seconds, at its end."""

    def __init__(self, tell: Tell) -> None:
        self._tell = tell
        self._told_at = 0.0

    def __call__(self, done: int, count: int) -> None:
        now = time.monotonic()
        if done == 0:
            self._tell(
                say_count(
                    "Rendering the audio of {count} exercise. Next time what did not change is there already.",
                    "Rendering the audio of {count} exercises. Next time what did not change is there already.",
                    count,
                )
            )
        elif done < count and now - self._told_at < TELL_EVERY:
            return
        else:
            self._tell(
                say_count(
                    "Rendered the audio of {done} of {count} exercise.",
                    "Rendered the audio of {done} of {count} exercises.",
                    count,
                    done=done,
                )
            )
        self._told_at = now
