"""Every exercise, drawn for hundreds of learners and turns: right is right, mistakes are wrong and lie apart."""

import re
from itertools import combinations
from math import isfinite

import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.bank.lessons import LESSONS
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.number import Number
from bitepoint.questions.region import Region
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder
from bitepoint.sources import SOURCES
from bitepoint.workshop.datafiles import DataFiles
from bitepoint.workshop.vehicles import vehicles

LEARNERS, MANY, TURNS = 300, 2000, (1, 2, 3)
RARE = {"strip.gearbox-out", "assembly.order-of-work", "job.inspect", "job.decide"}
"""Some of their forms, or sets of cards, are first met by a learner beyond the 300th: these are always drawn for all."""
BANK = exercises()
RANGES = {"N·m": (1, 650), "mm": (-1, 1_500), "°": (0, 180), "%": (0, 200), "": (0, 200)}
"""What a workshop sees, by unit of the answer (a clutch carries up to 600 N·m, a car balances a good metre behind its front axle); a unit that is not listed must give a figure from 0 to 100 000."""

every_exercise = pytest.mark.parametrize("exercise", BANK.values(), ids=BANK.keys())


def exercises_that_ask(*kinds):
    """Parametrise over the exercises whose question is of one of these kinds; there is one of each kind at least."""
    first = {id: exercise.draw(class_word="amber", learner="ada") for id, exercise in BANK.items()}
    found = {id: BANK[id] for id, question in first.items() if isinstance(question, kinds)}
    assert all(any(isinstance(first[id], kind) for id in found) for kind in kinds), kinds
    return pytest.mark.parametrize("exercise", found.values(), ids=found.keys())


def drawn(exercise, learners):
    """Yield the learner, the turn and the question."""
    for number in range(learners):
        learner = f"learner-{number}"
        for turn in TURNS:
            yield learner, turn, exercise.draw(class_word="amber", learner=learner, turn=turn)


def new_ones(exercise, learners):
    """Yield questions; of drills alike in words, sheet and ring (which fix the rest) only the first.

    Of orders of work those with a bench of cards that has not lain there yet, letters aside.
    """
    seen = set()
    for _, _, question in drawn(exercise, learners):
        if isinstance(question, (WorkOrder, StagedWork)):
            parts = getattr(question, "parts", (question,))
            benches = {(question.vehicle, frozenset(card.text for card in part.cards)) for part in parts}
            if benches <= seen:
                continue
            seen |= benches
        if isinstance(question, Tightening):
            alike = (question.ask, question.table, question.angles_deg, question.printed_order)
            if alike in seen:
                continue
            seen.add(alike)
        yield question


def pictured(exercise):
    """Return the questions of three learners that have a picture."""
    return [question for question in new_ones(exercise, 3) if question.picture]


def texts(question):
    """Return every text of a question that a learner may come to read, the table left out."""
    said = [question.ask, question.why, question.step, question.solution]
    for option in getattr(question, "options", ()):
        said += [option.text, option.says]
    for mistake in getattr(question, "mistakes", ()):
        said.append(mistake.says)
    for spot in getattr(question, "spots", ()):
        said.append(spot.says)
    for rule in getattr(question, "rules", ()):
        said.append(f"{rule.first}. {rule.then}. Because {rule.because}")
    for part in getattr(question, "parts", (question,)):
        said += [f"{card.text}. {card.says}" for card in getattr(part, "cards", ())]
    if isinstance(question, Tightening):
        said += [stage.label for stage in question.stages]
        for answer, _ in question.known_mistakes():
            said.append(question.mark(answer).feedback)
    return said


@every_exercise
def test_draws_hold(exercise):
    """Right is right, known mistakes are wrong and lie apart, figures are such as a workshop meets."""
    check_draws(exercise, MANY if exercise.id in RARE else LEARNERS)


def test_what_was_drawn_before_changes_no_question():
    """What is kept of a draw is the same whoever came first: the other way round, from files nobody has read yet, all are alike."""
    learners = [f"learner-{number}" for number in range(8)]

    def all_of(files, order):
        return {
            (id, learner, turn): exercise.draw(class_word="amber", learner=learner, turn=turn, data=files)
            for id, exercise in order(list(BANK.items()))
            for learner in order(learners)
            for turn in order([1, 2])
        }

    forwards, backwards = all_of(DataFiles(places.assets()), list), all_of(DataFiles(places.assets()), reversed)
    assert len(forwards) == 16 * len(BANK)
    assert [key for key, question in forwards.items() if backwards[key] != question] == []


