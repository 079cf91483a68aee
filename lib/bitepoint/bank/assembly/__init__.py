"""Lesson 9, assembly."""

MODULES = ("surfaces", "flywheel", "clutch", "order", "judge")
"""In the order in which their exercises are asked."""
