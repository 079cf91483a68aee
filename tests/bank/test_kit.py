"""Lesson kit: words and tables alone lead to the right answer, and what lets a flywheel come loose is called so."""

import re

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.workshop.kits import fitting
from bitepoint.workshop.vehicle_kits import number_of, variants_found
from bitepoint.workshop.vehicles import vehicle, vehicles

BANK = exercises()
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def drawn(id):
    """Yield the exercise's questions for sixty learners and three turns."""
    for n in range(60):
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=f"learner-{n}", turn=turn)


def figure(pattern, text):
    """Return the one figure that a pattern finds in a text."""
    return float(re.search(pattern, text)[1])


def from_words_finger_stack(q):
    """Both old sizes together, less the new one that was measured."""
    face = figure(r"friction face ([\d.]+) mm, cover", q.ask)
    cover = figure(r"cover height ([\d.]+) mm", q.ask)
    return face + cover - figure(r"You measured .*? ([\d.]+) mm\. Now", q.ask)


def from_words_bolt_reach(q):
    """Length less clamped parts; over the diameter; or what is left of the thread."""
    length = figure(r"is ([\d.]+) mm long", q.ask)
    reach = length - figure(r"passes ([\d.]+) mm", q.ask)
    if "stay free" in q.ask:
        return figure(r"has ([\d.]+) mm of thread", q.ask) - reach
    return reach / figure(r"M([\d.]+)\.", q.ask) if "How many times" in q.ask else reach


def from_words_bolt_bottoms(q):
    """Length less clamped parts less thread."""
    clamped, thread = figure(r"passes ([\d.]+) mm", q.ask), figure(r"has ([\d.]+) mm of thread", q.ask)
    return figure(r"puts the ([\d.]+) mm bolts", q.ask) - clamped - thread


FROM_WORDS = {
    "kit.finger-stack": from_words_finger_stack,
    "kit.bolt-reach": from_words_bolt_reach,
    "kit.bolt-bottoms": from_words_bolt_bottoms,
}


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only the words of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


def test_every_number_question_is_worked_from_its_words():
    """No number question of this lesson escapes the check above."""
    kinds = {e.id: e.draw(class_word="amber", learner="ada").kind for e in exercises_of("kit")}
    assert set(FROM_WORDS) == {id for id, kind in kinds.items() if kind == "number"}


@pytest.mark.parametrize(
    ("letter", "kits"),
    [
        ("A", ["SK-1190", "SK-1200", "SK-1190"]),
        ("B", ["SK-2235-D", "SK-2235-R", "SK-2235-R"]),
        ("C", ["SK-3240-D", "SK-3240-R", "SK-3240-D"]),
        ("D", ["SK-4225-21", "SK-4225-23", "SK-4225-21"]),
    ],
)
def test_each_car_that_comes_in_has_one_kit(letter, kits):
    """The kits looked up by hand in the list, one a car."""
    assert [(kit,) for kit in kits] == [fitting(found) for found in variants_found(letter)]


def test_the_kit_found_is_the_only_row_that_agrees_with_what_is_shown():
    """Read with the table alone, the facts that can be looked up leave the right kit and no other."""
    for question in drawn("kit.find-kit"):
        car = {o.key: o.shows for o in question.observations}
        left = [row[0].casefold() for row in question.table[1:] if agrees(row, car)]
        assert left == [str(question.right_answer()).partition("> ")[2]]


def agrees(row, car):
    """Whether a row of the kit list agrees with a car in every column."""
    _, engine, months, gearbox, option, plate, splines, flywheel, release = row
    start, end = (re.search(rf"{word} (\d{{4}}-\d\d)", months) for word in ("from", "to"))
    in_time = (not start or start[1] <= car["build"]) and (not end or car["build"] <= end[1])
    same = (engine, f"{plate} mm", splines, flywheel, release) == tuple(
        car[k] for k in ("engine", "plate", "splines", "flywheel", "release")
    )
    return same and in_time and gearbox in ("all", car["gearbox"]) and option in ("all", car["option"])


