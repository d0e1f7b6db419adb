"""What an exercise's printed sheet has beside the diagram: tempos to tick, a code to point a camera at."""

from __future__ import annotations

from wristwork.pattern.model import Tempo

# As many as fit in three rows of a sheet.
MOST_RUNGS = 24


def tempo_ladder(tempo: Tempo) -> tuple[int, ...]:
    """The tempos from the start to the goal by the step; where they are too many, by a multiple of it."""
    step = tempo.step
    while (tempo.goal - tempo.start) / step >= MOST_RUNGS - 1:
        step += tempo.step
    return (*range(tempo.start, tempo.goal, step), tempo.goal)


def qr_code(address: str) -> str:
    """A QR code (ISO/IEC 18004) as SVG, dark on light in every colour scheme: scanners need that."""
    # The second lowest level bears a smudge and keeps the code coarse enough for a music stand.
    import segno  # only a page that is made anew needs it

    code = segno.make(address, error="m", micro=False)
    return code.svg_inline(
        border=4, dark="#000", light="#fff", omitsize=True, svgclass=None, lineclass=None, title="QR code of this page"
    )
