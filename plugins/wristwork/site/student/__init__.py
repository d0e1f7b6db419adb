"""The student's own pages, and what a device may keep."""
