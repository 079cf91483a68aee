"""Lesson refit: figures follow from the words, the log proves what is said, and only what hurts is critical."""

import re
from itertools import islice
from math import isclose

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.workshop.vehicles import vehicle

BANK = exercises()
LEARNERS = [f"learner-{n}" for n in range(60)]


def drawn(id):
    """Yield the exercise's questions for sixty learners and three turns."""
    for learner in LEARNERS:
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=learner, turn=turn)


def one(pattern, text):
    """Return the one figure that a pattern finds."""
    return float(re.search(pattern, text)[1])


def right_of(question):
    """Return the text of the right option."""
    return next(o.text for o in question.options if o.right)


def test_refit_words_lead_to_the_missing_oil():
    """What was missing, or the share that came out, follows from the two figures in the words."""
    for question in drawn("refit.oil-short"):
        out, sheet = one(r"came ([\d.]+) litres", question.ask), one(r"says ([\d.]+) litres", question.ask)
        worked = 100 * out / sheet if question.unit == "%" else sheet - out
        assert isclose(question.answer, worked, rel_tol=1e-6), question.ask


def test_refit_oil_is_judged_at_85_percent():
    """From 85 % of the sheet on it is normal, below it a leak is looked for."""
    for question in drawn("refit.oil-short"):
        out, sheet = one(r"came ([\d.]+) litres", question.ask), one(r"says ([\d.]+) litres", question.ask)
        assert ("look for the leak" in question.why) == (out / sheet < 0.85), question.ask


def test_refit_every_number_question_is_worked_again():
    """No number question of the lesson is left out above."""
    numbers = {e.id for e in exercises_of("refit") if next(drawn(e.id)).kind == "number"}
    assert {"refit.oil-short"} == numbers


def test_refit_outcomes_have_two_exercises_each():
    """Every outcome is shown by at least two exercises."""
    shown = [e.outcome for e in exercises_of("refit")]
    assert [o for o in set(shown) if shown.count(o) < 2] == []


def test_refit_stop_and_ask_is_never_critical():
    """An option that asks for help never fails anybody."""
    for exercise in exercises_of("refit"):
        for question in drawn(exercise.id):
            for option in getattr(question, "options", ()):
                assert not (option.critical and "stop and ask" in option.text)


def test_refit_rev_test_never_goes_past_the_sheet():
    """The right option names no engine speed above 5000 rpm or above the sheet of that vehicle."""
    for question in drawn("refit.rev-test"):
        ceiling = min(5000, vehicle(question.vehicle).engine.static_test_max_rpm)
        speeds = [float(n) for n in re.findall(r"(\d+) rpm", right_of(question))]
        assert all(speed <= ceiling for speed in speeds), question.ask


def test_refit_gears_are_never_tried_off_the_ground():
    """Every option with a lift or stands in it is a critical mistake."""
    for question in drawn("refit.gears-where"):
        raised = [o for o in question.options if re.search("lift|stands", o.text)]
        assert raised
        assert all(o.critical and not o.right for o in raised)


def test_refit_top_gear_for_the_slip_test_is_critical_and_not_on_the_sheet():
    """Where top gear is called wrong, the sheet of that vehicle names another gear."""
    seen = set()
    for question in drawn("refit.road-test"):
        for option in question.options:
            if option.text.startswith("Top gear"):
                car = vehicle(question.vehicle)
                seen.add(car.id)
                assert option.critical
                assert car.gearbox.slip_test_gear < len(car.gearbox.ratios)
    assert seen


def test_refit_road_log_proves_the_right_option():
    """Read from the alt text of its plot: off its line with a light foot, at full throttle only, rolling, or nowhere."""
    met = set()
    for question in islice(drawn("refit.road-log"), 60):
        gear = vehicle(question.vehicle).gearbox.slip_test_gear
        told = draw_picture(question.picture.key, **question.picture.parameters).alt
        if question.picture.key == "road-test":
            rolls = re.findall(r"clutch pedal 100, gear 1, speed of the wheels not driven ([\d.]+)", told)
            says = "It drags" if max(float(r) for r in rolls) > 0.8 else "It holds"
        else:
            line = one(rf"[ ,]{gear}: ([\d.]+)[,.]", told)
            light, full = (
                [
                    float(rpm) * line / 1000 / float(kmh) - 1
                    for rpm, kmh in re.findall(
                        r"(\d+) rpm with ([\d.]+) km/h", re.search(rf"in gear {gear} ([^;]*)", part)[1]
                    )
                ]
                for part in re.findall(r"Driven wheels, (?:less|full) throttle: (.*?)(?=Driven|Wheels|$)", told)
            )
            says = (
                "It holds" if max(map(abs, full)) <= 0.02 else "It slips" if abs(light[0]) <= 0.02 else "Stop and ask"
            )
        assert right_of(question).startswith(says), told
        met.add(says)
    assert met == {"It holds", "It slips", "Stop and ask", "It drags"}


def test_refit_a_car_that_creeps_is_never_handed_over():
    """Whoever hands a dragging clutch over makes a critical mistake; opening brakes in vain is none."""
    for question in drawn("refit.road-log"):
        critical = {o.name for o in question.options if o.critical}
        drags = right_of(question).startswith("It drags")
        wanted = {"lets a car that creeps go out", "waits for a creeping car to bed in"} if drags else set()
        assert critical == wanted


@pytest.mark.parametrize("id", ["refit.order-of-work", "refit.static-order"])
def test_refit_orders_give_a_reason_for_every_rule(id):
    """Every rule of an order is said with its reason."""
    for question in drawn(id):
        assert question.rules
        assert all(rule.because.strip() for rule in question.rules)
