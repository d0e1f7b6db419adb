"""An exercise's own place, ``x/<id>/``: page, data, picture, card, MIDI, and its lasting address."""
