"""The capstone walked by each vehicle, clean and with different faults planted: what followed from each bench.

`python -m pytest -s tests/bank/test_job_walk.py` prints the walks.
"""

from functools import cache
from itertools import count

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.bank.job.inspect import follows_from
from bitepoint.bank.job.story import DONE_FOR, Story, story_of
from bitepoint.logbook import Identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.records.job import page_html, record_lines, story_for
from bitepoint.questions.draw import Draw

WORD = "walk"
WANTED = {
    "clean": lambda story: follows_from(story) == "nothing-more",
    "cracked housing, agreed": lambda story: stop_name(story) == "Bell housing" and story.agreed,
    "cracked housing, refused": lambda story: stop_name(story) == "Bell housing" and not story.agreed,
    "crankshaft end float over, agreed": lambda story: stop_name(story) == "Crankshaft end float" and story.agreed,
    "fretted flange, refused": lambda story: stop_name(story) == "Crankshaft flange" and not story.agreed,
}
RIGHT = {
    "clean": ("write-it-down", ""),
    "cracked housing, agreed": ("call-first", " second bell housing is on the gearbox"),
    "cracked housing, refused": ("end-here", "job ended at the bench"),
    "crankshaft end float over, agreed": ("call-first", "ngine fitter renewed the thrust bearings"),
    "fretted flange, refused": ("end-here", "job ended at the bench"),
}
"""What is right at the bench, and what stands before the work that follows."""


def stop_name(story: Story) -> str:
    """Return the name of the gravest part that stops the job, "" where none does."""
    return story.stopped_by[0].name if story.stopped_by else ""


def story_by(learner: str) -> Story:
    """Return the job of a learner."""
    return story_of(Draw(class_word=WORD, learner=learner, exercise="job.record", turn=1))


@cache
def learner_of(letter: str, wanted: str) -> str:
    """Return the first learner who has this vehicle and this bench: every vehicle meets each of them."""
    for learner in (f"learner-{n}" for n in range(900)):
        story = story_by(learner)
        if story.car.id == letter and WANTED[wanted](story):
            return learner
    raise AssertionError(f"Nobody of 900 learners with vehicle {letter} has a bench: {wanted}.")


@pytest.mark.parametrize(("letter", "wanted"), [(letter, wanted) for letter in "ABCD" for wanted in WANTED])
def test_a_walk_carries_what_followed_from_the_bench(letter: str, wanted: str) -> None:
    """Every exercise answered right: the call fits the bench, what follows begins with it, and the record says it."""
    learner = learner_of(letter, wanted)
    who = Identity(learner=learner, class_word=WORD)
    sessions = [ExerciseSession(exercise, who) for exercise in exercises_of("job")]
    for session in sessions:
        session.answer(session.question().right_answer(), how="typed")
    by_id = {session.exercise.id: session for session in sessions}
    key, carried = RIGHT[wanted]
    assert key == next(o.key for o in by_id["job.call"].question().options if o.right)
    for id in ("job.tighten", "job.refit"):
        assert carried in by_id[id].question().ask
        assert by_id[id].question().ask.startswith(story_by(learner).since_bench)
    lines = {line.what: line for line in record_lines(sessions, story_for(who))}
    assert {"done"} == {line.state for line in lines.values()}
    assert carried in lines["After the bench"].done
    if story_by(learner).agreed:
        assert all(DONE_FOR[part.name] in lines["After the bench"].done for part in story_by(learner).stopped_by)
    assert ("second car of the model" in str(page_html(sessions, who))) == story_by(learner).ended
    bad = [f"{part.name} ({part.verdict.decision})" for part in story_by(learner).bench if part.state == "planted"]
    print(f"\n{letter} · {wanted}: planted {', '.join(bad) or 'nothing'}; then: {lines['After the bench'].done}")


def test_a_stop_that_is_passed_over_is_dangerous() -> None:
    """At the bench that stops the job, building on, or sending the car out, is a critical mistake; ending it is right."""
    seen = set()
    for n in count():
        learner = f"learner-{n}"
        kind = follows_from(story_by(learner))
        if kind in ("stopped", "said-no") and kind not in seen:
            question = exercises()["job.call"].draw(class_word=WORD, learner=learner)
            assert [o.key for o in question.options if o.critical]
            assert not any(o.critical for o in question.options if o.right)
            seen.add(kind)
        if len(seen) == 2:
            return
