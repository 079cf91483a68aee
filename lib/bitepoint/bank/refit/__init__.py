"""Lesson 11, refit."""

MODULES = ("gearbox", "fill", "checks", "handover")
"""In the order in which their exercises are asked."""
