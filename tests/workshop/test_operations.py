"""The order of the job: which operation before which, why, and that a broken rule is always found and named."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import operations, precedence
from bitepoint.workshop.precedence import Rule
from bitepoint.workshop.vehicles import vehicle

LETTERS = "ABCD"
LISTS = {
    (letter, core): tuple(step.id for step in operations.operations_for(vehicle(letter), core=core))
    for letter in LETTERS
    for core in (False, True)
}
any_list = st.sampled_from(sorted(LISTS))


def drawn_order(data: st.DataObject, steps: Sequence[str]) -> tuple[str, ...]:
    return operations.sample_order(steps, lambda free: data.draw(st.sampled_from(list(free))))


def test_size_of_the_list() -> None:
    """The whole job has 80 operations, 126 rules and ten things never to do."""
    job = operations.job()

    assert (len(job.operations), len(job.rules), len(job.never)) == (80, 126, 10)


@pytest.mark.parametrize(("letter", "whole", "core"), [("A", 74, 62), ("B", 78, 66), ("C", 78, 66), ("D", 75, 63)])
def test_size_of_each_vehicles_list(letter: str, whole: int, core: int) -> None:
    """Each vehicle has its own list, taken from what its data sheet has."""
    assert (whole, core) == (len(LISTS[letter, False]), len(LISTS[letter, True]))


@pytest.mark.parametrize(
    ("name", "letters"),
    [
        ("R3", "ABC"),
        ("C5", "BC"),
        ("A4", "D"),
        ("A7", "BC"),
        ("F10", "BCD"),
        ("H1", "BC"),
        ("A6", "ABCD"),
        ("F11", "ABC"),
        ("F11b", "D"),
    ],
)
def test_who_has_what(name: str, letters: str) -> None:
    """An operation is in the list of the vehicles that have the part for it, and of no other."""
    assert letters == "".join(letter for letter in LETTERS if name in LISTS[letter, False])


@pytest.mark.parametrize("key", sorted(LISTS))
def test_rules_do_not_go_round_in_a_circle(key: tuple[str, bool]) -> None:
    """No list has a circle in its rules."""
    assert precedence.cycle(LISTS[key], operations.rules_among(LISTS[key])) is None


@pytest.mark.parametrize("letter", LETTERS)
def test_every_list_is_closed(letter: str) -> None:
    """In the whole list of a vehicle everything hangs between the interview and the handing over."""
    steps = LISTS[letter, False]

    assert (steps[0], steps[-1]) == ("D1", "H4")
    assert precedence.loose_ends(steps, operations.rules_among(steps)) == ()


@pytest.mark.parametrize("key", sorted(LISTS))
def test_the_list_itself_is_a_right_order(key: tuple[str, bool]) -> None:
    """Working down the list as it stands breaks no rule and follows all advice."""
    assert operations.first_broken(LISTS[key], among=LISTS[key], advice=True) is None


@given(any_list, st.data())
@settings(max_examples=60, deadline=None)
def test_every_sampled_order_is_right(key: tuple[str, bool], data: st.DataObject) -> None:
    """Whatever is chosen among the free operations, the order keeps every rule."""
    order = drawn_order(data, LISTS[key])

    assert sorted(LISTS[key]) == sorted(order)
    assert operations.first_broken(order, among=LISTS[key], advice=True) is None


@given(any_list, st.data())
@settings(max_examples=100, deadline=None)
def test_a_broken_rule_is_found_and_named(key: tuple[str, bool], data: st.DataObject) -> None:
    """When one operation is moved in front of one it depends on, the first broken rule names that operation."""
    steps = LISTS[key]
    rule = data.draw(st.sampled_from([r for r in operations.rules_among(steps) if r.binds]))
    order = list(drawn_order(data, steps))
    order.remove(rule.after)
    order.insert(order.index(rule.before), rule.after)

    found = operations.first_broken(order, among=steps)

    assert found is not None
    place, broken = found
    assert rule.after == broken.after == order[place]
    assert broken.before in order[place:]
    assert broken.because


@given(any_list, st.data())
@settings(max_examples=60, deadline=None)
def test_each_binding_rule_is_named_when_all_else_is_done(key: tuple[str, bool], data: st.DataObject) -> None:
    """With everything done but one operation, what hangs on it is refused, for that operation's rule."""
    steps = LISTS[key]
    rule = data.draw(st.sampled_from([r for r in operations.rules_among(steps) if r.binds]))
    done = set(steps) - {rule.before, rule.after}

    assert rule == operations.is_safe_next(done, rule.after, among=steps)


