"""Styles, scripts and templates, and what the head of every page holds."""
