"""Ten minutes of recall in a notebook: a round of questions that are due, one after the other, and what it says at the end."""

from bitepoint.page.recall.showing import keep_it

__all__ = ["keep_it"]
