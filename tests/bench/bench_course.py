"""How long demand and the checks of a course take. Run it: python tests/bench/bench_course.py"""

from __future__ import annotations

import logging
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from wristwork.course.checks import check_course
from wristwork.course.course import read_teaching
from wristwork.course.demand_data import demand_data
from wristwork.page.page import read_pages
from wristwork.pattern import read_one
from wristwork.site.mkdocs import builder
from wristwork.technique.demand import demand
from wristwork.technique.measures import measure

TWO_BARS = "title: Two bars\nhands: R>LRR L>RLL R>LRR L>RLL lR>LRR rL>RLL R/LRL (R)LRL>"
STICKINGS = ("RLRL LRLR RLRL LRLR", "R>LRR L>RLL R>LRR L>RLL", "lR>LR rL>RL lR>LR rL>RL", "RRLL RRLL RRLL RRLL")
PER_WEEK = 5


def milliseconds(work, times, before=lambda: None):
    """The time of each of so many runs; what has to be done before each one is not timed."""
    taken = []
    for _ in range(times):
        before()
        start = time.perf_counter()
        work()
        taken.append(1000 * (time.perf_counter() - start))
    return taken


def week(number):
    """A week with five exercises, each with a text and something that it needs."""
    lines = ["---", f"week: {number}", "aim: Get a little further.", "minutes: 25", "surface: practice pad", "---", ""]
    lines += [f"# Week {number}", ""]
    for place in range(PER_WEEK):
        name = f"exercise-{number}-{place}"
        needs = f"exercise-{number}-{place - 1}" if place else f"exercise-{number - 1}-0" if number > 1 else ""
        lines += [f"## Number {place}", "", "```pattern", f"id: {name}", f"title: Number {place} of {number}"]
        lines += [f"tempo: {60 + place} to {80 + place} by 4", *([f"requires: {needs}"] if needs else [])]
        lines += [f"hands: {STICKINGS[(number + place) % len(STICKINGS)]}", "```", ""]
        lines += [f"Words about it, and a link to [the one before](week-{max(1, number - 1):03}.md).", ""]
    return "\n".join(lines)


def write_course(folder, exercises):
    docs = folder / "docs"
    docs.mkdir()
    (folder / "mkdocs.yml").write_text("site_name: Bench\ntheme: {name: material}\nplugins: [wristwork]\n")
    for number in range(1, exercises // PER_WEEK + 1):
        (docs / f"week-{number:03}.md").write_text(week(number))


def bench_demand():
    pattern = read_one(TWO_BARS)
    for name, work in (
        ("demand of a two-bar pattern at a tempo", lambda: demand(pattern, 100)),
        ("its data at start and goal", lambda: demand_data(pattern)),
    ):
        taken = milliseconds(work, 1000, before=measure.cache_clear)
        print(f"{name}: median {statistics.median(taken):.2f} ms, 95 % under {sorted(taken)[949]:.2f} ms (n = 1000)")


def bench_checks():
    for count in (100, 300, 1000):
        texts = {f"docs/week-{number:03}.md": week(number) for number in range(1, count // PER_WEEK + 1)}
        pages = read_pages(texts)
        runs = milliseconds(lambda pages=pages: check_course(read_teaching(pages)[0]), 3, before=measure.cache_clear)
        print(f"reading and checking {count} exercises: median {statistics.median(runs) / 1000:.2f} s (n = 3)")


def bench_command():
    with tempfile.TemporaryDirectory() as folder:
        write_course(Path(folder), 1000)
        command = [sys.executable, "-m", "wristwork.cli.main", "check", folder]
        plugins = Path(__file__).parents[2] / "plugins"
        environment = {**os.environ, "PYTHONPATH": str(plugins)}
        runs = milliseconds(lambda: subprocess.run(command, env=environment, capture_output=True, check=False), 3)
        print(f"wristwork check on 1000 exercises: median {statistics.median(runs) / 1000:.2f} s (n = 3, limit 5 s)")


def bench_in_a_build():
    """The share of the checks in a build, plans and demands not counted: the pages need them in any case."""
    taken = {}
    check = builder.course_findings

    def timed(course, settings):
        _ = course.plans, [exercise.at_goal for exercise in course.exercises.values()]
        start = time.process_time()
        found = check(course, settings)
        taken["checks"] = time.process_time() - start
        return found

    builder.course_findings = timed
    logging.getLogger("mkdocs").setLevel(logging.ERROR)
    with tempfile.TemporaryDirectory() as folder:
        write_course(Path(folder), 500)
        for run in ("first", "second"):
            config = load_config(str(Path(folder) / "mkdocs.yml"))
            config.plugins.on_startup(command="build", dirty=False)
            start = time.process_time()
            build(config)
            whole = time.process_time() - start
            share = 100 * taken["checks"] / whole
            print(f"checks in the {run} build of 500 exercises: {share:.1f} % of {whole:.1f} s (limit 5 %)")
    builder.course_findings = check


if __name__ == "__main__":
    bench_demand()
    bench_checks()
    bench_command()
    bench_in_a_build()
