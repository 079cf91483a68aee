"""A vehicle that a folder adds: its class gets every exercise or a reason, and nobody else's question changes."""

import msgspec
import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.datafiles import DataFiles, using

EXERCISES = list(exercises().values())
LACKING = {
    "carry.clamp-curve", "carry.resonance", "strip.cover-round", "strip.flywheel", "measure.pilot-depth", "torque.weakest-joint",
    "torque.oiled-bolts", "assembly.ring-left-out", "assembly.half-turns", "release.free-play", "release.no-play",
}  # fmt: skip
"""What a class on E alone does not get: a conventional cover, inertia figures, a rigid flywheel, a pilot bearing …"""
LEARNERS, TURNS = [f"learner-{n}" for n in range(6)], (1, 2, 3)
every_exercise = pytest.mark.parametrize("exercise", EXERCISES, ids=[e.id for e in EXERCISES])


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The shipped data files and a folder with vehicle E: built like C, its own engine code, uneven hole and kits, no stored log."""
    folder, assets = tmp_path_factory.mktemp("college"), places.assets()
    (folder / "vehicles").mkdir()
    sheet = (assets / "vehicles" / "c.toml").read_text(encoding="utf-8")
    own = sheet.replace('id = "C"', 'id = "E"', 1).replace('code = "PB20-D4"', 'code = "QX18-D1"', 1)
    own = own.replace("hole_angles_deg = [0, 52, 120,", "hole_angles_deg = [0, 60, 127,", 1)
    own = own.replace("plate_od_mm = 240", "plate_od_mm = 228", 1).partition("[[variants]]")[0]
    (folder / "vehicles" / "e.toml").write_text(own, encoding="utf-8")
    head, *rows = (assets / "kits.csv").read_text(encoding="utf-8").splitlines()
    kits = [row.replace("SK-3", "SK-5").replace("PB20-D4", "QX18-D1").replace(",240,", ",228,") for row in rows]
    own_kits = [row for row in kits if "QX18-D1" in row]
    (folder / "kits.csv").write_text("\n".join([head, *own_kits, ""]), encoding="utf-8")
    return DataFiles(assets, folder)


def drawn(exercise, letter, cars, learners=LEARNERS, **more):
    """Return the exercise's questions for some learners with this car, three turns each."""
    return [
        exercise.draw(class_word="x", learner=learner, turn=turn, vehicle=letter, cars=cars, **more)
        for learner in learners
        for turn in TURNS
    ]


@pytest.mark.parametrize("exercise", exercises().values(), ids=list(exercises()))
def test_no_question_of_a_class_on_the_shipped_vehicles_changes(exercise, files):
    """With the folder in use, whoever drives A to D is asked what they are asked without it."""
    for letter in STANDARD:
        plain = drawn(exercise, letter, STANDARD, LEARNERS[:2])
        with_folder = drawn(exercise, letter, STANDARD, LEARNERS[:2], data=files)
        assert [msgspec.to_builtins(q) for q in plain] == [msgspec.to_builtins(q) for q in with_folder]


@every_exercise
@pytest.mark.parametrize("cars", [(*STANDARD, "E"), ("E",)], ids="".join)
def test_whoever_has_the_added_vehicle_gets_the_exercise_or_a_reason(exercise, cars, files):
    """Drawn for E, marked right with its own answer; or left out by name."""
    with using(files):
        reason = exercise.left_out(cars)
    if reason:
        assert cars == ("E",)
        assert exercise.id in LACKING
        return
    for question in drawn(exercise, "E", cars, data=files):
        assert question.mark(question.right_answer()).right
        assert all(question.mark(answer).score < 1 for answer, _ in question.known_mistakes())


@every_exercise
def test_pictures_of_the_added_vehicle_can_be_drawn(exercise, files):
    """What a question about it shows is drawn from its sheet, with the places that are pointed at."""
    with using(files):
        if exercise.left_out(("E",)):
            return
        for question in drawn(exercise, "E", ("E",), LEARNERS[:1], data=files):
            if question.picture:
                drawing = draw_picture(question.picture.key, **question.picture.parameters)
                assert {spot.key for spot in getattr(question, "spots", ())} <= {r.key for r in drawing.regions}


def test_a_vehicle_that_no_list_has_a_kit_for_leaves_the_kit_exercises_out(tmp_path):
    """Alone in its class the exercises about its kit are left out by name; beside others, another car is asked about."""
    (tmp_path / "vehicles").mkdir()
    sheet = (places.assets() / "vehicles" / "a.toml").read_text(encoding="utf-8")
    sheet = sheet.replace('id = "A"', 'id = "E"', 1).replace('code = "OP10-C"', 'code = "QX10-C"', 1)
    (tmp_path / "vehicles" / "e.toml").write_text(sheet, encoding="utf-8")
    files, find_kit = DataFiles(places.assets(), tmp_path), next(e for e in EXERCISES if e.id == "kit.find-kit")
    with using(files):
        assert find_kit.left_out(("E",)) == "No car of this class has what it is about: kit in the list."
    assert {q.vehicle for q in drawn(find_kit, "E", (*STANDARD, "E"), data=files)} == {"A"}
    for exercise in exercises().values():
        with using(files):
            reason = exercise.left_out(("E",))
        assert reason or drawn(exercise, "E", ("E",), LEARNERS[:1], data=files)
