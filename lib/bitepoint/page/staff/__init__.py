"""What staff notebooks import: a rehearsed class to mark step by step or to watch at work, and the form for observations."""

from bitepoint.page.staff.class_board import watched_class
from bitepoint.page.staff.observing import observations
from bitepoint.page.staff.rehearsed import rehearsed_class

__all__ = ["observations", "rehearsed_class", "watched_class"]
