"""The whole job in order: each vehicle's list, every rule of the graph, any safe order, one broken rule found."""

import re
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.bank import exercise_named
from bitepoint.bank.job import order as job_order
from bitepoint.bank.work_cards import rules_of
from bitepoint.questions.bench import WorkCard
from bitepoint.questions.order import ADVICE_ONLY
from bitepoint.questions.staged_work import StagedWork, WorkPart
from bitepoint.workshop.operations import job, operation, operations_for, rules_among, sample_order
from bitepoint.workshop.vehicles import vehicle, vehicles

EXERCISE = exercise_named("job.order")
ID_OF = {step.short: step.id for step in job().operations}
NEVER = {one.text: one.id for one in job().never}
ASKED = {"A": 58, "B": 62, "C": 62, "D": 58}
"""Operations asked of each vehicle: the core of the job less what is routine."""


def drawn(letter: str) -> StagedWork:
    """Return the drill of the first learner who has this vehicle."""
    for n in count():
        question = EXERCISE.draw(class_word="amber", learner=f"learner-{n}")
        if question.vehicle == letter:
            assert isinstance(question, StagedWork)
            return question
    raise AssertionError


def asked_of(letter: str) -> list[str]:
    """Return the ids of what the drill asks of a vehicle."""
    return [step.id for step in operations_for(vehicle(letter), core=True) if not step.routine]


DRILLS = {letter: drawn(letter) for letter in ASKED}
every_vehicle = pytest.mark.parametrize("letter", sorted(ASKED))


def whole_graph() -> StagedWork:
    """Return a drill of all operations there are, on no vehicle in particular."""
    ids = tuple(step.id for step in job().operations)
    parts = []
    for stage in job().stages:
        texts = tuple(step.short for step in job().operations if step.stage == stage.id)
        parts.append(WorkPart(stage.title, tuple(WorkCard(text) for text in texts), texts))
    return StagedWork(parts=tuple(parts), rules=rules_of(ids), ask="?", why="", source="common-practice")


def row_of(question: StagedWork, texts: list[str]) -> str:
    """Return the answer that does these texts, each in its own stage, in this order."""
    rows = []
    for part in question.parts:
        letters = {card.text: letter for card, letter in zip(part.cards, "abcdefghijklmnopqrstuvwxyz", strict=False)}
        rows.append(" ".join(letters[text] for text in texts if text in part.example))
    return " / ".join(rows)


@every_vehicle
def test_each_vehicle_has_its_own_list(letter: str) -> None:
    """The own cards are the vehicle's core operations less the routine ones, stage by stage, and nothing else."""
    own = [ID_OF[text] for part in DRILLS[letter].parts for text in part.example]
    assert own == asked_of(letter)
    assert len(own) == ASKED[letter]
    titles = {stage.id: stage.title for stage in job().stages}
    for part in DRILLS[letter].parts:
        assert {titles[operation(ID_OF[text]).stage] for text in part.example} == {part.title}


@every_vehicle
def test_what_is_not_asked_is_shown_as_done(letter: str) -> None:
    """Asked and shown together are every operation of the vehicle, none twice; what is shown is a card nowhere."""
    parts = DRILLS[letter].parts
    shown = [text for part in parts for text in part.routine]
    cards = {card.text for part in parts for card in part.cards}
    assert sorted(shown + [text for part in parts for text in part.example]) == sorted(
        step.short for step in operations_for(vehicle(letter))
    )
    assert not cards & set(shown)


@every_vehicle
def test_nothing_that_matters_for_safety_is_left_out(letter: str) -> None:
    """Battery on, oil, shafts, housing bolts, starter, hub nuts, wheels, revs, the second look and handing over are asked."""
    wanted = {"R12", "R14", "R5", "R9", "R8", "R3", "F11", "F7", "C4", "T3", "T6", "H4"}
    has = {step.id for step in operations_for(vehicle(letter))}
    assert wanted & has <= set(asked_of(letter))


@every_vehicle
def test_the_first_bench_has_more_than_one_right_card(letter: str) -> None:
    """It is not the one card that is left when two are crossed out."""
    assert len(DRILLS[letter].parts[0].example) > 1


