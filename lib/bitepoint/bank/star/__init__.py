"""Lesson 8, star tightening."""

MODULES = ("drills", "figures", "reasons", "rounds", "log", "impact", "jobs")
"""In the order in which their exercises are asked."""
