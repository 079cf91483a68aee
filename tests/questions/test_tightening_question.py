"""The tightening drill judged against a vector sum of our own, and every way of doing it wrong."""

import cmath
from functools import cache
from itertools import permutations
from math import radians

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.questions.fitted import Fitted
from bitepoint.questions.pulls import Stage
from bitepoint.questions.tightening import Tightening

ALLOWED_ABOVE_BEST = 0.25
EVEN = {n: tuple(360 * i / n for i in range(n)) for n in (4, 5, 6)}
UNEVEN = (0.0, 52.0, 120.0, 180.0, 240.0, 300.0)
RINGS = [*EVEN.values(), UNEVEN]
ONE = (Stage("order", "One stage", "order"),)
JOB = (
    Stage("hand", "Hand", "hand"),
    Stage("stage 1", "Stage 1 · 20 N·m", "torque", 20),
    Stage("stage 2", "Stage 2 · 60 N·m", "torque", 60),
    Stage("second round", "Second round · 60 N·m", "second torque", 60),
)
ANGLE_JOB = (
    Stage("hand", "Hand", "hand"),
    Stage("stage 1", "Stage 1 · 20 N·m", "torque", 20),
    Stage("angle", "Angle · 50°", "angle", 50),
    Stage("second round", "Look", "look"),
)
STAR = "1 4 2 5 3 6"
CROW_FOOT = Fitted("crow-foot", 410, 75)
STRAIGHT = Fitted("straight bar", 410, 75)


def drill(angles=EVEN[6], stages=ONE, **more):
    return Tightening(ask="?", why="Flat.", source="derived", angles_deg=angles, stages=stages, **more)


def peak(angles, order):
    """Largest length of the running sum of arrows, with complex numbers."""
    total, worst = 0j, 0.0
    for bolt in order:
        total += cmath.exp(1j * radians(angles[bolt - 1]))
        worst = max(worst, abs(total))
    return worst


@cache
def best(angles):
    """Smallest peak of all orders, by trying every one."""
    return min(peak(angles, order) for order in permutations(range(1, len(angles) + 1)))


@given(st.sampled_from(RINGS).flatmap(lambda a: st.tuples(st.just(a), st.permutations(range(1, len(a) + 1)))))
@settings(deadline=None, max_examples=500)
def test_any_order_is_right_exactly_when_its_peak_is_within_the_allowance(case):
    """A random order agrees with trying out every order and adding the arrows."""
    angles, order = case
    verdict = drill(angles).mark(list(order))
    balanced = peak(angles, order) <= best(angles) + ALLOWED_ABOVE_BEST + 1e-9
    assert verdict.right == balanced
    assert verdict.critical is False
    if not balanced:
        assert verdict.mistakes in (("round the circle",), ("one-sided order",))


@pytest.mark.parametrize("angles", RINGS)
def test_the_example_and_its_known_mistakes_mark_as_they_should(angles):
    """The drill's own right answer is right; each of its wrong jobs is matched by name."""
    for question in (
        drill(angles),
        drill(angles, JOB),
        drill(angles, JOB, fitted=CROW_FOOT),
        drill(angles, JOB, fitted=STRAIGHT),
        drill(angles, ANGLE_JOB),
        drill(angles, ANGLE_JOB, fitted=Fitted("crow-foot", 260, 75)),
    ):
        assert question.mark(question.right_answer()).right
        assert len(question.known_mistakes()) >= 3
        for answer, name in question.known_mistakes():
            verdict = question.mark(answer)
            assert (verdict.score, verdict.mistake) == (0, name), answer


@given(lever=st.sampled_from([260, 410, 620]), offset=st.integers(30, 120))
@settings(deadline=None)
def test_known_mistakes_of_a_setting_never_coincide(lever, offset):
    """Whatever crow-foot or bar is fitted, each wrong setting is matched by its own name."""
    for kind in ("crow-foot", "straight bar"):
        question = drill(stages=JOB, fitted=Fitted(kind, lever, offset))
        for answer, name in question.known_mistakes():
            assert question.mark(answer).mistake == name


def job(hand=STAR, one=STAR, two=STAR, second=STAR, at=(20, 60, 60), tool=""):
    return (
        f"hand: {hand}; stage 1{tool} at {at[0]} N·m: {one}; stage 2 at {at[1]} N·m: {two}; "
        f"second round at {at[2]} N·m: {second}"
    )


def test_the_hand_start_and_the_second_round_may_go_round_the_circle():
    """Fingers pull nothing down, and the second round may go in any order, once each."""
    assert drill(stages=JOB).mark(job(hand="1 2 3 4 5 6", second="6 5 4 3 2 1")).right


