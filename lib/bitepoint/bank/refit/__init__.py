"""Lesson 11, refit."""

MODULES = ("gearbox", "fill", "checks", "road", "log", "hand")
"""In the order in which their exercises are asked."""