@every_vehicle
def test_a_reason_names_only_cards_that_lie_on_a_bench(letter: str) -> None:
    """What stands in quotation marks in the words to any mistake is a card of this drill."""
    cards = {card.text for part in DRILLS[letter].parts for card in part.cards}
    titles = {part.title for part in DRILLS[letter].parts}
    for rule in DRILLS[letter].rules:
        assert set(re.findall("“([^”]+)”", rule.because)) <= cards
    for part in DRILLS[letter].parts:
        for card in part.cards:
            assert set(re.findall("“([^”]+)”", card.says)) <= cards | titles


@every_vehicle
def test_each_bench_holds_two_that_do_not_belong(letter: str) -> None:
    """One is never done, one is of another stage; no card lies twice on a bench, and no never-card twice in the job."""
    never = []
    for part in DRILLS[letter].parts:
        strangers = [card for card in part.cards if not card.belongs]
        assert len(part.cards) == len(part.example) + 2 == len({card.text for card in part.cards})
        never += [NEVER[card.text] for card in strangers if card.never]
        (other,) = [card for card in strangers if not card.never]
        assert other.text in ID_OF
    assert len(never) == len(set(never)) == len(DRILLS[letter].parts)
    assert ("X9" not in never) or vehicle(letter).flywheel.tightening.angle_deg is not None


def test_a_card_of_a_later_stage_is_wrong_there_for_a_reason_of_the_job() -> None:
    """Whatever stage it lies in: a binding rule from an operation that is still to come holds it back."""
    for letter in vehicles():
        stages = job_order.stages_of(vehicle(letter))
        ids = tuple(name for names in stages.values() for name in names)
        over: set[str] = set()
        for stage, names in stages.items():
            over |= set(names)
            for name in job_order.strangers_of(ids, stage):
                assert name not in over
                assert [r for r in rules_among(ids) if r.binds and r.after == name and r.before not in over]


def test_the_drill_over_the_whole_graph_has_its_counts() -> None:
    """80 operations, 126 rules, ten things never done: none is lost on the way to the cards."""
    question = whole_graph()
    assert sum(len(part.example) for part in question.parts) == 80
    assert len(question.rules) == 126
    assert len(NEVER) == 10


@every_vehicle
def test_the_drill_holds_every_rule_of_its_list(letter: str) -> None:
    """Its rules are the job's rules among its operations."""
    ids = asked_of(letter)
    held = {(ID_OF[rule.first], ID_OF[rule.then], rule.kind) for rule in DRILLS[letter].rules}
    assert held == {(rule.before, rule.after, rule.kind) for rule in rules_among(ids)}


@every_vehicle
def test_every_list_has_a_valid_order(letter: str) -> None:
    """The worked order is right and needs no advice."""
    verdict = DRILLS[letter].mark(DRILLS[letter].right_answer())
    assert verdict.right
    assert verdict.advice == ()


def broken_alone(question: StagedWork, rule_index: int) -> str:
    """Return an answer in which the earlier step of one rule is done right after its later one, or never."""
    rule = question.rules[rule_index]
    texts = [text for part in question.parts for text in part.example]
    at = {text: place for place, part in enumerate(question.parts) for text in part.example}
    texts.remove(rule.first)
    if at[rule.first] == at[rule.then]:
        texts.insert(texts.index(rule.then) + 1, rule.first)
    return row_of(question, texts)


GRAPH = whole_graph()


@pytest.mark.parametrize(
    "index", range(len(GRAPH.rules)), ids=lambda i: f"{GRAPH.rules[i].first}-{GRAPH.rules[i].then}"
)
def test_every_rule_of_the_graph_violated_is_named(index: int) -> None:
    """Binding: its own name and reason stand in the verdict, critical where it is a safety rule. Advice: it is advised."""
    rule = GRAPH.rules[index]
    verdict = GRAPH.mark(broken_alone(GRAPH, index))
    if rule.kind in ADVICE_ONLY:
        assert rule.name not in verdict.mistakes
        return
    assert rule.name in verdict.mistakes
    assert verdict.score < 1
    assert verdict.critical or not rule.critical


