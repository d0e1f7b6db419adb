"""Where another machine gets the Wristwork from that made a course.

Wristwork stands in no registry, so its bare name would install nothing. An installer notes where it came from
(PEP 610); where that is an address that other machines can ask, the course names it. Else the course carries a wheel.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path
from typing import Any

from wristwork.cli.trouble import Trouble
from wristwork.cli.wheel import wheel, wheel_name
from wristwork.files import write_whole
from wristwork.languages.say import marked, say

_HEAD = marked("What builds this course, in the version that it was begun with.")


@dataclass(frozen=True, slots=True)
class Requirement:
    """A line for ``requirements.txt``, what the tutor is told in lines, and the files that the line needs."""

    line: str
    said: tuple[str, ...]
    files: Mapping[str, bytes]

    def write(self, course: Path) -> None:
        """Put it into a course."""
        head = say(_HEAD)
        for name, content in {**self.files, "requirements.txt": f"# {head}\n{self.line}\n".encode()}.items():
            write_whole(course / name, content)


def source() -> Requirement:
    """The source of the Wristwork that runs here."""
    try:
        installed = distribution("wristwork")
    except PackageNotFoundError as error:
        remedy = say("install it with pip, then go on")
        raise Trouble(say("Wristwork runs here without being installed"), remedy) from error
    address = address_of(json.loads(installed.read_text("direct_url.json") or "{}"))
    if address:
        told = say(
            "requirements.txt says where Wristwork {version} was installed from here: {address}",
            version=installed.version,
            address=address,
        )
        return Requirement(f"wristwork @ {address}", (told,), {})
    file = f"tools/{wheel_name(installed)}"
    said = (
        say(
            "requirements.txt installs Wristwork {version} from {file}, a copy of the one that runs here.",
            version=installed.version,
            file=file,
        ),
        say("Keep that file with your course: a machine that builds it for you can get the tool from nowhere else."),
    )
    return Requirement(f"./{file}", said, {file: wheel(installed)})


def address_of(origin: Mapping[str, Any]) -> str | None:
    """The address in an installer's note, with the very version; ``None`` where only this machine can ask it."""
    url = str(origin.get("url", ""))
    if not url.startswith("https://"):
        return None
    folder = f"subdirectory={origin['subdirectory']}" if "subdirectory" in origin else ""
    if "vcs_info" in origin:
        taken = origin["vcs_info"]
        return f"{taken['vcs']}+{url}@{taken['commit_id']}" + (f"#{folder}" if folder else "")
    digests = origin.get("archive_info", {}).get("hashes", {})
    parts = [part for part in (folder, f"sha256={digests['sha256']}" if "sha256" in digests else "") if part]
    return url + (f"#{'&'.join(parts)}" if parts else "")
