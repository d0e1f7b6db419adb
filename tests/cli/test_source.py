"""Where a course says that its tool comes from."""

from __future__ import annotations

import json

import pytest

from wristwork.cli import source as module
from wristwork.cli.source import address_of, source
from wristwork.cli.trouble import Trouble

COMMIT = "0123456789abcdef0123456789abcdef01234567"
DIGEST = "a1" * 32
GIT = {"vcs": "git", "commit_id": COMMIT, "requested_revision": "main"}
REPOSITORY = "https://code.example/drums/wristwork.git"
FILE = "https://files.example/wristwork-0.1.0-py3-none-any.whl"


@pytest.mark.parametrize(
    ("origin", "address"),
    [
        ({"url": REPOSITORY, "vcs_info": GIT}, f"git+{REPOSITORY}@{COMMIT}"),
        (
            {"url": REPOSITORY, "vcs_info": GIT, "subdirectory": "tool"},
            f"git+{REPOSITORY}@{COMMIT}#subdirectory=tool",
        ),
        ({"url": FILE, "archive_info": {"hashes": {"sha256": DIGEST}}}, f"{FILE}#sha256={DIGEST}"),
        (
            {"url": FILE, "archive_info": {"hashes": {"sha256": DIGEST}}, "subdirectory": "tool"},
            f"{FILE}#subdirectory=tool&sha256={DIGEST}",
        ),
        ({"url": FILE, "archive_info": {}}, FILE),
    ],
    ids=["repository", "folder of one", "file", "folder in a file", "file without a digest"],
)
def test_an_address_is_named_with_the_very_version(origin, address):
    assert address_of(origin) == address


@pytest.mark.parametrize(
    "origin",
    [
        {},
        {"url": "file:///home/tutor/wristwork", "dir_info": {"editable": True}},
        {"url": "file:///home/tutor/wristwork", "dir_info": {}},
        {"url": "file:///home/tutor/wristwork-0.1.0.whl", "archive_info": {}},
        {"url": "file:///home/tutor/wristwork", "vcs_info": GIT},
        {"url": "ssh://git@code.example/drums/wristwork.git", "vcs_info": GIT},
        {"url": "http://code.example/drums/wristwork.git", "vcs_info": GIT},
    ],
    ids=["no note", "editable", "folder", "file", "repository here", "with a key of this machine's", "in the clear"],
)
def test_what_other_machines_can_not_ask_is_no_address(origin):
    assert address_of(origin) is None


class Installed:
    version = "0.1.0"

    def __init__(self, origin):
        self.origin = origin

    def read_text(self, name):
        return json.dumps(self.origin) if name == "direct_url.json" else None


def test_a_course_names_the_address_that_the_tool_was_installed_from(monkeypatch, tmp_path):
    monkeypatch.setattr(module, "distribution", lambda name: Installed({"url": REPOSITORY, "vcs_info": GIT}))
    source().write(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["requirements.txt"]
    lines = (tmp_path / "requirements.txt").read_text().splitlines()
    assert lines[0].startswith("# ")
    assert lines[1:] == [f"wristwork @ git+{REPOSITORY}@{COMMIT}"]
    assert source().said == (
        f"requirements.txt says where Wristwork 0.1.0 was installed from here: git+{REPOSITORY}@{COMMIT}",
    )


def test_a_tool_that_is_not_installed_says_so(monkeypatch):
    def none(name):
        raise module.PackageNotFoundError(name)

    monkeypatch.setattr(module, "distribution", none)
    with pytest.raises(Trouble, match="runs here without being installed: install it with pip, then go on"):
        source()
