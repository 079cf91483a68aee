"""Lesson 0, start here."""

MODULES = ("first_tries", "ground_rules")
"""In the order in which their exercises are asked."""
