"""What a disk can do to a build, told in a line."""

from __future__ import annotations

import errno
import os
import stat

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import Files

from wristwork.languages.say import say

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


def disk_trouble(error: Exception) -> str | None:
    """What to say of an error that comes from the disk; None for any other."""
    if not isinstance(error, OSError) or error.errno is None:
        return None
    place = f": {os.fspath(error.filename)!s}" if isinstance(error.filename, str | os.PathLike) else ""
    reason = f"{error.strerror}{place}"
    if error.errno in _FULL:
        return say(
            "There is no room left on the disk ({reason}). The site that was built last is as it was. Make room, and "
            "build again.",
            reason=reason,
        )
    if error.errno in (errno.EROFS, errno.EACCES, errno.EPERM) and place:
        return say(
            "A file or folder can't be used ({reason}). The site that was built last is as it was. Give yourself the "
            "right to read and write it, and build again.",
            reason=reason,
        )
    if error.errno in (errno.EEXIST, errno.ENOTDIR, errno.EISDIR) and place:
        return say(
            "A file is where a folder belongs, or a folder where a file belongs ({reason}). The site that was built "
            "last is as it was. Move it away, and build again.",
            reason=reason,
        )
    if error.errno in (errno.EIO, errno.ENAMETOOLONG, errno.ELOOP, errno.ENOENT) and place:
        return say("The disk refuses a file ({reason}). The site that was built last is as it was.", reason=reason)
    return None


def mind_devices(files: Files) -> None:
    """Raise PluginError for what is no file among a course's files: reading a pipe may never end."""
    for file in files:
        if file.abs_src_path is None:
            continue
        try:
            mode = os.stat(file.abs_src_path).st_mode
        except OSError:
            continue  # MkDocs tells of it
        if not stat.S_ISREG(mode):
            raise PluginError(
                say("{file} is a pipe or a device and no file: take it out of the pages' folder.", file=file.src_uri)
            )
