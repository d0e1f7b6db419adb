"""The drawings of the safe-practice pages: our own, made of a few shapes, one line width, the page's colours."""
