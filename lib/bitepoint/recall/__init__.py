"""Recall over weeks: when an exercise was seen, how firmly it is remembered, and what is due to be asked again."""
