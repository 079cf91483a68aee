"""Lesson safe: the words alone lead to the right figure, nothing dangerous is overlooked, asking is never punished."""

import re

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.pictures import draw
from bitepoint.questions.question import Question
from bitepoint.workshop.scenes import scenes
from bitepoint.workshop.tools import workshop

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


def axles(q):
    """Front load, rear load with the boot, wheelbase, from the table."""
    rows = {name: one(r"([\d.]+)", told) for name, told in q.table[1:5]}
    rear = rows["Rear axle, boot empty"] + rows["Load in the boot, above the rear axle"]
    return rows["Front axle"], rear, rows["Wheelbase"]


def from_words_balance_point(q):
    """Wheelbase times the rear share."""
    front, rear, base = axles(q)
    return base * rear / (front + rear)


def from_words_balance_shift(q):
    """Balance of what is left, less the balance before; moments about the front axle."""
    front, rear, base = axles(q)
    mass, where = one(r"([\d.]+)", q.table[5][1]), one(r"([\d.]+)", q.table[6][1])
    at = -where if "in front" in q.table[6][1] else where
    return (base * rear - mass * at) / (front + rear - mass) - base * rear / (front + rear)


def from_words_stands(q):
    """The axle over what the two may carry."""
    plate = one(r"plate says (\d+) kg", q.ask)
    both = plate if "for the pair" in q.ask else 2 * plate
    return 100 * one(r"front axle carries ([\d.]+) kg", q.ask) / both


def from_words_one_person(q):
    """The best lift times each share that the table leaves."""
    mass = one(r"lifts allows (\d+) kg", q.ask)
    for _, _, share in q.table[1:]:
        mass *= float(share)
    return mass


@pytest.mark.parametrize("topic", ["balance-point", "balance-shift", "stands", "one-person"])
def test_the_words_lead_to_the_figure(topic):
    """Re-worked from what is printed, each figure agrees within its own tolerance."""
    work = globals()[f"from_words_{topic.replace('-', '_')}"]
    for q in drawn(f"safe.{topic}"):
        assert abs(work(q) - q.answer) <= q.within.width(q.answer), q.ask


def test_every_outcome_is_shown_twice():
    """Five outcomes, each with two exercises or more inside the pass rule."""
    shown = [e.outcome for e in exercises_of("safe") if not e.beyond]
    assert len(set(shown)) == 5
    assert min(shown.count(o) for o in set(shown)) >= 2


def test_the_overdue_lift_is_overdue_and_the_good_jack_is_not():
    """Months on the tags lie beyond the lift's interval, and within the twelve of the jack."""
    seen = set()
    for q in drawn("safe.tags"):
        months = one(r"(?:examination|examined) (\d+) months ago", q.ask) if "months ago" in q.ask else 0.0
        if "two-post lift" in q.ask:
            assert months > workshop().lift.interval_months
            seen.add("lift")
        elif months:
            assert months < 12
            assert one(r"plate (\d+) kg", q.ask) > one(r"has ([\d.]+) kg", q.ask)
            seen.add("jack")
    assert seen == {"lift", "jack"}


@pytest.mark.parametrize("topic", ["lift-bay", "strip-bay", "run-bay"])
def test_a_look_round_is_critical_only_where_somebody_is_hurt(topic):
    """Marking too much is never critical; leaving out a place is, exactly when it could hurt somebody."""
    missed = set()
    for q in drawn(f"safe.{topic}"):
        right, scene = q.right_answer(), scenes()[q.picture.key]
        assert [scene.letter(id) for id in q.picture.parameters["wrong"]] == right
        assert 3 <= len(right) <= 5
        for spot in q.spots:
            if not spot.right:
                assert not q.mark([*right, spot.key]).critical
        for place in scene.places:
            letter = scene.letter(place.id)
            if letter in right:
                verdict = q.mark([key for key in right if key != letter])
                assert verdict.critical == place.hurts
                assert verdict.mistakes == (place.overlooks,)
                missed.add(place.id)
    assert missed == set(scene.can_be_bad())


