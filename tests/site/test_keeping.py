"""What a course entrusts to a build outlives it: links, damage, full disks, two builds at once."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.site.courses import WEEK_1, Course, contents
from wristwork.site.mkdocs.stage import Stage

# A build in a process of its own whose files may only have so many bytes: what a full disk does.
FULL = """
import resource, signal, sys
from mkdocs.__main__ import cli
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), int(sys.argv[1])))
cli(["build"])
"""
# Whoever is root may do everything; these builds are not to.
BOUND = ["setpriv", "--bounding-set", "-dac_override,-dac_read_search"] if os.geteuid() == 0 else []


def told(done: subprocess.CompletedProcess[str]) -> str:
    """What a failed build says, which is no traceback."""
    assert done.returncode not in (0, -9), done.stderr
    assert "Traceback" not in done.stderr + done.stdout
    return " ".join((done.stderr + done.stdout).split())


def run(course: Course, command: list[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command,
        cwd=course.root,
        env=course.environment(PYTHONDONTWRITEBYTECODE="1"),
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


LINKS = [".wristwork", ".wristwork/kept", ".wristwork/kept/ab", ".wristwork/lock", ".site.old", ".site.new", "site"]


@pytest.mark.parametrize(("link", "built"), [*((link, False) for link in LINKS), (".wristwork", True), ("site", True)])
def test_a_link_in_a_course_harms_nothing_outside_it(course: Course, tmp_path_factory, link: str, built: bool) -> None:
    victim = tmp_path_factory.mktemp("victim")
    for name in ("letter.txt", ".hidden", f"{'0' * 40}-1-{'0' * 32}.svg", "ab/more.mp3", "kept/ab/x.part"):
        (victim / name).parent.mkdir(parents=True, exist_ok=True)
        (victim / name).write_text("theirs")
    if built:
        course.build()
    course.kept = None
    place = course.root / link
    if place.is_dir():
        shutil.rmtree(place)
    place.unlink(missing_ok=True)
    place.parent.mkdir(parents=True, exist_ok=True)
    place.symlink_to(victim / "letter.txt" if link.endswith("lock") else victim)
    before = contents(victim)
    assert f"{link} is a link" in told(course.run())
    assert contents(victim) == before
    assert place.is_symlink()


@pytest.mark.parametrize("harm", ["emptied", "halved", "changed"])
@pytest.mark.parametrize("in_place", [True, False], ids=["with the site", "alone"])
def test_no_damage_to_what_is_kept_reaches_the_site(course: Course, harm: str, in_place: bool) -> None:
    course.build()
    before = contents(course.site)
    course.kept = None
    kept = [path for path in (course.root / ".wristwork" / "kept").rglob("*") if path.is_file()]
    assert {path.suffix for path in kept} >= {".html", ".svg", ".json", ".mid", ".png", ".mp3", ".flac"}
    for path in kept:
        whole = path.read_bytes()
        content = {"emptied": b"", "halved": whole[: len(whole) // 2], "changed": whole[:-1] + b"\0"}[harm]
        if not in_place:
            path.unlink()
        path.write_bytes(content)
    course.build()
    assert contents(course.site) == before
    course.build()
    assert contents(course.site) == before


@pytest.mark.parametrize("place", [".wristwork", ".wristwork/kept", ".wristwork/kept/ab", ".wristwork/lock"])
def test_a_file_or_folder_in_the_way_of_what_is_kept_stops_no_build(
    course: Course, place: str, caplog: pytest.LogCaptureFixture
) -> None:
    course.save_settings()
    shutil.rmtree(course.root / place, ignore_errors=True)
    (course.root / place).parent.mkdir(parents=True, exist_ok=True)
    if place.endswith("lock"):
        (course.root / place).mkdir()
    else:
        (course.root / place).write_text("a file")
    course.kept = None
    caplog.set_level("INFO", "mkdocs")
    course.build(strict=True)
    assert (course.site / "x/slow-singles/start.mp3").stat().st_size > 1000
    said = caplog.text.count("Nothing can be kept in")
    # One shelf of many need not be wanted, and a lock has another place to go.
    assert said == 1 if place in (".wristwork", ".wristwork/kept") else said <= 1


@pytest.mark.parametrize("place", ["site", ".site.old", ".site.new"])
def test_a_file_in_the_way_of_the_site_is_told_and_stays(course: Course, place: str) -> None:
    (course.root / place).write_text("mine")
    assert f"{place} is a file where a folder belongs: move it away" in told(course.run())
    assert (course.root / place).read_text() == "mine"


@pytest.mark.parametrize("limit", [0, 2_000, 30_000])
def test_a_full_disk_spares_the_site_and_is_told(course: Course, limit: int) -> None:
    course.build()
    before, record = contents(course.site), (course.root / "addresses.yml").read_bytes()
    course.write("docs/weeks/week-01.md", WEEK_1.replace("Slow singles", "Slower singles"))
    done = run(course, [sys.executable, "-c", FULL, str(limit)])
    assert "There is no room left on the disk (File too large" in told(done)
    assert contents(course.site) == before
    assert (course.root / "addresses.yml").read_bytes() == record
    assert not (course.root / ".site.new").exists()


@pytest.mark.skipif(bool(BOUND) and shutil.which(BOUND[0]) is None, reason="root without setpriv may do everything")
@pytest.mark.parametrize(
    ("place", "says"),
    [
        (".", "A file or folder can't be used (Permission denied"),
        ("docs/weeks/week-01.md", "docs/weeks/week-01.md: can't be read: Permission denied"),
        (".wristwork/kept", None),
        (".wristwork", None),
    ],
)
def test_what_may_not_be_read_or_written_is_told(course: Course, place: str, says: str | None) -> None:
    course.build()
    before = contents(course.site)
    course.write("docs/weeks/week-01.md", WEEK_1.replace("Slow singles", "Slower singles"))
    forbidden = [course.root / place]
    if says is None:
        forbidden = [path for path in (course.root / place).rglob("*") if path.is_dir()] + forbidden
    modes = [(path, path.stat().st_mode) for path in forbidden]
    for path in forbidden:
        path.chmod(0o500 if path.is_dir() else 0)
    try:
        done = run(course, [*BOUND, sys.executable, "-m", "mkdocs", "build", "--strict"])
    finally:
        for path, mode in modes:
            path.chmod(mode)
    if says:
        assert says in told(done)
        assert contents(course.site) == before
    else:
        assert done.returncode == 0, done.stderr
        assert "Nothing can be kept in" in done.stderr
        assert contents(course.site) != before


def test_many_builds_at_once_make_one_whole_site(course: Course, tmp_path: Path) -> None:
    course.build()
    whole = contents(course.site)
    at_once = [started(course, "build") for _ in range(3)]
    for process in at_once:
        _, said = process.communicate(timeout=120)
        assert process.returncode == 0, said
    assert contents(course.site) == whole
    assert not [path for path in course.root.iterdir() if path.name.startswith(".site")]


def test_a_build_beside_a_preview_makes_a_whole_site(course: Course) -> None:
    course.build()
    whole = contents(course.site)
    preview = started(course, "serve", "--dev-addr", "127.0.0.1:0")
    try:
        for _ in range(2):
            build = started(course, "build")
            _, said = build.communicate(timeout=120)
            assert build.returncode == 0, said
            assert contents(course.site) == whole
    finally:
        preview.terminate()
        _, said = preview.communicate(timeout=30)
    assert "Traceback" not in said


def started(course: Course, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        course.command(*arguments),
        cwd=course.root,
        env=course.environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
    )


@pytest.mark.parametrize("place", ["docs/weeks/week-03.md", "docs/picture.png", "docs/deep/er/notes.txt"])
def test_a_pipe_among_the_pages_is_told_and_hangs_nothing(course: Course, place: str) -> None:
    (course.root / place).parent.mkdir(parents=True, exist_ok=True)
    os.mkfifo(course.root / place)
    assert f"{place.removeprefix('docs/')} is a pipe or a device and no file" in told(course.run())


@pytest.mark.parametrize("harm", ["fifo", "device", "large", "file"])
def test_what_is_no_sound_is_told_and_hangs_nothing(course: Course, harm: str) -> None:
    folder = course.root / "sounds"
    if harm == "file":
        folder.write_text("a file")
        assert "sounds: is a file make it a folder, and put the sounds into it" in told(course.run())
        return
    folder.mkdir()
    file = folder / "pad-tap-1.wav"
    if harm == "fifo":
        os.mkfifo(file)
    elif harm == "device":
        file.symlink_to("/dev/zero")
    else:
        with file.open("wb") as sparse:
            sparse.truncate(10_000_000_000)
    said = told(course.run())
    assert "sounds/pad-tap-1.wav: can't be read (it is" in said
    assert "put a sound there, or take it out" in said
    assert "1 thing is wrong" in said


def test_a_mounted_site_is_filled_file_by_file(course: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    course.site.mkdir()
    monkeypatch.setattr(Path, "is_mount", lambda path: path == course.site)
    place = course.site.stat().st_ino
    course.build()
    whole = contents(course.site)
    assert "x/slow-singles/card.png" in whole
    (course.site / ".git").mkdir()
    (course.site / ".git" / "HEAD").write_text("main")
    (course.site / "old" / "page").mkdir(parents=True)
    (course.site / "old" / "page" / "index.html").write_text("old")
    (course.site / "x" / "slow-singles" / "card.png").unlink()
    (course.site / "x" / "slow-singles" / "card.png").mkdir()
    shutil.rmtree(course.site / "weeks")
    (course.site / "weeks").write_text("a file")
    times = {name: (course.site / name).stat().st_mtime_ns for name in ("index.html", "x/the-other-way/card.png")}
    course.build()
    assert contents(course.site) == {**whole, ".git/HEAD": contents(course.site)[".git/HEAD"]}
    assert not (course.site / "old").exists()
    assert {name: (course.site / name).stat().st_mtime_ns for name in times} == times
    assert course.site.stat().st_ino == place


def test_a_failing_build_leaves_a_mounted_site_alone(course: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    course.site.mkdir()
    monkeypatch.setattr(Path, "is_mount", lambda path: path == course.site)
    course.build()
    whole = contents(course.site)
    course.write("docs/weeks/week-01.md", WEEK_1.replace("RLRL", "RQLL"))
    with pytest.raises(BaseException, match="BuildError"):
        course.build()
    assert contents(course.site) == whole


def test_a_link_in_a_mounted_site_is_replaced_and_not_followed(tmp_path: Path, monkeypatch) -> None:
    site, other = tmp_path / "site", tmp_path / "other"
    for folder in (site, other):
        folder.mkdir()
    (other / "index.html").write_text("theirs")
    (site / "x").symlink_to(other)
    (site / "page.html").symlink_to(other / "index.html")
    monkeypatch.setattr(Path, "is_mount", lambda path: path == site)
    stage = Stage(site)
    stage.open()
    (stage.folder / "x").mkdir()
    (stage.folder / "x" / "index.html").write_text("ours")
    (stage.folder / "page.html").write_text("theirs")
    stage.swap()
    assert (site / "x" / "index.html").read_text() == "ours"
    assert not (site / "page.html").is_symlink()
    assert contents(other).keys() == {"index.html"}
    assert (other / "index.html").read_text() == "theirs"