def _reach(rules: Sequence[Rule], start: str) -> set[str]:
    """Everything that comes after a step, directly or not."""
    over, waiting = set[str](), [start]
    while waiting:
        step = waiting.pop()
        new = {rule.after for rule in rules if rule.before == step} - over
        over |= new
        waiting += new
    return over


@given(st.lists(st.sampled_from([step.id for step in operations.job().operations]), unique=True, max_size=20))
@settings(max_examples=60, deadline=None)
def test_leaving_operations_out_loses_no_rule(steps: list[str]) -> None:
    """In any choice of operations exactly that comes before what does so in the whole job, binding or advised."""
    whole, chosen = operations.job().rules, operations.rules_among(steps)
    for binding in (False, True):
        for step in steps:
            wanted = _reach([rule for rule in whole if rule.binds or not binding], step) & set(steps)
            assert wanted == _reach([rule for rule in chosen if rule.binds or not binding], step)


def test_the_gravest_rule_is_named_first() -> None:
    """Where several rules are broken at once, safety is named before quality."""
    rule = operations.is_safe_next([], "A18", among=LISTS["B", False])

    assert rule is not None
    assert (rule.before, rule.kind) == ("A16", "safety")


def test_advice_does_not_bind() -> None:
    """Economy and evidence advise only, unless asked for."""
    steps = LISTS["D", False]
    done = [step for step in steps if step not in ("T3", "T4", "T5", "T6")]

    assert operations.is_safe_next(done, "T4", among=steps) is None
    advised = operations.is_safe_next(done, "T4", among=steps, advice=True)
    assert advised is not None
    assert (advised.before, advised.kind) == ("T3", "economy")


def test_a_rule_over_an_operation_that_is_left_out() -> None:
    """Leaving an operation out keeps what it held together, and the reason names it."""
    rules = operations.rules_among(["A14", "F1"])

    assert [(r.before, r.after, r.via, r.kind) for r in rules] == [("A14", "F1", ("A15",), "quality")]
    assert "“Centring tool slides, fingers level” lies between them: " in rules[0].because


def test_a_chain_with_advice_in_it_only_advises() -> None:
    """A chain binds only where each of its rules does."""
    rules = operations.rules_among(["F4", "F9"])

    assert [(r.before, r.after, r.kind) for r in rules] == [("F4", "F9", "economy")]
    assert not rules[0].binds


def test_a_list_without_anything_between() -> None:
    """Two operations that have nothing to do with each other have no rule."""
    assert operations.rules_among(["I2", "I6"]) == ()


def test_lock_and_run_out() -> None:
    """The lock is in for the flywheel bolts, out for the run-out, in for the cover, out after it."""
    steps = LISTS["B", True]
    order = [step for step in steps if step in ("A6", "A8b", "A9", "A13b", "A14", "A16")]

    assert order == ["A6", "A8b", "A9", "A13b", "A14", "A16"]
    for done, wrong, missing in [(("A6", "A8"), "A9", "A8b"), (("A13",), "A14", "A13b")]:
        rule = operations.is_safe_next(done, wrong, among=(*done, missing, wrong))
        assert rule is not None
        assert missing == rule.before


@pytest.mark.parametrize("name", [f"X{number}" for number in range(1, 11)])
def test_what_is_never_done(name: str) -> None:
    """What is never done is refused at every point of the job, with its reason."""
    rule = operations.is_safe_next(LISTS["B", True], name, among=LISTS["B", True])

    assert rule is not None
    assert (rule.kind, rule.critical, rule.binds) == ("never", True, True)
    assert operations.said(rule).startswith("Never: ")


