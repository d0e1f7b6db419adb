"""The words of a course in its language: English in the source, others in catalogues beside this module."""
