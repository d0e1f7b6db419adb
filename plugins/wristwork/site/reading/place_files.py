"""Files of an exercise's own place that more than one room speaks of."""

from __future__ import annotations

# The exercise for programs that read scores, and as a short film for messages.
SCORE, CLIP = "score.musicxml", "clip.mp4"
