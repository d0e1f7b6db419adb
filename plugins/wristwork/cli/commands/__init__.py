"""Commands that are typed with more than a word or two."""
