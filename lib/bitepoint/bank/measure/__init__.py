"""Lesson 6, measuring and deciding."""

MODULES = ("instruments", "turn", "figures", "sure", "decide")
"""In the order in which their exercises are asked."""
