"""Lesson 5, strip-down and inspection."""

MODULES = ("work_order", "bolts", "look", "decide")
"""In the order in which their exercises are asked."""
