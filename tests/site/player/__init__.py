"""A small site of exercises, served to a real browser: what the player's tests play on."""
