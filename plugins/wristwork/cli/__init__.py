"""Commands for the tutor."""
