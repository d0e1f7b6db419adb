"""The lines of front matter that are ours; others belong to the theme and to other plugins."""

from __future__ import annotations

# What any page may have.
OF_A_PAGE = ("week", "title", "grade", "safe-practice", "standard-text")
# What a week's page may have beside them.
OF_A_WEEK = ("aim", "minutes", "days", "again", "surface", "protection", "look-back", "opens", "allow")
LINES = (*OF_A_PAGE, *OF_A_WEEK)
# Words near to ours that the theme or MkDocs itself gives a meaning.
OF_OTHERS = ("subtitle", "date", "tags", "hide", "icon", "status", "template", "description")
# Texts that the theme prints or looks up, and one that it prints would print a list as Python does.
TEXTS_OF_OTHERS = ("description", "author", "subtitle", "icon", "status", "template")


def is_setting(key: str) -> bool:
    """Is it a word, as the keys of settings are?"""
    return key.replace("-", "").replace("_", "").isalnum()
