"""Hazards and cautions of the job."""

import re
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import hazards as hazards_module
from bitepoint.workshop.hazards import Hazard, hazards, hazards_in
from bitepoint.workshop.operations import job
from bitepoint.workshop.vehicles import vehicle


@pytest.mark.parametrize("stage", ["diagnose", "plan", "remove", "strip", "inspect", "assemble", "refit", "check"])
def test_every_stage_with_hands_on_the_car_has_hazards(stage: str) -> None:
    """Each stage in which somebody can be hurt has at least two hazards."""
    assert len(hazards_in(stage)) >= 2


@pytest.mark.parametrize("hazard", hazards(), ids=lambda hazard: hazard.id)
def test_a_hazard_reads_as_a_caution(hazard: Hazard) -> None:
    """A hazard says what happens and what to do, in two sentences or more."""
    assert re.fullmatch(r"[A-Z].+: .+\. [A-Z].+\.", hazard.told)
    assert ".." not in hazard.told
    assert len(hazard.caution.split()) >= 5


def test_what_is_not_for_the_learner_is_met_with_stop_and_ask() -> None:
    """Orange cable, 48 V, airbag and second battery: the caution keeps off and asks, and is met before the gearbox comes out."""
    found = {hazard.id: hazard for hazard in hazards_in("remove")}

    for id in ("high-voltage", "airbag", "second-battery"):
        assert "stop and ask" in found[id].caution
        assert {"R1", "R2"} & set(found[id].operations)
    look, lead = ({o.id: o for o in job().operations}[id].text for id in ("R1", "R2"))
    assert "orange cable and a 48 V label (there: stop and ask)" in look
    assert "airbag plugs stay shut" in lead


def test_every_operation_whose_order_is_a_matter_of_safety_has_its_hazard() -> None:
    """Whatever stands behind a safety rule within one stage is covered by a hazard of one of its two operations."""
    stage_of = {operation.id: operation.stage for operation in job().operations}
    covered = {name for hazard in hazards() for name in hazard.operations}
    uncovered = [
        (rule.before, rule.after)
        for rule in job().rules
        if rule.kind == "safety"
        and stage_of[rule.before] == stage_of[rule.after]
        and not {rule.before, rule.after} & covered
    ]

    assert uncovered == [("A15", "A16"), ("A16", "A18")]  # a tool left in breaks parts; people are hurt by none of it


def test_no_danger_has_a_mass_of_the_training_vehicles() -> None:
    """The same words stand on the risk sheet of a college's own car, whose gearbox has another mass."""
    told = [hazard.danger for hazard in hazards()] + [rule.because for rule in job().rules]

    assert [text for text in told if " kg" in text] == []


def test_only_where_the_car_has_the_part() -> None:
    """No brake fluid on a car with a cable, no hub nut on a rear-wheel drive."""
    assert "brake-fluid" not in {hazard.id for hazard in hazards_in("refit", vehicle("A"))}
    assert "brake-fluid" in {hazard.id for hazard in hazards_in("refit", vehicle("B"))}
    assert "hub-nut-raised" not in {hazard.id for hazard in hazards_in("remove", vehicle("D"))}


def test_unknown_stage() -> None:
    """A stage that is not there is named with those that are."""
    with pytest.raises(BadData, match=r"There is no stage 'lunch'\. Choose one of diagnose, identify, plan"):
        hazards_in("lunch")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('stage = "plan"', 'stage = "dinner"', r"mixed-equipment stage: 'dinner' is no stage"),
        ('operations = ["D2", "D3"]', 'operations = ["R2"]', r"drive-without-release operations: 'R2' is no operation"),
        ('operations = ["D2", "D3"]', "operations = []", r"drive-without-release operations: must name at least one"),
        ('id = "road-test-driver"', 'id = "exhaust-inside"', r"id: 'exhaust-inside' stands twice"),
        ('source = "hse-mvr-exhaust"', 'source = "rumour"', r"exhaust-inside source: 'rumour' is not in the list"),
        ('harm = "kills"', 'harm = "tickles"', r"Invalid enum value 'tickles'"),
    ],
)
def test_a_bad_list_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A list of hazards that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "hazards.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "hazards.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        hazards_module.read_hazards(path)

    assert str(caught.value).startswith("hazards.toml: ")
