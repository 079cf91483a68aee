"""Lesson 12, the whole job."""

MODULES = ("complaint", "kit", "plan", "order", "inspect", "build", "measure", "refit", "wrench", "checks", "record")
"""In the order in which their exercises are asked."""
