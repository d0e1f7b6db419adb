"""Strokes → diagram, words, cards."""

from wristwork.drawing.diagram import Diagram, diagram
from wristwork.drawing.words import Words, words

__all__ = ["Diagram", "Words", "diagram", "words"]
