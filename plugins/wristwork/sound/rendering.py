"""Renders previews into the folder in which they are kept, in several processes where that is worth it."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Thread

from wristwork.files import write_whole
from wristwork.pattern.model import Pattern
from wristwork.sound.cache import are_there
from wristwork.sound.kit import Kit
from wristwork.sound.preview import previews

# Starting a process takes about a second, in which this one renders so many exercises by itself.
FEWEST_FOR_PROCESSES = 6
BATCH = 4  # exercises handed to a process at a time

# A pattern, and where its previews are to be kept.
Job = tuple[Pattern, dict[str, Path]]


def rendered(jobs: list[Job], kit: Kit, workers: int) -> Iterator[int]:
    """Render the jobs, in processes where that is worth it; how many more are done, each time some are."""
    if workers > 1 and len(jobs) >= FEWEST_FOR_PROCESSES:
        try:
            yield from _rendered_in_processes(jobs, kit, workers)
        except BrokenProcessPool:
            pass  # this machine starts no processes, or ended one: what is missing is rendered here
        else:
            return
    for job in jobs:
        if not are_there(job[1]):
            yield _render([job], kit)


def _rendered_in_processes(jobs: list[Job], kit: Kit, workers: int) -> Iterator[int]:
    # Fresh processes on every system: a copy of this one would take along threads it may be running.
    pool = ProcessPoolExecutor(workers, get_context("spawn"), _mind_the_build)
    try:
        batches = [jobs[start : start + BATCH] for start in range(0, len(jobs), BATCH)]
        for future in as_completed([pool.submit(_render, batch, kit) for batch in batches]):
            yield future.result()
    finally:
        pool.shutdown(cancel_futures=True)


def _mind_the_build() -> None:
    """End a process with the build that started it, without a word."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # a terminal interrupts both of them
    build = parent_process()
    assert build is not None, "only processes that a build starts come here"

    def end_with_it() -> None:
        build.join()  # a killed build can't say that there is no more to do
        os._exit(1)

    Thread(target=end_with_it, daemon=True).start()


def _render(jobs: list[Job], kit: Kit) -> int:
    for pattern, found in jobs:
        for name, content in previews(pattern, kit).items():
            write_whole(found[name], content)
    return len(jobs)
