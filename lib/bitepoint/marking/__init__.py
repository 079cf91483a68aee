"""Marking hand-ins without running anyone's code, and rehearsing it on an invented class."""

from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.run import mark_hand_ins
from bitepoint.marking.writing import Outcome

__all__ = ["Outcome", "mark_hand_ins", "rehearse"]
