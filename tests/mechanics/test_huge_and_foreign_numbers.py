"""Figures of a size or kind that nobody means: one clear error, never a bare one."""

import importlib
import inspect
import pkgutil

import pytest

import bitepoint.mechanics
from bitepoint.errors import BitepointError, NotUnderstood, OutOfRange
from bitepoint.mechanics.heat import slip_energy_j, slip_time_s
from bitepoint.mechanics.hydraulics import bore_area_mm2
from bitepoint.mechanics.limits import whole, within
from bitepoint.mechanics.tyres import TyreSize, tyre_size
from bitepoint.mechanics.uncertainty import uncertainty_from_repeats


def calculators():
    """Return every public function of the calculators whose arguments are plain figures."""
    found = {}
    for module in pkgutil.iter_modules(bitepoint.mechanics.__path__, "bitepoint.mechanics."):
        for name, made in inspect.getmembers(importlib.import_module(module.name), inspect.isfunction):
            if made.__module__ != module.name or name.startswith("_") or name in ("within", "whole", "one_of"):
                continue
            kinds = [p.annotation for p in inspect.signature(made).parameters.values()]
            if kinds and all(kind in (float, int, "float", "int", "float | None") for kind in kinds):
                found[f"{module.name.rpartition('.')[2]}.{name}"] = made
    return found


CALCULATORS = calculators()


@pytest.mark.parametrize("name", CALCULATORS)
def test_a_figure_of_four_hundred_digits_is_one_clear_error(name):
    """Each calculator names the argument and what to do; no OverflowError reaches anybody."""
    made = CALCULATORS[name]
    parameters = inspect.signature(made).parameters.values()
    positional = [10**400 for p in parameters if p.kind is p.POSITIONAL_OR_KEYWORD]
    named = {p.name: 10**400 for p in parameters if p.kind is p.KEYWORD_ONLY}
    with pytest.raises(BitepointError) as caught:
        made(*positional, **named)
    assert len(str(caught.value)) < 400


def test_enough_calculators_are_tried():
    """The list above is the calculators, not a handful."""
    assert len(CALCULATORS) > 60


def test_the_size_is_said_and_not_the_digits():
    """A number of 401 digits is told as that."""
    with pytest.raises(OutOfRange, match="but you gave a number of 401 digits"):
        within("x", 10**400, 0, 1, "", "Do.")
    with pytest.raises(OutOfRange, match="but you gave a number of 401 digits"):
        whole("n", 10**400, 0, 1, "Do.")


def test_after_a_change_down_the_clutch_drives_the_engine():
    """Engine 1000 rpm slower, engine braking 20 N·m, car pushed by nothing: by momentum dw/dt = (T - 20)/I1 + T/I2, worked by hand."""
    time = slip_time_s(
        -1000, clutch_torque_nm=120, engine_inertia_kg_m2=0.15, driven_inertia_kg_m2=2.0, engine_torque_nm=-20
    )
    # 104.72 rad/s over (100/0.15 + 120/2.0) = 726.67 rad/s²
    assert time == pytest.approx(0.14411, abs=1e-5)
    energy = slip_energy_j(
        -1000, clutch_torque_nm=120, engine_inertia_kg_m2=0.15, driven_inertia_kg_m2=2.0, engine_torque_nm=-20
    )
    # 120 N·m × 104.72 rad/s × 0.14411 s / 2
    assert energy == pytest.approx(905.5, abs=0.2)


def test_both_directions_are_alike_where_no_torque_acts_from_outside():
    """Without outside torque only the difference counts, not which side is faster."""
    args = {"clutch_torque_nm": 150, "engine_inertia_kg_m2": 1.176, "driven_inertia_kg_m2": 0.128}
    assert slip_time_s(-750, **args) == slip_time_s(750, **args)
    assert slip_energy_j(-750, **args) == slip_energy_j(750, **args)


def test_engine_braking_shortens_the_slip_of_moving_off():
    """An engine that resists is slowed sooner."""
    args = {"clutch_torque_nm": 150, "engine_inertia_kg_m2": 0.2, "driven_inertia_kg_m2": 1.5}
    assert slip_time_s(1000, engine_torque_nm=-30, **args) < slip_time_s(1000, **args)


def test_bores_and_readings_of_published_examples_are_taken():
    """A hydraulic press and a length in micrometres are no clutch, and no reason to refuse a worked example."""
    assert bore_area_mm2(400) == pytest.approx(125663.7, abs=0.1)
    assert uncertainty_from_repeats([50_000.1, 50_000.3, 50_000.2]) == pytest.approx(0.057735, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "size"),
    [("195/65 R15C 104/102R", (195, 65, 15)), ("205/55R16 91V", (205, 55, 16)), ("LT 235/75 R15", (235, 75, 15))],
)
def test_sizes_of_vans_are_read(text, size):
    """The C of a commercial tyre belongs to the rim's figure."""
    assert tyre_size(text) == TyreSize(*size)


@pytest.mark.parametrize("text", ["205/55R16,5", "205/55"])
def test_a_size_that_would_be_misread_is_refused(text):
    """Half an inch behind a comma is not dropped, nor a rim made up."""
    with pytest.raises(NotUnderstood):
        tyre_size(text)