@pytest.mark.parametrize(
    "rule", [r for r in GRAPH.rules if r.kind in ADVICE_ONLY], ids=lambda r: f"{r.first}-{r.then}"
)  # fmt: skip
def test_every_advice_not_followed_is_advised(rule: object) -> None:
    """With its two cards alone on one bench: the row is right, and the advice stands beside it."""
    texts = (rule.first, rule.then)  # type: ignore[attr-defined]
    part = WorkPart("All", tuple(WorkCard(text) for text in texts), texts)
    question = StagedWork(parts=(part,), rules=(rule,), ask="?", why="", source="common-practice")  # type: ignore[arg-type]
    verdict = question.mark("b a")
    assert verdict.right
    assert verdict.advice == (f"Better: “{texts[0]}” before “{texts[1]}”, because {rule.because}",)  # type: ignore[attr-defined]


@every_vehicle
def test_the_reason_of_the_gravest_rule_is_said(letter: str) -> None:
    """Every binding rule within a stage, broken: the words give a reason, and a safety rule makes it critical."""
    question = DRILLS[letter]
    critical = {rule.name for rule in question.rules if rule.critical}
    for answer, name in question.known_mistakes():
        verdict = question.mark(answer)
        assert name in verdict.mistakes
        assert verdict.critical or name not in critical
        assert " because " in verdict.feedback or "never done" in verdict.feedback or "Done again" in verdict.feedback


def random_order(data: st.DataObject, question: StagedWork) -> list[str]:
    """Return a random order of the drill's own cards that keeps every binding rule, stage by stage."""
    texts: list[str] = []
    for part in question.parts:
        left = list(part.example)
        while left:
            held = {r.then for r in question.rules if r.kind not in ADVICE_ONLY and r.first in left and r.then in left}
            texts.append(data.draw(st.sampled_from([text for text in left if text not in held])))
            left.remove(texts[-1])
    return texts


@given(st.sampled_from(sorted(ASKED)), st.data())
@settings(max_examples=60, deadline=None)
def test_random_valid_orders_all_pass(letter: str, data: st.DataObject) -> None:
    """Any order that keeps the binding rules is right, whatever is advised."""
    question = DRILLS[letter]
    assert question.mark(row_of(question, random_order(data, question))).right


@given(st.sampled_from(sorted(ASKED)), st.data())
@settings(max_examples=60, deadline=None)
def test_one_random_broken_rule_is_found_and_named(letter: str, data: st.DataObject) -> None:
    """In a random order one card is put just before one that it needs, or that one is left out of an earlier stage."""
    question = DRILLS[letter]
    texts = random_order(data, question)
    rule = data.draw(st.sampled_from([r for r in question.rules if r.kind not in ADVICE_ONLY]))
    at = {text: place for place, part in enumerate(question.parts) for text in part.example}
    if at[rule.first] == at[rule.then]:
        texts.remove(rule.then)
        texts.insert(texts.index(rule.first), rule.then)
    else:
        texts.remove(rule.first)
    verdict = question.mark(row_of(question, texts))
    assert rule.name in verdict.mistakes
    assert not verdict.right
    assert verdict.critical or not rule.critical


def test_what_is_never_done_is_critical_on_every_bench() -> None:
    """Picked at any time, it scores nothing and its own reason is said."""
    for question in DRILLS.values():
        rows = str(question.right_answer()).split(" / ")
        for at, part in enumerate(question.parts):
            letter = "abcdefghijklmnopqrstuvwxyz"[next(i for i, card in enumerate(part.cards) if card.never)]
            verdict = question.mark(" / ".join([*rows[:at], f"{letter} {rows[at]}", *rows[at + 1 :]]))
            assert (verdict.score, verdict.critical) == (0.0, True)
            assert "That is never done: " in verdict.feedback


def test_sampled_orders_of_the_graph_keep_advice_too() -> None:
    """The order that the workshop samples is one that the drill calls right, without any advice, within its stages."""
    ids = [step.id for step in job().operations]
    texts = [operation(name).short for name in sample_order(ids, lambda free: free[0])]
    verdict = GRAPH.mark(row_of(GRAPH, texts))
    assert (verdict.right, verdict.advice) == (True, ())
