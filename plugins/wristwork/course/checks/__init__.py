"""What a tired tutor misses: checks on the whole course, each with its limit and the reason for it."""

from wristwork.course.checks.run import CHECKS, check_course, open_findings
from wristwork.course.checks.table import Check, Finding, finding_data

__all__ = ["CHECKS", "Check", "Finding", "check_course", "finding_data", "open_findings"]
