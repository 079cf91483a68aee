"""Lesson measure: words and tables alone lead to the right answer, and the decisions follow the rules of the trade."""

import re
from math import fsum

import pytest

from bitepoint.bank import exercises, exercises_of

BANK = exercises()
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def drawn(id):
    """Yield the exercise's questions for sixty learners and three turns."""
    for n in range(60):
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=f"learner-{n}", turn=turn)


def figure(pattern, text):
    """Return the one figure that a pattern finds in a text."""
    return float(re.search(pattern, text)[1])


def listed(pattern, text):
    """Return the figures of the list that a pattern finds in a text."""
    return [float(n) for n in NUMBER.findall(re.search(pattern, text)[1])]


def from_words_pilot_depth(q):
    """Reading less block."""
    return figure(r"reads ([\d.]+) mm", q.ask) - figure(r"block of ([\d.]+) mm", q.ask)


def from_words_guard_band(q):
    """The limit, and 1.645 times the uncertainty on its safe side."""
    band = 1.645 * figure(r"uncertainty of ([\d.]+) mm", q.ask)
    limit = figure(r"limit is (?:max|min) ([\d.]+) mm", q.ask)
    return limit - band if "is max" in q.ask else limit + band


def from_words_facing_life(q):
    """What is left, or the whole, at the wear so far."""
    new, now = figure(r": ([\d.]+) mm deep when new", q.ask), figure(r"when new, ([\d.]+) mm", q.ask)
    km, least = figure(r"after (\d+) thousand", q.ask), figure(r"least depth is ([\d.]+) mm", q.ask)
    return km * ((new if "limit reached" in q.ask else now) - least) / (new - now)


FROM_WORDS = {
    "measure.pilot-depth": from_words_pilot_depth,
    "measure.guard-band": from_words_guard_band,
    "measure.facing-life": from_words_facing_life,
}


DRAWN = {f"measure.{t}" for t in ("vernier", "micrometer", "dial-gauge", "end-float", "run-out", "feeler")}
"""Read from their picture alone, and checked from it with the other drawn instruments."""


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only the words of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


def right_text(q):
    """Return the text of the right option."""
    return next(o.text for o in q.options if o.right)


def test_the_old_plate_is_judged_by_its_smallest_reading():
    """From the eight readings: the smallest is named, and it is worn out exactly when it is less than the least value."""
    met = set()
    for q in drawn("measure.rivets"):
        low = min(listed(r"in mm: ([-\d., ]+)\.", q.ask))
        worn = low < figure(r"for least ([\d.]+) mm", q.ask)
        assert right_text(q).startswith(f"{low:.2f} mm, the smallest")
        assert ("worn out" in right_text(q)) == worn
        met.add(worn)
    assert met == {True, False}


def test_the_rivets_are_the_same_in_every_python(monkeypatch):
    """The mean may fall on half a hundredth: how `sum` adds, which Python 3.12 changed, plays no part in what is drawn."""
    ways = [sum, fsum]
    digests = []
    for way in ways:
        monkeypatch.setattr("bitepoint.bank.measure.figures.sum", way, raising=False)
        digests.append([q.facts_digest() for q in drawn("measure.rivets")])
    assert digests[0] == digests[1]


def test_readings_keep_their_decimals():
    """A workshop writes 7.00 after 7.05: all readings of a list have the same decimals."""
    for id in ("measure.rivets", "measure.fingers"):
        for q in drawn(id):
            shown = re.search(r"in mm: ([-\d., ]+)\.", q.ask)[1].split(", ")
            assert len({len(value.partition(".")[2]) for value in shown}) == 1, shown


def test_the_fingers_are_judged_by_highest_less_lowest():
    """From the eight heights: the spread is named, and exactly on the limit is within."""
    met = set()
    for q in drawn("measure.fingers"):
        heights = listed(r"in mm: ([-\d., ]+)\.", q.ask)
        spread, limit = round(max(heights) - min(heights), 1), figure(r"limit is ([\d.]+) mm", q.ask)
        assert right_text(q).startswith(f"{spread:.1f} mm, ")
        assert right_text(q).endswith("sits level") == (spread <= limit)
        met.add((spread > limit) - (spread < limit))
    assert met == {-1, 0, 1}


def test_rock_is_the_whole_swing_against_its_own_limit():
    """From both readings with their signs; more than the limit means a new flywheel, exactly on it does not."""
    met = set()
    for q in drawn("measure.free-angle"):
        if "Pushed opposite" not in q.ask:
            continue
        pushed = figure(r"shows ([+\d.]+) mm", q.ask)
        pulled = -figure(r"opposite −([\d.]+) mm", q.ask)
        swing, limit = round(pushed - pulled, 2), figure(r"allows ([\d.]+) mm of rock", q.ask)
        assert right_text(q).startswith(f"{swing:.2f} mm: ")
        assert right_text(q).endswith("replace the flywheel") == (swing > limit)
        met.add(swing > limit)
    assert met == {True, False}


