"""Lesson 7, torque and the torque wrench."""

MODULES = ("bolt_figures", "wrench", "scale", "lever", "bolts", "use")
"""In the order in which their exercises are asked."""