def test_the_rare_ones_are_exercises_of_the_bank():
    """One that was renamed would be drawn for fewer learners, and nobody would hear of it."""
    assert BANK.keys() >= RARE


@pytest.mark.many_draws
@every_exercise
def test_draws_hold_for_thousands_of_learners(exercise):
    """The same, each for 2,000 learners and three turns."""
    check_draws(exercise, MANY)


def check_draws(exercise, learners):
    """Check every question of so many learners."""
    for question in new_ones(exercise, learners):
        mistakes = question.known_mistakes()
        check_marks(question, mistakes)
        check_apart(question, mistakes)
        check_ranges(question)


def check_marks(question, mistakes):
    """The right answer scores 1; every known mistake scores less and is matched by its own name."""
    assert question.mark(question.right_answer()).score == 1, question.ask
    for answer, name in mistakes:
        verdict = question.mark(answer)
        assert verdict.score < 1, (question.ask, answer)
        assert verdict.feedback, name
        # An order can break a second rule with the same wrong step, so there the name need not come first.
        orders = ("order", "workorder", "stagedwork")
        named = verdict.mistakes if question.kind in orders else verdict.mistakes[:1]
        assert name in named, (question.ask, answer, verdict.mistakes)


def check_apart(question, mistakes):
    """No known mistake coincides with another one or with the right answer, tolerances counted."""
    names = [name for _, name in mistakes]
    assert len(names) == len(set(names)), names
    assert len(names) >= 2, question.ask
    if isinstance(question, Number):
        figures = [question.answer, *(m.value for m in question.mistakes)]
        for a, b in combinations(figures, 2):
            assert abs(a - b) > question.within.width(a) + question.within.width(b), (question.ask, a, b)
        return
    as_text = [str(answer) for answer, _ in mistakes]
    assert len({*as_text, str(question.right_answer())}) == len(as_text) + 1, question.ask


def check_ranges(question):
    """Torques, angles, shares and counts are figures that a workshop meets."""
    if isinstance(question, Number):
        low, high = RANGES.get(question.unit, (0, 100_000))
        assert low <= question.answer <= high, (question.ask, question.answer)
        assert all(isfinite(m.value) for m in question.mistakes)
    if isinstance(question, Tightening):
        assert 4 <= len(question.angles_deg) <= 16
        for stage in question.stages:
            assert 0 <= stage.target <= (180 if stage.kind == "angle" else 300)
            if stage.needs_setting:
                assert 1 <= question.fitted.setting_nm(stage.target) <= 300


@exercises_that_ask(Tightening)
def test_draws_words_hold_the_figures_of_a_job(exercise):
    """Every torque, angle, lever and offset that a tightening job needs stands in its words or its stages."""
    for question in new_ones(exercise, 200):
        words = f"{question.ask} {question.table} {[stage.label for stage in question.stages]}"
        fitted = question.fitted
        needed = [s.target for s in question.stages if s.target]
        needed += [fitted.lever_mm, fitted.offset_mm] if fitted.kind else []
        shown = {float(n) for n in re.findall(r"\d+(?:\.\d+)?", words)}
        assert set(needed) <= shown, question.ask
        if question.printed_order:
            assert all(re.search(rf"\b{bolt}\b", words) for bolt in question.printed_order)


@every_exercise
def test_draws_are_the_same_again_and_new_each_turn(exercise):
    """The same learner and turn give the same digest; each next turn gives another question."""
    for number in range(100):
        digests = [
            exercise.draw(class_word="amber", learner=f"learner-{number}", turn=turn).words_digest() for turn in TURNS
        ]
        again = exercise.draw(class_word="AMBER", learner=f"Learner-{number}", turn=1).words_digest()
        assert digests[0] == again
        assert digests[0] != digests[1] != digests[2], "A second form, or figures that are drawn, make each turn new."


@every_exercise
def test_draws_differ_between_learners(exercise):
    """Fifty learners do not all get the same question."""
    digests = {q.words_digest() for _, turn, q in drawn(exercise, 50) if turn == 1}
    assert len(digests) >= 3


