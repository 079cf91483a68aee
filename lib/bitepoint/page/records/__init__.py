"""Records that a lesson keeps beside its summary: one module a lesson that has one, registered by the lesson's key."""

from collections.abc import Callable, Sequence

from markupsafe import Markup

from bitepoint.logbook import Identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.records import job

Record = Callable[[Sequence[ExerciseSession], Identity], Markup]
RECORDS: dict[str, Record] = {"job": job.page_html}
