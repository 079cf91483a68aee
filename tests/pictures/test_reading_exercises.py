"""Each exercise that asks for a reading: what its own drawing shows, read back from the lines alone, is what it marks right."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

import pytest

from bitepoint.bank import exercise_named, exercises
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.pictures import draw, registry
from bitepoint.questions.choice import Choice
from bitepoint.questions.number import Number
from bitepoint.questions.sweep import Sweep
from bitepoint.workshop.vehicles import vehicle

from . import seen
from .seen import Seen

DRAWN = 500


class Reads(NamedTuple):
    """How an exercise's figure follows from its drawing, and half the smallest division in the answer's unit."""

    figure: Callable[[Number, Seen], float]
    half_division: Callable[[Number], float]


def _told(question: Number, before: str) -> float:
    """Return the figure that stands in the words before these."""
    return float(question.ask.partition(before)[0].split()[-1])


def _stops(question: Number, drawn: Seen) -> float:
    return abs(seen.dial_gauge(drawn))


def _sweep(question: Number, drawn: Seen) -> float:
    shown = seen.sweep(drawn)
    assert [round(100 * reading) for reading in shown] == list(question.held)  # type: ignore[attr-defined]
    return run_out_mm(shown)


def _feeler(question: Number, drawn: Seen) -> float:
    assert question.picture
    goes, stops = seen.feeler(drawn, list(question.picture.parameters["leaves_mm"]))
    return stops if "stay below" in question.ask else goes


def _wrench(question: Number, drawn: Seen) -> float:
    setting = seen.torque_wrench(drawn)
    return _told(question, " N·m. The picture") - setting if "missing" in question.ask else setting


def _angle(question: Number, drawn: Seen) -> float:
    start, end = seen.angle_gauge(drawn)
    moved = (end - start) % 360
    if "missing" not in question.ask:
        return moved
    return float(vehicle(question.vehicle).flywheel.tightening.angle_deg or 0) - moved


def _pedal(question: Number, drawn: Seen) -> float:
    rest, begins, down = seen.pedal(drawn)
    if "after the free play" in question.ask:
        return down - begins
    return down - rest if "whole travel" in question.ask else begins - rest


def _half(division: float) -> Callable[[Number], float]:
    return lambda question: division / 2


READS = {
    "measure.vernier": Reads(
        lambda q, d: seen.vernier(d), lambda q: q.picture.parameters["resolution"] / 2 if q.picture else 0
    ),
    "measure.micrometer": Reads(lambda q, d: seen.micrometer(d), _half(0.01)),
    "measure.dial-gauge": Reads(lambda q, d: seen.dial_gauge(d), _half(0.01)),
    "measure.end-float": Reads(_stops, _half(0.01)),
    "measure.run-out": Reads(_sweep, _half(0.01)),
    "measure.feeler": Reads(_feeler, _half(0.01)),
    "torque.read-scale": Reads(_wrench, _half(0.5)),
    "torque.angle-gauge": Reads(_angle, _half(1)),
    "release.pedal-rule": Reads(_pedal, _half(1)),
}


def drawn_in(key: str) -> str:
    """Return the folder of pictures/ that draws a picture, as "measuring"; the folder's instruments are all read."""
    return registry._PICTURES[key].__module__.split(".")[2]


def drawn(id: str) -> Iterator[Number]:
    """Yield five hundred questions of an exercise, each for a learner of their own."""
    exercise = exercise_named(id)
    for n in range(DRAWN):
        question = exercise.draw(class_word="amber", learner=f"reader-{n}", turn=1 + n % 3)
        assert isinstance(question, Number)
        yield question


@pytest.mark.parametrize("id", READS)
def test_what_the_drawing_shows_is_right_and_every_misreading_wrong(id: str) -> None:
    """Five hundred draws: recovered within half a division and marked right; each known mistake is matched and wrong."""
    reads = READS[id]
    for question in drawn(id):
        assert question.picture
        shown = reads.figure(question, Seen(question.picture.key, **question.picture.parameters))
        assert shown == pytest.approx(question.answer, abs=reads.half_division(question)), question.ask
        assert question.mark(f"{shown:.6f}").score == 1, question.ask
        assert len(question.mistakes) >= 2
        for mistake in question.mistakes:
            verdict = question.mark(f"{mistake.value:.6g} {question.unit}")
            assert (verdict.score, verdict.mistake) == (0, mistake.name), question.ask


def test_no_exercise_with_an_instrument_escapes_the_check_above() -> None:
    """Every exercise that asks for a figure beside a drawing of pictures/measuring/ stands in the list."""
    asked = set()
    for id, exercise in exercises().items():
        question = exercise.draw(class_word="amber", learner="ada")
        if isinstance(question, Number) and question.picture and drawn_in(question.picture.key) == "measuring":
            asked.add(id)
    assert asked == set(READS), "Its reading is recovered by a function in seen.py and named in READS."


def test_the_free_angle_is_the_count_from_mark_to_mark() -> None:
    """Recovered from the drawn marks; more teeth than the sheet allows mean a new flywheel, exactly as many do not."""
    met = set()
    for n in range(DRAWN):
        question = exercise_named("measure.free-angle").draw(class_word="amber", learner=f"reader-{n}", turn=1 + n % 2)
        assert isinstance(question, Choice)
        if not question.picture:
            continue
        count = round(seen.teeth(Seen(question.picture.key, **question.picture.parameters)))
        limits = vehicle(question.vehicle).flywheel.dmf_limits
        assert limits
        best = next(o.text for o in question.options if o.right)
        assert best.startswith(f"{count} teeth: ")
        assert best.endswith("replace the flywheel") == (count > limits.free_angle_teeth_max)
        met.add((count > limits.free_angle_teeth_max) - (count < limits.free_angle_teeth_max))
    assert met == {-1, 0, 1}


@pytest.mark.parametrize("id", [id for id in READS if id.startswith("measure.") and id != "measure.feeler"])
def test_whoever_hears_the_picture_still_has_to_read_it(id: str) -> None:
    """Alternative text and caption say which lines stand where, never the figure that is asked."""
    exercise = exercise_named(id)
    for n in range(60):
        question = exercise.draw(class_word="amber", learner=f"reader-{n}")
        assert isinstance(question, Number)
        assert question.picture
        drawing = draw(question.picture.key, **question.picture.parameters)
        shown = f"{question.answer:.{question.decimals}f}"
        assert shown not in f"{drawing.alt} {drawing.caption}", question.ask


def test_letting_end_float_in_gives_a_wrong_run_out() -> None:
    """Readings taken with nobody pushing lead to the mistake of that name, and place 1 does not read the same again."""
    for question in drawn("measure.run-out"):
        assert isinstance(question, Sweep)
        loose = run_out_mm([line / 100 for line in question.loose])
        assert question.mark(f"{loose:.2f} mm").mistake == "lets end float in"
        assert question.held[0] == question.held[-1]
        assert abs(question.loose[0] - question.loose[-1]) > 2
        assert all(loose >= held for held, loose in zip(question.held, question.loose, strict=True))
