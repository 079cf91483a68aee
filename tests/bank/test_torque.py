"""Lesson torque: the words alone lead to the right figure, and only what hurts or loosens is critical."""

import re
from math import cos, pi, radians

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.workshop.tools import workshop
from bitepoint.workshop.vehicles import vehicle

BANK = exercises()
LEARNERS = [f"learner-{n}" for n in range(60)]
NUMBER = re.compile(r"\d+(?:\.\d+)?")
FOOT_POUND_NM = 0.3048 * 4.4482216152605


def drawn(id):
    """Yield the exercise's questions for sixty learners and three turns."""
    for learner in LEARNERS:
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=learner, turn=turn)


def one(pattern, text):
    """Return the one figure that a pattern finds."""
    return float(re.search(pattern, text)[1])


def from_words_preload(q):
    """Torque over K times diameter."""
    return one(r"gets ([\d.]+) N·m", q.ask) / (one(r"K = ([\d.]+\d)", q.ask) * one(r"is M([\d.]+)×", q.ask))


def from_words_proof_share(q):
    """Pull over area times proof stress, from the table."""
    rows = dict(q.table)
    proof = one(r"([\d.]+)", rows["Stress area"]) * one(r"([\d.]+)", rows["Proof stress"])
    return 100 * one(r"pulled by ([\d.]+) kN", q.ask) * 1000 / proof


def from_words_after_angle(q):
    """Preload before, and angle over a full turn times pitch times stiffness."""
    pitch = one(r"×(\d+(?:\.\d+)?)", q.ask)
    return one(r"pulls with ([\d.]+) kN", q.ask) + one(r"turned by ([\d.]+)°", q.ask) / 360 * pitch * one(
        r"travel makes ([\d.]+) kN", q.ask
    )


def from_words_mark_travel(q):
    """The share of the way round, one way or the other."""
    around = pi * one(r"of ([\d.]+) mm diameter", q.ask)
    if "How far was that bolt turned" in q.ask:
        return one(r"moved ([\d.]+) mm", q.ask) / around * 360
    return around * one(r"stage of ([\d.]+)°", q.ask) / 360


def from_words_weakest_joint(q):
    """Bolts times low preload times friction times half the bolt circle, over the engine's torque."""
    low = one(r"pull with ([\d.]+) kN", q.ask) * (1 - one(r"lie ([\d.]+) % low", q.ask) / 100)
    friction = one(r"joint is ([\d.]+\d)", q.ask)
    grip = one(r"has (\d+) bolts", q.ask) * low * friction * one(r"circle of ([\d.]+) mm", q.ask) / 2
    return grip / one(r"makes ([\d.]+) N·m", q.ask)


def from_words_spread(q):
    """The setting is the reading plus or minus its share: ISO 6789 counts the deviation from the test device."""
    share = one(r"at most (\d+) %", q.ask) / 100
    return one(r"You set (\d+) N·m", q.ask) / (1 - share if "the most" in q.ask else 1 + share)


def from_words_foot_pounds(q):
    """Foot-pounds and inch-pounds from their definition, not from the rate in the words."""
    given = float(NUMBER.findall(q.ask)[0])
    if "lbf·in for" in q.ask:
        return given * FOOT_POUND_NM / 12
    return given / FOOT_POUND_NM if "only scale" in q.ask else given * FOOT_POUND_NM


def from_words_crow_foot(q):
    """Lever over lever plus crow-foot, or the other way round for what the bolt got."""
    lever, out = one(r"lever is ([\d.]+) mm", q.ask), one(r"drive ([\d.]+) mm", q.ask)
    if "really get" in q.ask:
        return one(r"set to ([\d.]+) N·m", q.ask) * (lever + out) / lever
    return one(r"needs ([\d.]+) N·m", q.ask) * lever / (lever + out)


def from_words_crow_foot_angle(q):
    """Only the part in line with the handle counts."""
    lever, out = one(r"lever is ([\d.]+) mm", q.ask), one(r"crow-foot of ([\d.]+) mm", q.ask)
    angle = 90 if "at right angles" in q.ask else one(r"at (\d+)° to", q.ask)
    return one(r"needs (\d+) N·m", q.ask) * lever / (lever + out * cos(radians(angle)))


FROM_WORDS = {
    "torque.preload": from_words_preload,
    "torque.proof-share": from_words_proof_share,
    "torque.after-angle": from_words_after_angle,
    "torque.mark-travel": from_words_mark_travel,
    "torque.weakest-joint": from_words_weakest_joint,
    "torque.spread": from_words_spread,
    "torque.foot-pounds": from_words_foot_pounds,
    "torque.crow-foot": from_words_crow_foot,
    "torque.crow-foot-angle": from_words_crow_foot_angle,
}


