"""A page's text: its lines, its front matter, and what is wrong with it."""
