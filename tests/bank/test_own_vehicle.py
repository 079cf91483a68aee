"""A college's own sheet as a class vehicle: every exercise is drawn for it, or left out with a reason."""

from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.errors import NotCovered
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import vehicle

OWN_SHEET = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
every_exercise = pytest.mark.parametrize("exercise", exercises().values(), ids=list(exercises()))


@pytest.fixture(scope="module")
def files(own_pack):
    """The shipped data files and the class's own folder."""
    return DataFiles(places.assets(), own_pack)


def drawn(exercise, cars, learners=4):
    """Return the exercise's questions for some learners on K7V, four turns each."""
    return [
        exercise.draw(class_word="x", learner=f"l{n}", turn=turn, vehicle="K7V", cars=cars)
        for n in range(learners)
        for turn in (1, 2, 3, 4)
    ]


@every_exercise
@pytest.mark.parametrize("cars", [(*STANDARD, "K7V"), ("K7V",)], ids="-".join)
def test_every_exercise_is_drawn_for_an_own_sheet_or_left_out_with_a_reason(exercise, cars, files):
    """Right is right, a mistake is none, the picture is drawn; beside training vehicles nothing is left out."""
    with using(files):
        reason = exercise.left_out(cars)
        if reason:
            assert cars == ("K7V",)
            assert reason.startswith(("No car of this class has", "The sheet of K7V has no"))
            return
        for question in drawn(exercise, cars):
            assert "raining vehicle K7V" not in f"{question}"
            assert question.mark(question.right_answer()).right
            assert all(question.mark(answer).score < 1 for answer, _ in question.known_mistakes())
        if question.picture:
            drawn_picture = draw_picture(question.picture.key, **question.picture.parameters)
            assert "raining vehicle K7V" not in f"{drawn_picture}"


def test_a_missing_figure_is_said_where_no_other_car_has_it(files):
    """Alone in its class the exercise is left out by the name of the figure; beside A it is asked about A."""
    capacity = exercises()["carry.capacity"]
    with using(files):
        assert (
            capacity.left_out(("K7V",))
            == "The sheet of K7V has no clutch.mu_design. Look it up in the vehicle's repair data."
        )
        with pytest.raises(NotCovered, match="no clutch.mu_design"):
            drawn(capacity, ("K7V",))
        assert {q.vehicle for q in drawn(capacity, ("A", "K7V"))} == {"A"}


def test_torques_and_limits_of_the_sheet_are_never_varied(files):
    """What the drill tightens to is what stands on the sheet, whoever draws it."""
    with using(files):
        jobs = drawn(exercises()["star.flywheel-job"], ("K7V",), 20)
        assert vehicle("K7V").flywheel.tightening.stages_nm == (20, 35)
    assert {stage.target for job in jobs for stage in job.stages if stage.kind == "angle"} == {40.0}
    # Another wrench setting stands there only where a crow-foot is fitted.
    plain = [job for job in jobs if "crow-foot" not in str(job.fitted)]
    assert {stage.target for job in plain for stage in job.stages if stage.kind == "torque"} == {20.0, 35.0}


def test_a_question_about_an_own_sheet_is_bound_to_its_figures(files, own_pack, tmp_path):
    """With another figure on the marker's sheet the facts differ, even where the question does not show it."""
    text = (own_pack / "vehicles" / "k7v.toml").read_text(encoding="utf-8").replace("oil_litre = ", "oil_litre = 1", 1)
    (tmp_path / "vehicles").mkdir()
    (tmp_path / "vehicles" / "k7v.toml").write_text(text, encoding="utf-8")
    digests = []
    for data in (files, DataFiles(places.assets(), tmp_path)):
        with using(data):
            digests.append(drawn(exercises()["star.flywheel-job"], ("K7V",), 1)[0].facts_digest())
    assert digests[0] != digests[1]


def test_nothing_stands_in_a_question_where_the_sheet_has_no_words(files, tmp_path):
    """The form asks for the grade of the fluid alone; a sheet without the words for it leaves no gap in the question."""
    (tmp_path / "vehicles").mkdir()
    text = OWN_SHEET.read_text(encoding="utf-8").replace('fluid = "glycol brake fluid, grade DOT 4"\n', "")
    (tmp_path / "vehicles" / "k7v.toml").write_text(text, encoding="utf-8")
    with using(DataFiles(places.assets(), tmp_path)):
        asked = [q.ask for q in drawn(exercises()["release.fluid"], ("K7V",))]
    assert any("says: brake fluid, grade DOT 4." in ask for ask in asked)
    assert not any("says: ." in ask for ask in asked)