@exercises_that_ask(Choice, Several, Region)
def test_draws_of_choices_have_two_to_four_forms(exercise):
    """A choice has a pool: with figures and order of the options aside, turns bring two to four wordings."""
    forms = set()
    for _, _, q in drawn(exercise, 40):
        offered = q.options if isinstance(q, (Choice, Several)) else q.spots
        forms.add(frozenset(o.name for o in offered))
    assert 2 <= len(forms) <= 4, f"{exercise.id} has {len(forms)} sets of options: give it two to four forms."


@every_exercise
def test_draws_name_a_known_source_and_vehicle(exercise):
    """The source key exists, a vehicle is named by a known letter, and a vehicle in the words is declared."""
    for _, _, question in drawn(exercise, 40):
        assert question.source in SOURCES
        assert question.vehicle in ("", *vehicles())
        assert not re.search("training vehicle [A-D]", question.ask) or question.vehicle


@every_exercise
def test_draws_explain_themselves(exercise):
    """Why, next step and worked solution are never empty."""
    for _, _, question in drawn(exercise, 20):
        assert all((question.ask, question.why, question.step, question.solution))


@exercises_that_ask(Number, Choice, Tightening)
def test_draws_do_not_give_the_answer_away_at_the_first_miss(exercise):
    """What is said to a mistake holds neither the right figure nor the right option."""
    for question in new_ones(exercise, 200):
        for answer, _ in question.known_mistakes():
            said = question.mark(answer).feedback
            if isinstance(question, Number):
                figures = [float(n) for n in re.findall(r"\d+(?:\.\d+)?", said)]
                assert all(abs(f - question.answer) > question.within.width(question.answer) for f in figures), said
            elif isinstance(question, Choice):
                assert next(o.text for o in question.options if o.right) not in said
            else:
                order = str(question.right_answer()).rpartition(":")[2].strip()
                assert order not in said


@exercises_that_ask(Number)
def test_draws_never_call_arithmetic_critical(exercise):
    """A wrong figure is never critical; what is decided from it may be."""
    for _, _, question in drawn(exercise, 20):
        assert not any(m.critical for m in question.mistakes)


@every_exercise
def test_an_exercise_asks_one_kind_of_question(exercise):
    """In every turn; by that a check of one kind finds its exercises."""
    assert len({type(question) for _, _, question in drawn(exercise, 20)}) == 1


@every_exercise
def test_draws_speak_in_short_sentences(exercise):
    """No sentence has more than 24 words."""
    for question in new_ones(exercise, 25):
        for text in texts(question):
            for sentence in re.split(r"(?<=[.!?…])[”)]?\s+|\n", text):
                assert len(sentence.split()) < 25, sentence


@every_exercise
def test_draws_name_no_make_and_no_person(exercise):
    """In the middle of a sentence no word is written like a name."""
    for question in new_ones(exercise, 25):
        for text in (*texts(question), *(cell for row in question.table for cell in row)):
            assert not re.findall(r"(?<=[a-z,] )[A-Z][a-z]+\w*", text), text


@pytest.mark.parametrize("exercise", [e for e in BANK.values() if pictured(e)], ids=lambda e: e.id)
def test_draws_pictures_can_be_drawn(exercise):
    """The picture of a question exists, takes the parameters, and has the regions that are pointed at."""
    for question in pictured(exercise):
        drawing = draw_picture(question.picture.key, **question.picture.parameters)
        assert drawing.alt
        assert {s.key for s in getattr(question, "spots", ())} <= {r.key for r in drawing.regions}


def test_bank_outcomes_have_two_exercises_each():
    """Every outcome is shown by at least two exercises of its lesson."""
    shown = [(e.lesson, e.outcome) for e in BANK.values()]
    assert {pair for pair in shown if shown.count(pair) < 2} == set()


@every_exercise
def test_bank_ids_titles_and_minutes_are_in_order(exercise):
    """An id is `lesson.topic` of a known lesson, and its minutes are honest for one question."""
    assert exercise.lesson in LESSONS
    assert re.fullmatch(rf"{exercise.lesson}\.[a-z0-9]+(-[a-z0-9]+)*", exercise.id)
    assert exercise.title
    assert 1 <= exercise.minutes <= (15 if exercise.id == "job.order" else 12)
