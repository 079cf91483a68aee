"""Lesson 3, finding the fault."""

MODULES = ("words", "checks", "play", "tests", "log", "road", "shake", "evidence", "decide")
"""In the order in which their exercises are asked."""
