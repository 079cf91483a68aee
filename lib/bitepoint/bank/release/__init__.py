"""Lesson 10, the release system."""

MODULES = ("travel", "air", "bleed", "decide")
"""In the order in which their exercises are asked."""
