"""Lesson 1, how a clutch carries torque."""

MODULES = ("parts", "torque_path", "figures", "lift", "damper", "sets", "deeper")
"""In the order in which their exercises are asked."""
