"""What staff notebooks import: a rehearsed class to mark step by step, and the form for observations."""

from bitepoint.page.staff.observing import observations
from bitepoint.page.staff.rehearsed import rehearsed_class

__all__ = ["observations", "rehearsed_class"]
