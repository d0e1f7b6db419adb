"""A wheel of the Wristwork that runs here: any machine can install it, and no registry needs to know it.

A wheel is a zip with a list of what is in it: packaging.python.org/specifications/binary-distribution-format. It is
written here and not by a build backend, since neither sources nor a network need be at hand where a tutor works.
"""

from __future__ import annotations

import base64
import hashlib
import io
import zipfile
from collections.abc import Iterator, Set
from importlib.metadata import Distribution
from pathlib import Path

import wristwork
from wristwork.cli.seeds import BUILT, seed_folder

_TAG = "py3-none-any"
_WHEEL = f"Wheel-Version: 1.0\nGenerator: wristwork\nRoot-Is-Purelib: true\nTag: {_TAG}\n"
# The earliest moment that a zip can hold: the same code makes the same bytes.
_MOMENT = (1980, 1, 1, 0, 0, 0)


def wheel_name(installed: Distribution) -> str:
    """The file's name, which installers read the version from."""
    return f"wristwork-{installed.version}-{_TAG}.whl"


def wheel(installed: Distribution) -> bytes:
    """The code, the seeds and the metadata of this installation as a wheel."""
    about = f"wristwork-{installed.version}.dist-info"
    members = dict(_package())
    members |= {f"{about}/{name}": content for name, content in _metadata(installed)}
    members[f"{about}/WHEEL"] = _WHEEL.encode()
    record = [f"{name},sha256={_digest(content)},{len(content)}" for name, content in members.items()]
    members[f"{about}/RECORD"] = "".join(f"{line}\n" for line in [*record, f"{about}/RECORD,,"]).encode()
    return _zipped(members)


def _package() -> Iterator[tuple[str, bytes]]:
    """The files of the package and of the seeds, wherever each of them lies here."""
    yield from _below(Path(wristwork.__file__).parent, "wristwork", frozenset(("__pycache__", "_seeds")))
    yield from _below(seed_folder("starter").parent, "wristwork/_seeds", BUILT)


def _below(folder: Path, inside: str, left_out: Set[str]) -> Iterator[tuple[str, bytes]]:
    for file in sorted(folder.rglob("*")):
        path = file.relative_to(folder)
        if file.is_file() and left_out.isdisjoint(path.parts):
            yield f"{inside}/{path.as_posix()}", file.read_bytes()


def _metadata(installed: Distribution) -> Iterator[tuple[str, bytes]]:
    """What the distribution says of itself, its licence with it."""
    for file in installed.files or ():
        folder, *rest = file.parts
        if folder.endswith(".dist-info") and rest[0] in ("METADATA", "entry_points.txt", "licenses"):
            yield "/".join(rest), file.read_binary()


def _digest(content: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()


def _zipped(members: dict[str, bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(zipfile.ZipInfo(name, _MOMENT), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()
