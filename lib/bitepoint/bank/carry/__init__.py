"""Lesson 1, how a clutch carries torque."""

MODULES = ("parts", "figures", "lift", "wear", "damper", "deeper")
"""In the order in which their exercises are asked."""
