"""The course as the site reads it: lessons, exercises, topics."""
