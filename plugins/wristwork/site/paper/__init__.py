"""The course's papers: what stands on them, and where they are on the site."""
