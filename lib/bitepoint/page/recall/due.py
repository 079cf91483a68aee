"""How many questions are due to be asked again, as a line at the end of a lesson."""

from bitepoint.bank import exercises
from bitepoint.bank.lessons import KEEP_NOTEBOOK
from bitepoint.logbook import Identity
from bitepoint.page.recall.remembering import end_of_day, records_of, utc_clock
from bitepoint.page.recall.saying import counted
from bitepoint.recall.choosing import MOST, is_asked_again
from bitepoint.recall.memory import memory_of
from bitepoint.recall.reviews import reviews_of


def due_words(identity: Identity) -> str:
    """Return one sentence where questions are due; "" where none is, or nobody is asked.

    Whether a mistake could hurt someone is left out here: that takes a draw of every exercise, and only brings some forward.
    """
    if not identity.kept or identity.sitting or identity.feedback == "after hand-in":
        return ""
    now, count = utc_clock(), 0
    for id, reviews in reviews_of(records_of(identity), now).items():
        exercise = exercises().get(id)
        if exercise and reviews and is_asked_again(exercise, identity.vehicles):
            count += memory_of(reviews).due <= end_of_day(now)
    if not count:
        return ""
    many = f"More than {MOST} questions" if count > MOST else counted(count, "question")
    return f"{many} {'is' if count == 1 else 'are'} due to be asked again: ten minutes in {KEEP_NOTEBOOK}."
