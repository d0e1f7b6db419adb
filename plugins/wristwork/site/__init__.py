"""The course as a site: Markdown extension, MkDocs plugin, pages, styles and scripts."""
