"""The command as a whole: help, mistyping, versions, colour, a reader who goes away."""

from __future__ import annotations

import os
import pty
import subprocess
import sys

import pytest

from tests.cli.conftest import PLUGINS, run
from wristwork import __version__


@pytest.mark.parametrize("arguments", [(), ("--help",), ("-h",), ("help",)])
def test_help_names_every_command(arguments):
    done = run(*arguments)
    assert done.code == 0
    assert done.err == ""
    for name in ("new", "check", "try", "add", "send", "heard", "people"):
        assert f"\n  {name} " in done.out
    assert max(map(len, done.out.splitlines())) <= 100


@pytest.mark.parametrize("command", ["new", "check", "try", "add", "send", "heard", "people", "print"])
def test_each_command_explains_itself_with_an_example(command):
    done = run(command, "--help")
    assert done.code == 0
    assert done.out.startswith(f"Usage: wristwork {command} ")
    assert f"  For example:\n    wristwork {command} " in done.out


def test_version():
    assert run("--version").out == f"wristwork {__version__}\n"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("chek",), "there is no command 'chek': did you mean wristwork check?"),
        (
            ("sing",),
            "there is no command 'sing': the commands are new, check, try, add, send, heard, people, print, clip, "
            "read, studio",
        ),
        (("new",), "FOLDER is missing: write, say, wristwork new my-course"),
        (("new", "a", "--nme", "b"), "no such option '--nme'. Did you mean '--name'?"),
        (
            ("add", "rudiment", "drag", "--week", "two"),
            "invalid value for '--week': 'two' is no week's number: see wristwork add --help",
        ),
        (("add", "drag"), "--week is missing: write, say, wristwork add rudiment flam-accent --week 3"),
        (("try", "R>L", "--tempo"), "option '--tempo' requires an argument: see wristwork --help"),
        (("new", "a", "b"), "got unexpected extra argument (b): see wristwork new --help"),
    ],
)
def test_mistyping_is_answered_in_one_line(arguments, words, tmp_path):
    done = run(*arguments, cwd=tmp_path)
    assert (done.code, done.out, done.err) == (2, "", f"wristwork: {words}\n")


def in_terminal(*arguments, **environment):
    """What the command writes to a terminal."""
    screen, keyboard = pty.openpty()
    surroundings = {**os.environ, "PYTHONPATH": str(PLUGINS), "TERM": "xterm", **environment}
    surroundings = {name: value for name, value in surroundings.items() if value}
    command = [sys.executable, "-m", "wristwork.cli.main", *arguments]
    process = subprocess.Popen(command, stdout=keyboard, stderr=keyboard, stdin=keyboard, env=surroundings)
    os.close(keyboard)
    written = b""
    try:
        while part := os.read(screen, 65536):
            written += part
    except OSError:  # Linux says so when the other end is closed
        pass
    process.wait(timeout=30)
    os.close(screen)
    return written.decode()


def test_colour_on_a_terminal_only():
    assert "\x1b[" in in_terminal("try", "R>L", NO_COLOR="")
    assert "\x1b[" not in run("try", "R>L").out


@pytest.mark.parametrize("environment", [{"NO_COLOR": "1"}, {"TERM": "dumb", "NO_COLOR": ""}])
def test_no_colour_where_nobody_wants_it(environment):
    assert "\x1b[" not in in_terminal("try", "R>L", **environment)


def test_a_terminal_without_box_lines_gets_plain_ones():
    done = run("try", "R>L RL", encoding="ascii")
    assert done.code == 0
    assert "high" in done.out
    assert "-." in done.out


def test_a_reader_who_goes_away_is_no_error(course):
    command = f"'{sys.executable}' -m wristwork.cli.main check --json '{course}' | head -1"
    done = subprocess.run(
        ["bash", "-c", command], env={**os.environ, "PYTHONPATH": str(PLUGINS)}, capture_output=True, check=False
    )
    assert done.stdout == b"{\n"
    assert done.stderr == b""
