"""Lesson release: the words alone lead to the right figure, and only what hurts or lets fluid go is critical."""

import re
from math import isclose

import pytest

from bitepoint.bank import exercises, exercises_of

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


def rows(q):
    """Return the first figure of each row of the question's table."""
    return {row[0]: one(r"([\d.]+)", row[1]) for row in q.table[1:]}


def from_words_bearing_travel(q):
    """Travel less play, through every ratio of the table, less what bends away."""
    sheet = rows(q)
    ratio = sheet["Pedal"] * sheet.get("Release lever and fork together", 1) * sheet.get("Fork", 1)
    ratio *= sheet.get("Slave piston", 1) / sheet.get("Master piston", 1)
    arrives = sheet["Share of the travel that arrives"] / 100
    return (sheet["Travel of the pedal"] - sheet["Free play, measured"]) / ratio * arrives


def from_words_foot_force(q):
    """Load over the ratio and over what friction leaves."""
    share = one(r"leaves ([\d.]+) %", q.ask) / 100
    return one(r"pressed with ([\d.]+) N", q.ask) / one(r"together make ([\d.]+) : 1", q.ask) / share


def from_words_free_play(q):
    """Both ratios, downwards from the pad or upwards from the fingers."""
    ratio = one(r"pedal makes ([\d.]+) :", q.ask) * one(r"fork together ([\d.]+) :", q.ask)
    given = one(r"set to ([\d.]+) mm", q.ask)
    return given * ratio if "play at the pad is that" in q.ask else given / ratio


def from_words_line_pressure(q):
    """Load through the fork over the slave's area; N/mm² to bar."""
    fork = one(r"fork, ([\d.]+) : 1", q.ask) if "fork" in q.ask else 1
    return one(r"with ([\d.]+) N", q.ask) / fork / rows(q)["Slave"] * 10


def from_words_air_lost(q):
    """Volume over the slave's area and the fork."""
    fork = one(r"makes ([\d.]+) : 1", q.ask) if "There is no fork" not in q.ask else 1
    return one(r"bubble of ([\d.]+) ml", q.ask) * 1000 / rows(q)["Slave"] / fork


def from_words_air_left(q):
    """Travel without air less what the bubble takes."""
    fork = one(r"makes ([\d.]+) : 1", q.ask) if "There is no fork" not in q.ask else 1
    lost = one(r"Now ([\d.]+) ml", q.ask) * 1000 / one(r"slave has ([\d.]+) mm²", q.ask) / fork
    return one(r"travels ([\d.]+) mm", q.ask) - lost


FROM_WORDS = {
    "release.bearing-travel": from_words_bearing_travel,
    "release.foot-force": from_words_foot_force,
    "release.free-play": from_words_free_play,
    "release.line-pressure": from_words_line_pressure,
    "release.air-lost": from_words_air_lost,
    "release.air-left": from_words_air_left,
}


@pytest.mark.parametrize("id", FROM_WORDS)
def test_release_words_lead_to_the_figure(id):
    """Worked again from the printed words and table alone, the figure is the right answer."""
    for question in drawn(id):
        assert isclose(question.answer, FROM_WORDS[id](question), rel_tol=0.002), question.ask


def test_release_every_number_question_is_worked_again():
    """No number question of the lesson is left out above."""
    numbers = {e.id for e in exercises_of("release") if next(drawn(e.id)).kind == "number"}
    assert numbers == {*FROM_WORDS, "release.pedal-rule"}  # that one is read from its picture


def test_release_outcomes_have_two_exercises_each():
    """Every outcome is shown by at least two exercises."""
    shown = [e.outcome for e in exercises_of("release")]
    assert [o for o in set(shown) if shown.count(o) < 2] == []


def test_release_pedal_with_the_gearbox_off_is_always_critical():
    """Every way of pressing the pedal before the gearbox is on is a critical mistake."""
    for question in drawn("release.box-off"):
        assert [o.critical for o in question.options if not o.right] == [True] * 3


def test_release_stop_and_ask_is_never_critical():
    """An option that asks for help never fails anybody."""
    for exercise in exercises_of("release"):
        for question in drawn(exercise.id):
            for option in getattr(question, "options", ()):
                assert not (option.critical and "stop and ask" in option.text)


def test_release_bleed_log_says_what_its_figures_say():
    """Worked again from the table: play, bubbles, height, then what an hour did."""
    for question in drawn("release.bleed-log"):
        log = dict(question.table[1:])
        height, later = (int(log[f"Biting point after {x}"].split()[0]) for x in ("bleeding", "one hour"))
        if log["Free play at the pedal"] == "none":
            start = "Not ready: give the push-rod"
        elif "from stroke" not in log["Bubbles at the end, of 20 strokes"]:
            start = "Not ready: drive the air"
        else:
            start = "Not ready: find where" if height - later > 5 else "Ready"
        right = next(o.text for o in question.options if o.right)
        assert right.startswith(start)


def test_release_travel_without_the_share_and_air_without_the_fork_are_known():
    """Who lets all travel arrive, or stops at the slave, is told so wherever that figure stands apart."""
    travel = {m.name for q in drawn("release.bearing-travel") for m in q.mistakes}
    assert "lets all travel arrive" in travel
    for id in ("release.air-lost", "release.air-left"):
        for question in drawn(id):
            fork = "There is no fork" not in question.ask
            assert fork == ("leaves out the fork" in {m.name for m in question.mistakes})


def test_release_friction_makes_the_pedal_heavy_and_lost_travel_makes_it_light():
    """More force than the sheet's: what rubs or is bent; far less: where travel is lost; near it: nothing."""
    met = set()
    for question in drawn("release.heavy-pedal"):
        ratio = one(r"measure ([\d.]+) N", question.ask) / one(r"about ([\d.]+) N", question.ask)
        right = next(o.text for o in question.options if o.right)
        kind = "heavy" if ratio > 1.3 else "light" if ratio < 0.8 else "fits"
        said = {"heavy": "rubs or is bent", "light": "travel is lost", "fits": "fits the sheet"}[kind]
        assert said in right
        met.add(kind)
    assert {"heavy", "light", "fits"} == met
