"""The look of a course's site on the Material theme: our templates, palette and styles, no other host."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from markupsafe import escape
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import get_plugin_logger

from wristwork.languages.say import marked, say
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.look import Look

log = get_plugin_logger(__name__)

TEMPLATES = Path(__file__).parent / "theme"
_NAMELESS = 'data-md-component="search" role="dialog"'
_FEATURES = ("navigation.sections", "navigation.top", "search.highlight", "content.tooltips")
# Light and dark, by the reader's system until they choose. The colours themselves are in site.css.
_PALETTE: list[dict[str, Any]] = [
    {
        "media": "(prefers-color-scheme: light)",
        "scheme": "default",
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": "material/weather-night", "name": marked("Switch to dark colours")},
    },
    {
        "media": "(prefers-color-scheme: dark)",
        "scheme": "slate",
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": "material/weather-sunny", "name": marked("Switch to light colours")},
    },
]


def mended(html: str) -> str:
    """A page of the theme with what its markup lacks: the search's dialog has no name."""
    name = escape(say("Search"))
    return html.replace(_NAMELESS, f'{_NAMELESS} aria-label="{name}"', 1)


def _named(scheme: dict[str, Any]) -> dict[str, Any]:
    """A scheme with the name of its switch in the course's language."""
    toggle = scheme["toggle"]
    name = toggle["name"]
    return {**scheme, "toggle": {**toggle, "name": say(name)}}


def apply_look(config: MkDocsConfig, look: Look) -> None:
    """Dress the Material theme; what the tutor has chosen in the settings stays chosen."""
    theme = config.theme
    if theme.name != "material":
        log.warning(
            say(
                "the course is made for the theme 'material'; with '{theme}' it has no look of its own",
                theme=theme.name,
            )
        )
        return
    # After the tutor's own templates, before the theme's.
    theme.dirs.insert(1 if theme.custom_dir else 0, str(TEMPLATES))
    # The theme would fetch fonts from another host.
    theme["font"] = False
    if not theme.get("palette"):
        theme["palette"] = [_named(scheme) for scheme in _PALETTE]
    if not theme.get("features"):
        theme["features"] = list(_FEATURES)
    theme["icon"] = {"logo": "wristwork/logo", **(theme.get("icon") or {})}
    if look.logo and not theme.get("logo"):
        theme["logo"] = look.logo
    if theme.get("favicon") == "assets/images/favicon.png":
        theme["favicon"] = look.house_icon
    # The foot of a page names the course and no maker of themes; a tutor's own words stay.
    config.extra.setdefault("generator", False)
    if not config.copyright:
        config.copyright = escape(config.site_name)
    # First, so that a tutor's own styles have the last word.
    config.extra_css[:0] = [f"{asset_root()}/site.css", *([look.style[0]] if look.style else [])]
