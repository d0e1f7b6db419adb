"""What a tired tutor misses: checks on the whole course, each with its limit and the reason for it."""

from wristwork.course.checks.run import CAUSES, CHECKS, check_course
from wristwork.course.checks.table import Check

__all__ = ["CAUSES", "CHECKS", "Check", "check_course"]