@pytest.mark.parametrize("topic", ["lift-bay", "strip-bay", "run-bay"])
def test_a_look_round_changes_with_learner_and_turn(topic):
    """Many different bays, and never the same one twice running."""
    bays = [tuple(q.right_answer()) for q in drawn(f"safe.{topic}")]
    assert len(set(bays)) >= 20
    for first in range(0, len(bays), 3):
        assert len({len(bay) for bay in bays[first : first + 3]}) == 3


def test_the_look_round_at_the_strip_down_always_has_dust_or_oil():
    """Its outcome is about dust and fluids: one of them is always to be found."""
    for q in drawn("safe.strip-bay"):
        assert {"air-line", "dust-bag", "floor"} & set(q.picture.parameters["wrong"])


def test_the_starter_cable_comes_after_the_covered_lead():
    """Starter cable before the negative lead is a critical mistake."""
    for q in drawn("safe.dead-car"):
        steps = [*q.example]
        steps.remove("Starter cable off")
        wrong = ["Starter cable off", *steps]
        letters = dict(zip(q.steps, "abcdefgh", strict=True))
        assert q.mark([letters[s] for s in wrong]).critical


def test_stopping_to_ask_is_never_dangerous():
    """Where every answer is there, stop and ask is not the best choice; it is never critical, and its words say so."""
    met = set()
    for e in exercises_of("safe"):
        for q in drawn(e.id):
            assert isinstance(q, Question)
            for option in getattr(q, "options", ()):
                if "stop and ask" in option.text.lower():
                    met.add(option.right)
                    assert option.right or (not option.critical and option.says.startswith("Asking"))
    assert met == {True, False}


ISOLATES = re.compile(r"\b(?:lead off|unplug|meter|fuse|gloves|isolate|switch it off|service plug)\b", re.IGNORECASE)


def test_nobody_is_taught_to_isolate_anything_but_twelve_volt():
    """Orange cable, 48 V and airbag: every way of making it dead or measuring it is wrong and critical, the right one keeps off."""
    signs = set()
    for q in drawn("safe.keep-off"):
        found = re.search(r"orange cable that|orange cable below|48 V label\. What|AIRBAG", q.ask)
        if not found:
            continue
        signs.add(found[0])
        for option in q.options:
            assert option.critical != option.right
            if ISOLATES.search(option.text):
                assert not option.right, option.text
    assert len(signs) == 4


def test_a_car_is_looked_at_before_its_lead_comes_off():
    """Who takes the negative lead off before looking for orange cable, 48 V and a second battery has made a critical mistake."""
    for q in drawn("safe.dead-car"):
        steps = [s for s in q.example if not s.startswith("Look for")]
        letters = dict(zip(q.steps, "abcdefgh", strict=True))
        verdict = q.mark([letters[s] for s in [*steps, q.example[0]]])
        assert verdict.critical
        assert "not made dead by this lead" in verdict.feedback


def test_the_printed_share_of_the_stands_is_right():
    """Whoever types the figure that the solution prints is right, whichever car and plate."""
    for q in drawn("safe.stands"):
        assert q.mark(q.solution.rpartition("= ")[2].rstrip(".")).score == 1, q.solution


def test_the_picture_does_not_tell_how_far_the_balance_moves():
    """It shows the car with the gearbox in: neither the new loads nor the shift that is asked for stand in it or in its words."""
    for q in drawn("safe.balance-shift"):
        drawing = draw(q.picture.key, **q.picture.parameters)
        seen = " ".join(re.findall(r">([^<]+)</text>", str(drawing.content)))
        told = re.findall(r"\d+(?:\.\d+)?", f"{drawing.alt} {drawing.caption} {seen}")
        assert f"{q.answer:.0f}" not in told
        assert "→" not in seen
