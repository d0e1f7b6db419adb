"""Styles and scripts, and what the head of every page holds."""
