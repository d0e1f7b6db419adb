"""The Markdown extension, and the figures of a page from fence to finished HTML."""
