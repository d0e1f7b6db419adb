"""What a page keeps from people who read it with other tools than eyes and a mouse."""

from __future__ import annotations

from collections.abc import Sequence

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

WCAG = ("wcag2a", "wcag2aa", "wcag21aa", "wcag22aa")


def violations(page: Page, within: str | None = None, only: Sequence[str] = ()) -> list[str]:
    """Each violation with its place; ``within`` is a selector, ``only`` names the rules' tags where not all count."""
    # All rules are tried either way. Telling what every element passed takes far longer than trying them.
    options: dict[str, object] = {"resultTypes": ["violations"]}
    if only:
        options["runOnly"] = list(only)
    found = Axe().run(page, within, options).response["violations"]
    return [
        f"{violation['id']}: {node['html'][:200]} {node['failureSummary']}"
        for violation in found
        for node in violation["nodes"]
    ]
