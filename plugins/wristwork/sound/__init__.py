"""Strokes → sound: when each stroke sounds, the drum kit, previews and the MIDI file."""
