"""The learner's record: who is asking, one chained file a lesson and device, what it says, and how it is handed in."""

from bitepoint.logbook.book import Logbook, read_folder
from bitepoint.logbook.identity import Identity, find_workbook, practice_learner
from bitepoint.logbook.record import Line, Record, check_code

__all__ = [
    "Identity",
    "Line",
    "Logbook",
    "Record",
    "check_code",
    "find_workbook",
    "practice_learner",
    "read_folder",
]
