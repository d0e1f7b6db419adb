"""A strict content security policy for a built site, for its host to send with every page.

Run it on the built site: ``python -m wristwork.site.frontend.policy site``
"""

from __future__ import annotations

import re
import sys
from base64 import b64encode
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

from wristwork.languages.say import say

_SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<code>.*?)</script>", re.DOTALL)
# A script from a file needs no hash; data is not run.
_NOT_RUN = re.compile(r'\bsrc=|\btype="?(?!module|text/javascript)[^\s>]')
# Widths of bars and heights of lanes are style attributes, which no hash can allow.
_RULES = (
    "default-src 'self'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
)


def policy(site: Path) -> str:
    """The value of the header ``Content-Security-Policy`` for the site in this folder.

    Everything comes from the site itself. The theme has a few scripts within its pages: each is allowed by its hash.
    """
    pages = (path.read_text(encoding="utf-8") for path in sorted(site.rglob("*.html")))
    hashes = " ".join(f"'sha256-{each}'" for each in sorted({hash_ for page in pages for hash_ in _hashes(page)}))
    default, *rest = _RULES
    return "; ".join([default, f"script-src 'self' {hashes}".rstrip(), *rest])


def _hashes(page: str) -> Iterable[str]:
    for script in _SCRIPT.finditer(page):
        if script["code"].strip() and not _NOT_RUN.search(script["attributes"]):
            yield b64encode(sha256(script["code"].encode()).digest()).decode()


def main(arguments: list[str]) -> int:
    """Print the policy of the site in the folder that is named, ``site`` where none is."""
    site = Path(arguments[0] if arguments else "site")
    if not (site / "index.html").is_file():
        print(
            say("{folder} holds no site: build one with mkdocs build, or name its folder", folder=site), file=sys.stderr
        )
        return 1
    print(policy(site))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
