"""A code that a phone's camera opens: QR (ISO/IEC 18004), as SVG."""

from __future__ import annotations

from wristwork.languages.say import say


def qr_code(address: str, border: int = 4) -> str:
    """The code of an address, dark on light in every colour scheme: scanners need that. ``border`` is light modules."""
    # The second lowest level bears a smudge and keeps the code coarse enough for a music stand.
    import segno  # only a page that is made anew needs it

    code = segno.make(address, error="m", micro=False)
    plain = {"omitsize": True, "svgclass": None, "lineclass": None, "title": say("QR code of this page")}
    return code.svg_inline(border=border, dark="#000", light="#fff", **plain)
