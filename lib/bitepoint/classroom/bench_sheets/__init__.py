"""Bench sheets to print: what lies beside the car instead of a laptop."""
