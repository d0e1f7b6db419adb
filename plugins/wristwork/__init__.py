"""Wristwork publishes drum courses: typed stickings become strokes, diagrams, sound and lasting pages."""

__version__ = "0.1.0"
