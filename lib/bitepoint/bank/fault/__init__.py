"""Lesson 3, finding the fault."""

MODULES = ("checks", "log", "road", "shake", "evidence", "listen")
"""In the order in which their exercises are asked."""
