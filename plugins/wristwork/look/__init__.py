"""Colours as values: shades and their contrast, the palette of a site, the finished looks."""
