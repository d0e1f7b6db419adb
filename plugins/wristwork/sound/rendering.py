"""Renders previews, in several processes where that is worth it. Touches no files: it hands over what they hold."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context, parent_process
from threading import Thread

from wristwork.pattern.model import Pattern
from wristwork.sound.kit import Kit
from wristwork.sound.preview import previews

# Starting a process takes about a second, in which this one renders so many exercises by itself.
FEWEST_FOR_PROCESSES = 6
BATCH = 4  # exercises handed to a process at a time

# Which of the patterns it is, and its preview files by name.
Rendered = tuple[int, dict[str, bytes]]

# The kit of a process that a build started.
_kit_here: Kit | None = None


def rendered(patterns: Sequence[Pattern], kit: Kit, workers: int | None = None) -> Iterator[list[Rendered]]:
    """The previews of all patterns, some at a time as they are done.

    ``workers``: how many processes at most (None: one for each core).
    """
    workers = workers or os.cpu_count() or 1
    missing = dict(enumerate(patterns))
    if workers > 1 and len(missing) >= FEWEST_FOR_PROCESSES:
        try:
            for done in _rendered_in_processes(list(missing.items()), kit, workers):
                yield done
                for number, _ in done:
                    del missing[number]
        except BrokenProcessPool:
            pass  # this machine starts no processes, or ended one: what is missing is rendered here
    for job in missing.items():
        yield _render([job], kit)


def _rendered_in_processes(jobs: list[tuple[int, Pattern]], kit: Kit, workers: int) -> Iterator[list[Rendered]]:
    # Fresh processes on every system: a copy of this one would take along threads it may be running.
    pool = ProcessPoolExecutor(workers, get_context("spawn"), _begin, (kit,))
    try:
        batches = [jobs[start : start + BATCH] for start in range(0, len(jobs), BATCH)]
        for future in as_completed([pool.submit(_render_here, batch) for batch in batches]):
            yield future.result()
    finally:
        pool.shutdown(cancel_futures=True)


def _begin(kit: Kit) -> None:
    """Make a process ready: it gets the kit once, for all that it is given to render."""
    global _kit_here
    _kit_here = kit
    _mind_the_build()


def _mind_the_build() -> None:
    """End a process with the build that started it, without a word."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # a terminal interrupts both of them
    build = parent_process()
    assert build is not None, "only processes that a build starts come here"

    def end_with_it() -> None:
        build.join()  # a killed build can't say that there is no more to do
        os._exit(1)

    Thread(target=end_with_it, daemon=True).start()


def _render_here(jobs: list[tuple[int, Pattern]]) -> list[Rendered]:
    assert _kit_here is not None, "a process begins with a kit"
    return _render(jobs, _kit_here)


def _render(jobs: list[tuple[int, Pattern]], kit: Kit) -> list[Rendered]:
    return [(number, previews(pattern, kit)) for number, pattern in jobs]
