"""The safe-practice pages: their Markdown, calculator, timer and drawings."""
