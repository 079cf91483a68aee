"""Facts decide the mark, words are only read: what changes one digest and what changes the other."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.bank import Exercise, exercises
from bitepoint.questions import facts
from bitepoint.questions.bench import WorkCard
from bitepoint.questions.choice import Choice, Option
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.facts import digest_of, figures_in, key_from, plain
from bitepoint.questions.number import Number, percent
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake, Question
from bitepoint.questions.staged_work import StagedWork, WorkPart
from bitepoint.questions.work_order import WorkOrder

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


@pytest.mark.parametrize("exercise", exercises().values(), ids=lambda e: e.id)
def test_facts_are_plain_as_they_are_made(exercise: Exercise) -> None:
    """Nobody looks for floats to round in the facts of a question: its kind has rounded them, in every revision."""
    for revision in exercise.makers:
        for turn in range(1, 9):
            question = exercise.draw(
                class_word="plain", learner="L", turn=turn, revision=revision, vehicle="ABCD"[turn % 4]
            )
            found = question.facts()
            assert msgspec.json.encode(found) == msgspec.json.encode(plain(found))
            assert digest_of(found) == question.facts_digest()


STEPS = {"Lower the lift": "lower", "Chock the wheels": "chock", "Turn it 5 mm": "turn"}
WORK = WorkOrder(
    ask="Do it.",
    why="So.",
    source="common-practice",
    cards=tuple(WorkCard(text, key=key) for text, key in STEPS.items()),
    example=tuple(STEPS),
    rules=(Before("Chock the wheels", "Lower the lift", "it rolls.", "safety", True, ("chock", "lower")),),
)
STAGED = StagedWork(
    ask="Do it.",
    why="So.",
    source="common-practice",
    parts=(WorkPart("All", WORK.cards, WORK.example),),
    rules=WORK.rules,
)
ENQUIRY = Enquiry(
    ask="What is it?",
    why="So.",
    source="common-practice",
    observations=(Observation("down", "Pedal down", "6 bar"),),
    suspects=(Suspect("bearing", "Bearing", {"down": "6 bar"}, True),),
)


@pytest.mark.parametrize("values", [(1, 1.0, True), (0.0, -0.0, 0, False)])
def test_values_that_are_equal_keep_their_own_kind(values: tuple[object, ...]) -> None:
    """What was rounded before is kept by its value: a whole number, a float and a truth of one value stay apart."""
    for _ in range(2):
        assert [type(value) for value in values] == [type(plain(value)) for value in values]
        assert "-" not in str(list(map(plain, values)))


@pytest.mark.parametrize("question", [WORK, STAGED], ids=["workorder", "stagedwork"])
def test_a_rule_that_no_longer_meets_its_card_is_another_fact(question: WorkOrder | StagedWork) -> None:
    """Rules find their cards by text: a card bettered alone sets its rule free, whatever the keys say."""
    cards = (replace(WORK.cards[0], text="Lower the car"), *WORK.cards[1:])
    freed = (
        replace(question, cards=cards)
        if isinstance(question, WorkOrder)
        else replace(question, parts=(replace(question.parts[0], cards=cards),))
    )
    assert question.mark("a b c").critical
    assert not freed.mark("a b c").critical
    assert question.facts_digest() != freed.facts_digest()


def test_cards_whose_keys_are_alike_are_told_apart_in_the_rules() -> None:
    """Two steps that differ by a sign alone have one key; the rule still says which of them holds back the other."""
    steps = ("Turn it by +5", "Turn it by -5")
    one = replace(ORDER, steps=steps, keys=(), example=steps, rules=(Before(*steps, "so."),))
    other = replace(one, rules=(Before(*steps[::-1], "so."),))
    assert one.mark("ab").score != other.mark("ab").score
    assert one.facts_digest() != other.facts_digest()


def test_what_is_done_before_and_how_many_cards_share_the_mark_are_facts() -> None:
    """A card that is done already holds nothing back; the share of a mark is one of the example's cards."""
    for changed in (replace(WORK, done=("Chock the wheels",)), replace(WORK, example=WORK.example[:2])):
        assert (
            WORK.mark("a b c").score != changed.mark("a b c").score
            or WORK.mark("b a").score != changed.mark("b a").score
        )
        assert WORK.facts_digest() != changed.facts_digest()


@pytest.mark.parametrize(
    ("question", "changed"),
    [
        (CHOICE, replace(CHOICE, options=(CHOICE.options[0], replace(CHOICE.options[1], text="Lift it 2 m")))),
        (ORDER, replace(ORDER, steps=("Lower it 1 m", "Chock it"))),
        (WORK, replace(WORK, cards=(*WORK.cards[:2], replace(WORK.cards[2], text="Turn it 6 mm")))),
        (ENQUIRY, replace(ENQUIRY, observations=(replace(ENQUIRY.observations[0], shows="7 bar"),),
                          suspects=(replace(ENQUIRY.suspects[0], shows={"down": "7 bar"}),))),
    ],
    ids=["choice", "order", "workorder", "enquiry"],
)  # fmt: skip
def test_a_figure_on_offer_is_a_fact(question: Question, changed: Question) -> None:
    """A figure in an option, a step, a card or what is seen is no matter of wording, whatever key it has."""
    assert question.facts_digest() != changed.facts_digest()


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


_FLOATS = st.floats(allow_nan=True) | st.floats(-1e6, 1e6) | st.sampled_from([0.0, -0.0, 1e-13, 99999.99999, 123456.5])
_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**40), 2**40) | _FLOATS | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(max_size=4), inner, max_size=4)
        | st.dictionaries(st.integers(0, 99), inner, max_size=4)
    ),
    max_leaves=8,
)


@given(_VALUES)
def test_facts_as_json_are_those_of_the_plain_value(value: object) -> None:
    """Where nothing needs rounding, the facts are not made plain first, and the letters are the same."""
    assert facts.as_plain_json(value) == msgspec.json.encode(facts.plain(value), order="sorted")
