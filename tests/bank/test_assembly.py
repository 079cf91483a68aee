"""Lesson assembly: the words alone lead to the right answer, by the sheets and by the rules of the job."""

import itertools
import re
from math import ceil

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.workshop.operations import operations_for
from bitepoint.workshop.vehicles import vehicle, vehicles

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


def right_option(question):
    """Return the text of the right option."""
    return next(o.text for o in question.options if o.right)


def from_words_bolt_length(q):
    """Length less what is clamped, and the depth of the hole less that."""
    length = one(r"are ([\d.]+) mm long", q.ask)
    clamped = one(r"(?:clamp |; )([\d.]+) mm (?:of metal|are clamped)", q.ask)
    if "reach into the thread" in q.ask:
        return length - clamped
    if "stand off" in q.ask:
        return length - clamped - one(r"hole has ([\d.]+) mm", q.ask)
    return one(r"hole is ([\d.]+) mm", q.ask) - (length - clamped)


def from_words_half_turns(q):
    """Gap over what a round moves, rounded up, less the rounds that are done."""
    done = one(r"(\d) rounds are done", q.ask) if "are done" in q.ask else 0
    a_round = one(r"×([\d.]+\d)\.", q.ask) / 2
    return ceil(one(r"off by ([\d.]+) mm", q.ask) / a_round - done)


FROM_WORDS = {
    "assembly.bolt-length": from_words_bolt_length,
    "assembly.half-turns": from_words_half_turns,
}


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only the words of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


def test_every_number_question_is_worked_from_its_words():
    """No number question of this lesson escapes the check above."""
    made = {e.id: e.draw(class_word="amber", learner="ada").kind for e in exercises_of("assembly")}
    assert set(FROM_WORDS) == {id for id, kind in made.items() if kind == "number"}


def test_run_out_and_fingers_are_decided_by_highest_less_lowest():
    """Taken from the table, the spread against the limit decides; exactly at the limit passes."""
    met = set()
    for id in ("assembly.run-out", "assembly.finger-level"):
        for question in drawn(id):
            figures = [float(f) for f in question.table[1][1:]]
            limit = one(r"(?:limit is|lowest is) ([\d.]+) mm", question.ask)
            spread = round(max(figures) - min(figures), 3)
            passes = spread <= limit
            met.add((id, (spread > limit) - (spread < limit)))
            assert passes == right_option(question).startswith(("Accept", "Level enough")), question.table
    assert ("assembly.run-out", 0) in met
    assert {("assembly.run-out", -1), ("assembly.run-out", 1)} <= met
    assert {("assembly.finger-level", -1), ("assembly.finger-level", 1)} <= met


def test_run_out_is_one_wave_a_turn_and_place_1_reads_the_same_again():
    """A tilted face rises and falls once: neighbours lie within half the swing, and the last reading is the first."""
    for question in drawn("assembly.run-out"):
        figures = [float(f) for f in question.table[1][1:]]
        swing = max(figures) - min(figures)
        assert question.table[0][-1] == "1 again"
        assert figures[0] == figures[-1]
        assert max(abs(b - a) for a, b in itertools.pairwise(figures)) <= swing / 2 + 0.011


def test_the_order_of_work_is_the_vehicles_own_list():
    """The drill holds each operation of the vehicle's list once, and three cards that do not belong."""
    met = set()
    for question in drawn("assembly.order-of-work"):
        met.add(question.vehicle)
        wanted = [o.short for o in operations_for(vehicle(question.vehicle), core=True, stages=["assemble"])]
        assert wanted == list(question.example)
        assert 3 == sum(not card.belongs for card in question.cards)
    assert set(vehicles()) == met


def test_the_lock_goes_in_and_out_twice():
    """Run-out before the lock is out, and the gearbox side before it is out again, are wrong picks."""
    question = BANK["assembly.order-of-work"].draw(class_word="amber", learner="ada")
    names = {name for _, name in question.known_mistakes()}
    assert "“Measure the run-out” before “Flywheel lock out”" in names
    assert "“Cover bolts in star order” before “Flywheel lock in again”" in names
    assert "“Both dowels in, faces clear” before “Lock out, two turns by hand”" in names


def test_the_word_on_the_plate_decides_its_side():
    """GEARBOX SIDE looks to the gearbox, ENGINE SIDE and FLYWHEEL SIDE to the flywheel."""
    for question in drawn("assembly.plate-side"):
        if "How does it go in" in question.ask:
            side = "gearbox" if "GEARBOX SIDE" in question.ask else "flywheel"
            assert f"With the marked side to the {side}" == right_option(question)


def test_five_of_six_bolts_is_damage_and_four_is_a_wrong_position():
    """Only with four of six the flywheel is turned on; with five the thread is looked at."""
    for question in drawn("assembly.odd-hole"):
        if "Four of its six" in question.ask:
            assert "turn it by one hole" in right_option(question)
        if "Five of its six" in question.ask:
            assert "damage" in right_option(question)


def test_four_of_six_holes_meet_in_a_wrong_position_of_vehicle_c():
    """Turned by one place, exactly four of the six uneven holes lie over a thread, never five."""
    holes = set(vehicle("C").flywheel.hole_angles_deg)
    for turn in range(60, 360, 60):
        assert 4 == sum((h + turn) % 360 in holes for h in holes)


def test_a_guide_tube_that_stays_dry_is_never_greased():
    """The tube is a right pick only where the sheet wants a film of grease."""
    for question in drawn("assembly.grease-where"):
        wants = "thin film" in vehicle(question.vehicle).release.guide_tube
        tube = [o for o in question.options if o.text.startswith("The guide tube")]
        assert [wants] == [o.right for o in tube]


def test_the_cover_fits_as_often_as_the_sheet_says():
    """One, two or three positions, from the vehicle's own dowels."""
    for question in drawn("assembly.cover-positions"):
        if "how many" in question.ask:
            words = {1: "One", 2: "Two", 3: "Three"}
            assert words[vehicle(question.vehicle).clutch.cover.positions] == right_option(question)


def test_stopping_to_ask_is_never_critical():
    """Stop and ask is never a critical mistake."""
    for exercise in exercises_of("assembly"):
        for question in (exercise.draw(class_word="amber", learner=name) for name in LEARNERS[:10]):
            for option in getattr(question, "options", ()):
                assert not (option.critical and "stop and ask" in option.text.casefold())


def test_half_turns_asks_half_turns_and_knows_who_drops_the_begun_round():
    """The figure rounded down is a mistake with a name of its own."""
    for question in drawn("assembly.half-turns"):
        assert "half a turn" in question.ask
        verdict = question.mark(question.answer - 1)
        assert verdict.mistake == "leaves out the begun round"
