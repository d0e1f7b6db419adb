"""Patterns in open formats: written as a score that other programs read, and read from what they write."""
