"""Text → pattern: the language in which a tutor types stickings."""

from wristwork.pattern.course import CourseText, Located, read_course, read_one
from wristwork.pattern.model import Pattern
from wristwork.pattern.problems import PatternError

__all__ = ["CourseText", "Located", "Pattern", "PatternError", "read_course", "read_one"]
