"""Classes with other cars than A to D: an exercise is drawn for one of their cars, or says why it is left out."""

import json
import re

import msgspec
import pytest

from bitepoint.bank import exercises_of
from bitepoint.bank.lessons import LESSONS as LESSONS_OF_THE_COURSE

LESSONS = tuple(LESSONS_OF_THE_COURSE)
CLASSES = (("A",), ("B",), ("C",), ("D",), ("B", "C"))
LEARNERS, TURNS = [f"learner-{n}" for n in range(10)], (1, 2, 3)
EXERCISES = [e for lesson in LESSONS for e in exercises_of(lesson)]

every_class = pytest.mark.parametrize("cars", CLASSES, ids="".join)
every_exercise = pytest.mark.parametrize("exercise", EXERCISES, ids=[e.id for e in EXERCISES])


def cars_named(question):
    """Return the letters of the training vehicles in everything that is asked, said and drawn."""
    words = json.dumps(msgspec.to_builtins(question))
    drawn = {question.picture.parameters.get("vehicle")} if question.picture else set()
    return set(re.findall(r"vehicle ([A-Z])\b", words)) | ({question.vehicle, *drawn} - {"", None})


@every_class
@every_exercise
def test_an_exercise_speaks_of_a_car_of_the_class_or_is_left_out(exercise, cars):
    """Every question that a class gets names its cars only; what it does not get has a reason."""
    if reason := exercise.left_out(cars):
        assert re.fullmatch(r"No car of this class has what it is about: .+\.", reason)
        return
    for learner in LEARNERS:
        for turn in TURNS:
            question = exercise.draw(class_word="x", learner=learner, turn=turn, vehicle=cars[0], cars=cars)
            assert cars_named(question) <= set(cars), question.ask


CHANGED = {f"kit.{key}" for key in ("agree", "bolt-bottoms", "conditions", "contents", "label", "wrong-bolts")}
NO_DUAL_MASS = {"carry.go-together", "carry.resonance", "strip.dual-mass", "measure.free-angle"} | CHANGED
NO_RIGID = {"strip.flywheel"}
NO_RING, NO_ADJUSTER = {"assembly.ring-left-out"}, {"assembly.self-adjusting"}
EVEN_HOLES, NO_CABLE = {"assembly.odd-hole", "star.uneven-six"}, {"release.free-play"}
NO_HYDRAULICS = {
    f"release.{key}" for key in ("line-pressure", "air-lost", "air-left", "fluid", "bleeding", "bleed-log")
}
NO_ANGLE = {f"torque.{key}" for key in ("after-angle", "mark-travel", "angle-gauge", "angle-twice")} | {
    "star.angle-log"
}
ANGLE_ONLY, NO_PILOT = {"torque.weakest-joint", "torque.oiled-bolts"}, {"measure.pilot-depth"}
NO_CONVENTIONAL = {"carry.clamp-curve", "assembly.half-turns", "strip.cover-round"}
LEFT_OUT = {
    "A": NO_DUAL_MASS | NO_ANGLE | NO_PILOT | EVEN_HOLES | NO_RING | NO_ADJUSTER | NO_HYDRAULICS,
    "B": NO_RIGID
    | {"carry.which-part", "strip.release-parts", "release.no-play"}
    | ANGLE_ONLY
    | NO_PILOT
    | EVEN_HOLES
    | NO_ADJUSTER
    | NO_CABLE,
    "C": NO_RIGID
    | NO_CONVENTIONAL
    | ANGLE_ONLY
    | NO_PILOT
    | NO_RING
    | NO_CABLE
    | {"carry.resonance", "release.no-play"},
    "D": {"strip.hub-nut"} | NO_DUAL_MASS | NO_ANGLE | EVEN_HOLES | NO_RING | NO_ADJUSTER | NO_CABLE,
    "BC": NO_RIGID | ANGLE_ONLY | NO_PILOT | NO_CABLE | {"release.no-play"},
}
"""What not every car has: two flywheels, their bolts and inertia figures, a hub nut, a release fork, a conventional cover,
uneven holes, bolts tightened by angle or by torque alone, a pilot bearing, a ring under the bolts, an adjuster in the
cover, a cable, hydraulics, play that is set by hand."""


@every_class
def test_only_what_no_car_of_the_class_has_is_left_out(cars):
    """Whoever has one car gets all but what that car cannot show."""
    assert LEFT_OUT["".join(cars)] == {e.id for e in EXERCISES if e.left_out(cars)}
