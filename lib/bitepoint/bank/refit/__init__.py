"""Lesson 11, refit."""

MODULES = ("gearbox", "fill", "checks", "road", "handover")
"""In the order in which their exercises are asked."""
