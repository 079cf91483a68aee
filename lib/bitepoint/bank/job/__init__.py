"""Lesson 12, the whole job."""

MODULES = ("intake", "order", "inspect", "build", "measure", "refit", "handover")
"""In the order in which their exercises are asked."""