def test_naming_the_kit_before_it_is_sure_gets_half():
    """The right kit named without a look-up is a guess."""
    for question in drawn("kit.find-kit"):
        right = str(question.right_answer()).partition("> ")[2]
        assert question.mark(f"> {right}").score == 0.5


def test_a_kit_is_confirmed_by_every_column():
    """Ordered with one fact left out, even where only one kit is left, it is half right; with all of them it is right."""
    for question in drawn("kit.find-kit"):
        asks, _, right = str(question.right_answer()).partition(" > ")
        assert question.mark(f"{asks} > {right}").score == 1
        for left_out in asks.split():
            some = " ".join(key for key in asks.split() if key != left_out)
            verdict = question.mark(f"{some} > {right}")
            assert verdict.score == 0.5
            assert verdict.feedback


def test_the_identification_number_is_looked_up_first():
    """It stands before the engine code in what can be looked up, and every kit agrees with it."""
    for question in drawn("kit.find-kit"):
        assert question.observations[0].key == "number"
        assert all(s.shows["number"] == question.observations[0].shows for s in question.suspects)


def test_the_order_goes_by_the_kit_and_by_the_car():
    """Bolts are added where the kit holds none, brake fluid where the release is hydraulic, a flywheel never."""
    for question in drawn("kit.whole-order"):
        right = {o.key for o in question.options if o.right}
        car = vehicles()[question.vehicle]
        assert ("bolts" in right) == ("×" not in question.ask)
        assert ("fluid" in right) == (car.release.master_bore_mm is not None)
        assert "fasteners" in right
        assert not {"flywheel", "second-plate"} & right


def test_wrong_flywheel_bolts_are_critical_however_they_are_made_to_fit():
    """Packed, shortened, used again, left out or from the shelf: each lets the flywheel come loose."""
    for question in drawn("kit.wrong-bolts"):
        assert all(o.critical for o in question.options if not o.right)


def test_the_first_reason_comes_up_for_every_vehicle_with_at_least_two_checks():
    """No vehicle's learner meets one check only."""
    met = {}
    for question in drawn("kit.first-reason"):
        met.setdefault(question.vehicle, set()).add(next(o.text for o in question.options if o.right))
    assert set(met) == set(vehicles())
    assert all(len(checks) >= 2 for checks in met.values())


def test_a_change_is_labelled_in_three_places():
    """Bell housing, engine bay and service record are all needed, and nothing else."""
    places = {"Bell housing", "Engine bay", "Service record"}
    met = [{o.text for o in q.options if o.right} for q in drawn("kit.label") if "Where is" in q.ask]
    assert met
    assert all(found == places for found in met)


def test_the_agreement_comes_after_the_codes_and_before_the_order():
    """Agreed before identified, or ordered before agreed, is marked wrong."""
    for question in drawn("kit.before-the-lift"):
        names = [name for _, name in question.known_mistakes()]
        assert any("“Agree price" in n and "before “Open the kit list" in n for n in names)
        assert any("“Order the kit" in n and "before “Agree price" in n for n in names)


@pytest.mark.parametrize("outcome", sorted({e.outcome for e in exercises_of("kit")}))
def test_each_outcome_has_two_exercises(outcome):
    """Each outcome is shown by at least two exercises inside the pass rule."""
    assert sum(e.outcome == outcome and not e.beyond for e in exercises_of("kit")) >= 2


@pytest.mark.parametrize("letter", "ABCD")
def test_the_identification_number_is_read_and_not_only_said_to_agree(letter):
    """The first look-up shows a number of 17 characters of the sheet's series, one number a car."""
    shown = {number_of(letter, row) for row in range(3)}
    assert len(shown) == 3
    assert all(len(number) == 17 and number[:11] == vehicle(letter).build.vin_sample[:11] for number in shown)
    question = BANK["kit.find-kit"].draw(class_word="fern", learner="01", vehicle=letter)
    assert question.observations[0].shows[:17] in shown
