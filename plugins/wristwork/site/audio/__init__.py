"""Previews, the player's sounds, and a tutor's own sounds."""