@pytest.mark.parametrize("rule", operations.job().rules, ids=lambda rule: f"{rule.before}-{rule.after}")
def test_every_rule_reads_as_a_sentence(rule: Rule) -> None:
    """A rule reads as one sentence with its reason, long enough to teach something."""
    sentence = operations.said(rule)

    assert sentence.startswith("“")
    assert sentence.endswith(".")
    assert ", because " in sentence
    assert 5 <= len(rule.because.split()) <= 40
    assert rule.because[0].islower() or rule.because[0].isdigit()
    assert not rule.because.endswith(".")


def test_names_fit_on_a_button() -> None:
    """The short name of an operation has at most 36 characters."""
    assert [step.short for step in operations.job().operations if len(step.short) > 36] == []


def test_stages_in_order() -> None:
    """The operations stand stage by stage, in the order of the stages."""
    job = operations.job()
    places_of = [[stage.id for stage in job.stages].index(step.stage) for step in job.operations]

    assert sorted(places_of) == places_of
    assert set(range(10)) == set(places_of)


def test_some_stages_only() -> None:
    """A drill can take some stages of a vehicle's list."""
    steps = operations.operations_for(vehicle("A"), stages=("strip",))

    assert [step.id for step in steps] == ["C1", "C2", "C3", "C4", "C6", "C7"]


def test_unknown_names() -> None:
    """A stage, an operation or a candidate that is not there is named, with what to do."""
    with pytest.raises(BadData, match=r"There is no stage 'dismantle'\. Choose one of diagnose, identify"):
        operations.operations_for(vehicle("A"), stages=("dismantle",))
    with pytest.raises(BadData, match=r"There is no operation 'Z9'"):
        operations.rules_among(["A6", "Z9"])
    with pytest.raises(BadData, match=r"'A7' is not in this list of operations"):
        operations.is_safe_next([], "A7", among=LISTS["A", False])


def test_choosing_what_is_not_free() -> None:
    """An order cannot be sampled by choosing an operation whose time has not come."""
    with pytest.raises(BadData, match=r"'H4' is not free yet\. Choose one of D1"):
        operations.sample_order(LISTS["A", False], lambda free: "H4")


def test_a_circle_is_named() -> None:
    """A circle is given as the steps that it goes through."""
    rules = [Rule(before=a, after=b, kind="quality", because="so") for a, b in ("ab", "bc", "ca", "cd")]

    circle = precedence.cycle("xabcd", rules)

    assert circle is not None
    assert circle[0] == circle[-1]
    assert {"a", "b", "c"} == set(circle)
    with pytest.raises(BadData, match=r"^The rules go round in a circle: "):
        precedence.sample("xabcd", rules, lambda free: free[0])


def test_loose_ends_are_named() -> None:
    """A step that hangs on nothing is named."""
    rules = [Rule(before="a", after="b", kind="quality", because="so")]

    assert precedence.loose_ends("acb", rules) == ("c",)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('{ before = "D1", after = "D2"', '{ before = "D1", after = "D22"', r"rules D1 → D22: 'D22' is no operation"),
        ('{ before = "D1", after = "D2"', '{ before = "H4", after = "D2"', r"rules: go round in a circle: .*D2.*H4"),
        (
            '{ id = "D2", stage = "diagnose"',
            '{ id = "D2", stage = "dismantle"',
            r"operations D2 stage: 'dismantle' is no",
        ),
        ('{ id = "D2", stage = "diagnose"', '{ id = "D1", stage = "diagnose"', r"operations id: 'D1' stands twice"),
        ('{ before = "D2", after = "D3"', '{ before = "D1", after = "D2"', r"rules: 'D1 → D2' stands twice"),
        ('source = "tm-5-3810-300-24"', 'source = "a-friend"', r"C3 → C4 source: 'a-friend' is not in the list"),
        ('kind = "economy"', 'kind = "habit"', r"Invalid enum value 'habit'"),
        ('only = "FWD"', 'only = "4WD"', r"Invalid enum value '4WD'"),
        ('short = "Interview the driver"', 'shrt = "Interview the driver"', r"shrt|short"),
        ("operations = [", "operations = [[", r"is no valid TOML|Expected `object`"),
    ],
)
def test_a_bad_list_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A list of operations that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "operations.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "operations.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        operations.read_job(path)

    assert str(caught.value).startswith("operations.toml: ")
    assert "\n" not in str(caught.value)
