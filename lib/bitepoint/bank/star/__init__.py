"""Lesson 8, star tightening."""

MODULES = ("drills", "figures", "balance", "reasons", "judge", "jobs")
"""In the order in which their exercises are asked."""
