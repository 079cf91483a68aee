"""Lesson 7, torque and the torque wrench."""

MODULES = ("bolt_figures", "deeper", "wrench", "scale", "lever", "bolts")
"""In the order in which their exercises are asked."""
