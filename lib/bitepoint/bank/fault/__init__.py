"""Lesson 3, finding the fault."""

MODULES = ("words", "checks", "log", "road", "shake", "evidence")
"""In the order in which their exercises are asked."""
