"""Reuse, replace, or stop and ask: the limit belongs to the good side, and doubt is a decision of its own."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import criteria
from bitepoint.workshop.criteria import judge, judge_seen, limits_of, measured_on
from bitepoint.workshop.vehicles import vehicle, vehicles

CASES = [(v.id, item) for v in vehicles().values() for item in measured_on(v)]
FINDINGS = criteria.criteria().seen


@pytest.mark.parametrize(("letter", "item"), CASES, ids=lambda case: getattr(case, "id", case))
def test_the_limit_itself_is_within(letter: str, item: criteria.Measured) -> None:
    """A greatest or least value on the sheet includes the value itself; a hundredth beyond it does not."""
    lower, upper = limits_of(item, vehicle(letter))
    limit, beyond = (lower, -0.01) if upper is None else (upper, 0.01)
    assert limit is not None

    assert judge(item.id, limit, vehicle(letter)).decision == "reuse"
    assert item.outside == judge(item.id, limit + beyond, vehicle(letter)).decision


@pytest.mark.parametrize(("letter", "item"), CASES, ids=lambda case: getattr(case, "id", case))
def test_only_a_given_uncertainty_makes_doubt(letter: str, item: criteria.Measured) -> None:
    """The same figure at the limit is good without an uncertainty and a case to ask about with one."""
    lower, upper = limits_of(item, vehicle(letter))
    limit = lower if upper is None else upper
    assert limit is not None

    verdict = judge(item.id, limit, vehicle(letter), uncertainty=0.01)

    assert verdict.decision == "stop and ask"
    assert "measure again" in verdict.reason


@given(st.sampled_from(CASES), st.floats(0, 40), st.floats(0, 40))
@settings(deadline=None)
def test_worse_is_never_judged_better(case: tuple[str, criteria.Measured], one: float, other: float) -> None:
    """Of two figures the worse one is never reused when the better one is not."""
    letter, item = case
    lower, upper = limits_of(item, vehicle(letter))
    if (lower is None) == (upper is None):
        raise AssertionError(f"{item.id} has no single good side")
    good, bad = sorted((one, other), reverse=upper is None)

    if judge(item.id, bad, vehicle(letter)).decision == "reuse":
        assert judge(item.id, good, vehicle(letter)).decision == "reuse"


def test_reason_gives_figure_limit_and_why() -> None:
    """The reason repeats the figure, gives the sheet's limit and says what follows."""
    verdict = judge("flywheel-scoring", 0.35, vehicle("D"))

    told = "Depth of the deepest score 0.35 mm, greatest 0.3 mm: deep scores wear the new facing like a file."
    assert ("replace", told) == (verdict.decision, verdict.reason)


@pytest.mark.parametrize(
    ("name", "decision"),
    [
        ("flywheel-crack", "replace"),
        ("flywheel-blue", "stop and ask"),
        ("flywheel-bolts-used", "replace"),
        ("release-bearing", "replace"),
        ("concentric-slave", "replace"),
        ("fork-sound", "reuse"),
        ("housing-crack", "stop and ask"),
    ],
)
def test_what_is_seen(name: str, decision: str) -> None:
    """Cracks, used bolts, bearing and slave are never used again; blue alone is a case to ask about."""
    assert decision == judge_seen(name).decision


@pytest.mark.parametrize("item", FINDINGS, ids=lambda item: item.id)
def test_what_could_hurt_somebody_is_never_reused(item: criteria.Seen) -> None:
    """A finding of the greatest weight is never answered with reuse, and every finding has a reason."""
    assert item.weight < 3 or item.decision != "reuse"
    assert len(judge_seen(item.id).reason) > 30


def test_dual_mass_criteria_only_where_there_is_one() -> None:
    """Free angle and rock are judged on vehicles B and C only."""
    having = {letter for letter, item in CASES if item.id in ("dmf-free-angle", "dmf-rock")}

    assert {"B", "C"} == having


def test_unknown_names() -> None:
    """A criterion that is not there, or not for this car, is named with those that are."""
    with pytest.raises(BadData, match=r"There is no criterion 'flywheel-colour'\. Choose one of flywheel-runout"):
        judge("flywheel-colour", 0.1, vehicle("A"))
    with pytest.raises(BadData, match=r"There is no criterion 'rust'\. Choose one of flywheel-crack"):
        judge_seen("rust")
    with pytest.raises(BadData, match=r"training vehicle A has no limit for 'dmf-rock'"):
        judge("dmf-rock", 1.0, vehicle("A"))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'limit = "flywheel.flatness_limit_mm"',
            'limit = "flywheel.flat"',
            r"flywheel-flatness: 'flywheel\.flat' is on no",
        ),
        ('limit = "flywheel.flatness_limit_mm", ', "", r"flywheel-flatness: must have limit or lower"),
        ('id = "dmf-rock"', 'id = "flywheel-crack"', r"id: 'flywheel-crack' stands twice"),
        ('source = "tm-9-2815-202-34"', 'source = "hearsay"', r"flywheel-runout source: 'hearsay' is not in the list"),
        ('decision = "reuse"', 'decision = "keep"', r"Invalid enum value 'keep'"),
        ("weight = 3", "weight = 4", r"Expected `int` <= 3"),
    ],
)
def test_a_bad_list_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A list of criteria that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "criteria.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "criteria.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        criteria.read_criteria(path)

    assert str(caught.value).startswith("criteria.toml: ")