@pytest.mark.parametrize(
    ("answer", "mistake", "critical"),
    [
        (job(one="1 2 3 4 5 6"), "round the circle", False),
        (job(two="1 6 5 4 3 2"), "round the circle", False),
        (job(two="1 2 4 5 3 6"), "one-sided order", False),
        (job(one="1 4 2 5 3"), "bolt missed", True),
        (job(second="1 4 2 5 3"), "bolt missed", True),
        (job(two=f"{STAR} 1"), "bolt pulled twice", False),
        (job().partition("; second")[0], "stage missed", True),
        (job(tool=" with impact"), "impact tool", True),
        (job(tool=" with gauge"), "wrong tool", False),
        (job(at=(20, 60, 66)), "wrong wrench setting", True),
        (job(at=(26, 60, 60)), "wrong wrench setting", True),
        (job().replace(" at 20 N·m", ""), "wrong wrench setting", True),
        (f"{job()}; stage 1 at 20 N·m: {STAR}", "stages mixed", False),
    ],
)
def test_each_fault_is_found_and_weighed(answer, mistake, critical):
    """Missed bolts and stages, impact tools and wrong settings are critical; a wrong path is not."""
    verdict = drill(stages=JOB).mark(answer)
    assert verdict.score == 0
    assert mistake in verdict.mistakes
    assert verdict.critical is critical


@pytest.mark.parametrize(
    ("answer", "mistake"),
    [
        (
            f"hand: {STAR}; stage 1 at 20 N·m: {STAR}; angle: {STAR} 3; second round: {STAR}",
            "angle turned twice",
        ),
        (
            f"hand: {STAR}; stage 1 at 20 N·m: {STAR}; angle: {STAR}; second round with gauge: {STAR}",
            "angle turned twice",
        ),
        (
            f"hand: {STAR}; stage 1 at 20 N·m: {STAR}; angle: {STAR}; second round with wrench: {STAR}",
            "angle turned twice",
        ),
    ],
)
def test_turning_an_angle_bolt_again_is_critical(answer, mistake):
    """Twice in the stage, or once more in the second round: the bolt is overstretched."""
    verdict = drill(stages=ANGLE_JOB).mark(answer)
    assert (verdict.score, verdict.mistake, verdict.critical) == (0, mistake, True)


def test_the_setting_follows_what_is_fitted():
    """A crow-foot of 75 mm on 410 mm lowers the setting, a straight bar of 75 mm does not."""
    lowered = tuple(round(t * 410 / 485, 1) for t in (20, 60, 60))
    assert drill(stages=JOB, fitted=CROW_FOOT).mark(job(at=lowered)).right
    ignored = drill(stages=JOB, fitted=CROW_FOOT).mark(job())
    assert (ignored.mistake, ignored.critical) == ("crow-foot ignored", True)
    assert drill(stages=JOB, fitted=STRAIGHT).mark(job()).right
    corrected = drill(stages=JOB, fitted=STRAIGHT).mark(job(at=lowered))
    assert (corrected.mistake, corrected.critical) == ("straight bar corrected for", True)
    assert "15 % too loose" in corrected.feedback


@pytest.mark.parametrize(("off", "right"), [(1.019, True), (0.981, True), (1.021, False), (0.979, False)])
def test_a_setting_may_miss_by_two_per_cent(off, right):
    """Just inside is taken, just outside is not."""
    assert drill(stages=JOB).mark(job(at=(20, round(60 * off, 2), 60))).right is right


def test_a_printed_order_wins_and_is_not_told():
    """The printed order is right though it is no star, a star is wrong, and the line does not print the order."""
    question = drill(printed_order=(1, 2, 4, 5, 3, 6))
    assert question.mark([1, 2, 4, 5, 3, 6]).right
    verdict = question.mark(STAR)
    assert (verdict.score, verdict.mistake, verdict.critical) == (0, "printed order not kept", False)
    assert "from place 2 on" in verdict.feedback
    assert "1 2 4 5 3 6" not in verdict.feedback


def test_a_neighbour_is_advice():
    """A balanced order that steps to a neighbour is right, with a word of advice."""
    verdict = drill().mark([1, 4, 3, 6, 2, 5])
    assert verdict.right
    assert verdict.advice == (
        "Balanced, but bolt 3 follows its neighbour 4. Crossing over each time is easier to keep up.",
    )


@given(st.sampled_from([ONE, JOB, ANGLE_JOB]), st.text(max_size=80) | st.lists(st.integers(0, 7), max_size=9))
@settings(deadline=None, max_examples=200)
def test_what_was_read_marks_as_what_was_typed(stages, answer):
    """The logbook's form of an answer gets the verdict of the answer itself."""
    from bitepoint.errors import NotUnderstood

    question = drill(stages=stages)
    try:
        recorded = question.read(answer)
    except NotUnderstood:
        return
    assert question.mark(recorded) == question.mark(answer)


def test_fitted_says_what_sits_on_the_wrench():
    """The label names kind, length, direction and lever; nothing fitted has no label."""
    assert Fitted().label == ""
    assert CROW_FOOT.label == "crow-foot, 75 mm, in line with the handle; lever 410 mm"
    square = msgspec.structs.replace(CROW_FOOT, angle_deg=90.0)
    assert square.label == "crow-foot, 75 mm, square to the handle; lever 410 mm"
    assert square.setting_nm(60) == pytest.approx(60)
    assert STRAIGHT.label == "straight bar, 75 mm, between wrench and socket; lever 410 mm"