DRAWN = {"torque.read-scale", "torque.angle-gauge"}
"""Read from their picture alone, and checked from it with the other drawn instruments."""


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only the words, the table and the picture of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


def test_every_number_question_is_worked_from_its_words():
    """No number question of this lesson escapes the check above."""
    made = {e.id: e.draw(class_word="amber", learner="ada").kind for e in exercises_of("torque")}
    assert set(FROM_WORDS) | DRAWN == {id for id, kind in made.items() if kind == "number"}


def test_training_vehicle_a_by_hand():
    """The figures that the lesson prints for vehicle A follow from its sheet by hand."""
    car = vehicle("A")
    bolt, sheet = car.flywheel.bolt, car.flywheel.tightening
    pull = sheet.final_nm / (sheet.nut_factor * bolt.d_mm)
    assert "38.2" == f"{pull:.1f}"
    assert "75" == f"{100 * pull / (61.2 * 0.830):.0f}"
    assert "107" == f"{100 * pull * sheet.nut_factor / 0.12 / (61.2 * 0.830):.0f}"
    assert "56.7" == f"{sheet.final_nm * 410 / 470:.1f}"
    assert "48" == f"{sheet.final_nm / FOOT_POUND_NM:.0f}"


def test_a_straight_bar_never_changes_the_setting():
    """The right option is the sheet's torque; every correction is critical."""
    for question in drawn("torque.straight-bar"):
        right = next(o for o in question.options if o.right)
        if "crow-foot" in right.text:
            continue
        assert f"The sheet says {NUMBER.findall(right.text)[0]} N·m" in question.ask
        for option in question.options:
            if not option.right and "N·m" in option.text:
                assert option.critical, option.text


def test_the_wrench_that_may_be_used_is_in_range_and_in_date():
    """The right wrench passes the workshop's own check on the day; where none passes, stop and ask is right."""
    from datetime import date

    for question in drawn("torque.which-wrench"):
        torque = one(r"gets? (\d+) N·m", question.ask)
        fit = [w.id for w in workshop().torque_wrenches if w.check(torque, on=date(2026, 4, 14)).ok]
        right = next(o.text for o in question.options if o.right)
        assert [right] == fit if fit else right.endswith("stop and ask"), question.ask


def test_a_wrench_whose_record_has_run_out_is_critical():
    """Taking the overdue wrench is a critical mistake wherever it is offered."""
    overdue = [w.id for w in workshop().torque_wrenches if w.due.year < 2026]
    assert ["TW3"] == overdue
    for question in drawn("torque.which-wrench"):
        assert all(o.critical for o in question.options if o.text in overdue)


def test_a_click_too_many_is_no_critical_mistake_but_a_used_bolt_is():
    """Two clicks cost preload accuracy; a one-time bolt fitted again can come loose."""
    again = {
        o.critical for q in drawn("torque.one-click") for o in q.options if o.name == "thinks that two clicks are surer"
    }
    used = {o.critical for q in drawn("torque.one-time") for o in q.options if o.name == "judges a bolt by its looks"}
    assert ({False}, {True}) == (again, used)


def test_who_adds_the_share_to_the_setting_is_right_too():
    """65 × 1.04 and 65 ÷ 0.96 differ by less than anybody reads: the tolerance takes both."""
    for question in drawn("torque.spread"):
        share, most = one(r"at most (\d+) %", question.ask) / 100, "the most" in question.ask
        assert question.mark(one(r"You set (\d+) N·m", question.ask) * (1 + share if most else 1 - share)).score == 1


def test_an_inch_pound_is_called_less_than_a_newton_metre():
    """Whoever goes the wrong way is told the right way round, foot and inch apart."""
    for question in drawn("torque.foot-pounds"):
        (wrong_way,) = [m.says for m in question.mistakes if m.name == "goes the wrong way"]
        told = "An inch-pound is less" if "lbf·in" in question.ask else "A foot-pound is more"
        assert told in wrong_way


def test_what_goes_beyond_the_pass_rule():
    """What is extra stands apart, and the rest is a lesson's length."""
    beyond = {e.id.partition(".")[2] for e in exercises_of("torque") if e.beyond}
    assert {"mark-travel", "spread", "foot-pounds", "crow-foot-angle", "weakest-joint"} == beyond
    assert 10 <= sum(not e.beyond for e in exercises_of("torque")) <= 14


@pytest.mark.parametrize("outcome", sorted({e.outcome for e in exercises_of("torque")}))
def test_each_outcome_has_two_exercises(outcome):
    """Each outcome is shown by at least two exercises inside the pass rule."""
    assert sum(e.outcome == outcome and not e.beyond for e in exercises_of("torque")) >= 2
