"""Exercises, weeks, plan, load, exposure, addresses and checks: a course as plain values."""
