"""Lesson 10, the release system."""

MODULES = ("travel", "pedal", "line", "bleed", "decide")
"""In the order in which their exercises are asked."""
