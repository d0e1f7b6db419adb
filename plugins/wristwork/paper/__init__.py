"""The course on paper: sheets, weeks and the book, typeset as PDF."""
