"""A tutor's own notes on students: never part of a site."""
