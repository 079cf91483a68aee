"""Lesson 2, working safely."""

MODULES = ("equipment", "bay", "lift", "people")
"""In the order in which their exercises are asked."""
