"""Facts decide the mark, words are only read: what changes one digest and what changes the other."""

import msgspec
import pytest

from bitepoint.bank import exercises
from bitepoint.questions.choice import Choice, Option
from bitepoint.questions.facts import digest_of, figures_in, key_from
from bitepoint.questions.number import Number, percent
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake, Question

CHOICE = Choice(
    ask="A lift, examined 7 months ago. What do you do?",
    why="Overdue means not used.",
    source="common-practice",
    options=(
        Option("Leave it down", True, key="leave"),
        Option("Lift it", False, "trusts it", "It falls.", True, key="lift"),
    ),
)
NUMBER = Number(
    ask="What do you set for 84 N·m?",
    why="The lever.",
    source="derived",
    answer=66.7,
    unit="N·m",
    within=percent(1),
    mistakes=(Mistake(84.0, "sets the target", "Too much."),),
)
ORDER = Order(
    ask="Put in order.",
    why="So.",
    source="common-practice",
    steps=("Lower it", "Chock it"),
    keys=("lower", "chock"),
    example=("Chock it", "Lower it"),
    rules=(Before("Chock it", "Lower it", "it rolls.", "safety", True, ("chock", "lower")),),
)
replace = msgspec.structs.replace


@pytest.mark.parametrize(
    "question",
    [
        replace(CHOICE, why="Overdue is not used."),
        replace(CHOICE, ask="What do you do with a lift examined 7 months ago?"),
        replace(CHOICE, options=(replace(CHOICE.options[0], text="Leave it"), CHOICE.options[1])),
        replace(CHOICE, options=(CHOICE.options[0], replace(CHOICE.options[1], name="trusts the lift", says="Down."))),
        replace(NUMBER, step="First the lever."),
        replace(NUMBER, decimals=1),
        replace(ORDER, steps=("Let it down", "Chock it"), example=("Chock it", "Let it down"),
                rules=(replace(ORDER.rules[0], then="Let it down", because="it would roll."),)),
    ],
    ids=["why", "ask", "option", "mistake", "step", "decimals", "order"],
)  # fmt: skip
def test_words_may_change_and_facts_stay(question: Question) -> None:
    """Reasons, wording and names of mistakes change the words alone."""
    plain = {"choice": CHOICE, "number": NUMBER, "order": ORDER}[question.kind]
    assert plain.facts_digest() == question.facts_digest()
    assert plain.words_digest() != question.words_digest()


@pytest.mark.parametrize(
    "question",
    [
        replace(CHOICE, ask="A lift, examined 8 months ago. What do you do?"),
        replace(CHOICE, options=CHOICE.options[::-1]),
        replace(CHOICE, options=(CHOICE.options[0], replace(CHOICE.options[1], critical=False))),
        replace(CHOICE, options=(replace(CHOICE.options[0], key="stay"), CHOICE.options[1])),
        replace(CHOICE, revision=2),
        replace(CHOICE, beyond=True),
        replace(CHOICE, vehicle="A", edition=1),
        replace(CHOICE, table=(("mm",), ("0.05",))),
        replace(NUMBER, answer=66.8),
        replace(NUMBER, unit="mm"),
        replace(NUMBER, within=percent(2)),
        replace(NUMBER, mistakes=(replace(NUMBER.mistakes[0], value=85.0),)),
        replace(ORDER, steps=ORDER.steps[::-1], keys=ORDER.keys[::-1]),
        replace(ORDER, rules=(replace(ORDER.rules[0], kind="economy"),)),
        replace(ORDER, rules=()),
    ],
    ids=lambda q: q.kind,
)
def test_what_decides_the_mark_is_a_fact(question: Question) -> None:
    """Figures, keys and their order, answer, unit, tolerance, danger, rules, revision, car and edition."""
    plain = {"choice": CHOICE, "number": NUMBER, "order": ORDER}[question.kind]
    assert plain.facts_digest() != question.facts_digest()


def test_a_key_given_outlives_the_name_of_its_mistake() -> None:
    """Without a key it is made from the name, so a bettered name brings its old key with it."""
    bettered = replace(NUMBER.mistakes[0], name="sets the figure of the sheet", key="sets-the-target")
    assert NUMBER.facts_digest() == replace(NUMBER, mistakes=(bettered,)).facts_digest()


def test_keys_are_short_and_differ() -> None:
    """Long texts that begin alike get different keys."""
    one, two = (key_from("a long sentence that goes on and on " * 3 + end) for end in ("one", "two"))
    assert one != two
    assert max(len(one), len(two)) <= 60
    assert key_from("„…“")


def test_the_last_bits_of_a_float_change_no_digest() -> None:
    """Sines differ between machines in the last places; figures in words are compared as they stand."""
    assert digest_of([0.1 + 0.2, 1e-17]) == digest_of([0.3, 0.0])
    assert ["1,5", "12", "12"] == figures_in(["12 of 12", "1,5 mm"])


@pytest.mark.parametrize("exercise", exercises().values(), ids=exercises().keys())
def test_options_that_could_be_mixed_up_have_keys_of_their_own(exercise) -> None:
    """Within one question no two options, steps or mistakes have the same key, whoever draws it."""
    for learner in range(12):
        for turn in (1, 2, 3):
            facts = exercise.draw(class_word="amber", learner=f"key-{learner}", turn=turn).facts()
            for name in ("options", "mistakes", "spots", "suspects", "cards"):
                keys = [row[0] for row in facts.get(name, ())]
                assert len(keys) == len(set(keys)), (name, keys)
            assert len(facts.get("steps", ())) == len(set(facts.get("steps", ())))
