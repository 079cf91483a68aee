"""Lesson 4, the right kit."""

MODULES = ("match", "parts", "names", "bolts", "change")
"""In the order in which their exercises are asked."""