def test_a_zero_error_comes_off_the_reading():
    """From what the micrometer shows closed and on the plate: the difference is below the least value."""
    for q in drawn("measure.set-up"):
        if "closed, the micrometer" in q.ask:
            true = figure(r"mm\. On .*?shows ([\d.]+) mm", q.ask) - figure(
                r"closed, the micrometer shows ([\d.]+) mm", q.ask
            )
            assert right_text(q).startswith(f"{true:.2f} mm: below")
            assert true < figure(r"least ([\d.]+) mm", q.ask)


def test_every_number_question_is_worked_from_its_words():
    """No number question of this lesson escapes the check above."""
    kinds = {e.id: e.draw(class_word="amber", learner="ada").kind for e in exercises_of("measure")}
    assert set(FROM_WORDS) | DRAWN == {id for id, kind in kinds.items() if kind == "number"}


def test_the_inspection_sheet_passes_what_is_not_more_than_its_limit():
    """By the table alone: not more than the limit is within, and one row lies exactly on it."""
    for question in drawn("measure.sheet"):
        within, exact = set(), 0
        for row, measured, limit in question.table[1:]:
            found, most = (float(NUMBER.search(cell)[0]) for cell in (measured, limit))
            exact += found == most
            if found <= most:
                within.add(row)
        assert exact == 1
        assert len(within) == 3
        assert {o.text.casefold() for o in question.options if o.right} == {row.casefold() for row in within}


def test_a_guard_band_is_right_only_where_an_uncertainty_is_given():
    """In the guard band with an uncertainty: stop and ask. Exactly on max without one: within."""
    forms = {}
    for question in drawn("measure.on-the-limit"):
        right = next(o.text for o in question.options if o.right)
        forms.setdefault("standard uncertainty of" in question.ask, set()).add(right)
    assert forms[True] == {"Stop and ask: the figure lies inside the guard band"}
    assert {right for right in forms[False] if "Stop and ask" in right} == {
        "Stop and ask: with these leaves it cannot be told"
    }


def test_a_cracked_flywheel_is_never_used_again():
    """A crack means replace, and using or re-facing it is critical; blue only means stop and ask, tint means reuse."""
    wanted = {"crack beside": "Replace it", "blue patches": "Stop and ask", "light tint": "Reuse it"}
    met = set()
    for question in drawn("measure.flywheel-seen"):
        sign = next(s for s in wanted if s in question.ask)
        met.add(sign)
        assert next(o.text for o in question.options if o.right).startswith(f"{wanted[sign]}:")
        critical = {o.text for o in question.options if o.critical}
        assert bool(critical) == (sign == "crack beside")
        assert not any(text.startswith("Stop and ask") for text in critical)
    assert met == set(wanted)


def test_tightened_bolts_and_hammers_are_critical_after_a_bad_run_out():
    """Bolts that were tightened once, a hammer and shims each let a flywheel come loose or break."""
    for question in drawn("measure.over-the-limit"):
        critical = {o.name for o in question.options if o.critical}
        assert critical in (
            {"uses tightened bolts again", "knocks a flywheel straight"},
            {"packs a flywheel with shims"},
        )


def test_the_printed_figures_are_marked_right():
    """The answer with the decimals that are asked for, and some figure of its own solution, are right."""
    for exercise in exercises_of("measure"):
        for q in drawn(exercise.id):
            if q.kind != "number":
                break
            assert q.mark(f"{q.answer:.{q.decimals}f}").score == 1, (q.answer, q.decimals)
            printed = NUMBER.findall(q.solution.replace("−", "-"))
            assert any(q.mark(f).score == 1 for f in printed), q.solution


def test_what_goes_beyond_the_pass_rule():
    """What is extra stands apart, and the rest is a lesson's length."""
    beyond = {e.id.partition(".")[2] for e in exercises_of("measure") if e.beyond}
    assert beyond == {"jumping-hand", "fingers", "flywheel-seen", "pilot-depth", "facing-life"}
    assert 10 <= sum(not e.beyond for e in exercises_of("measure")) <= 14


def test_no_reading_stands_in_the_words():
    """Whoever only reads the words of a drawn instrument cannot answer: the figure is in the picture."""
    for id in DRAWN:
        for question in drawn(id):
            assert f"{question.answer:.2f}" not in question.ask


@pytest.mark.parametrize("outcome", sorted({e.outcome for e in exercises_of("measure")}))
def test_each_outcome_has_two_exercises(outcome):
    """Each outcome is shown by at least two exercises inside the pass rule."""
    assert sum(e.outcome == outcome and not e.beyond for e in exercises_of("measure")) >= 2
