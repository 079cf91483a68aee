"""A figure of a data sheet by its path: figures only, by the sheet's own fields."""

import pytest

from bitepoint.errors import BadData
from bitepoint.workshop.sheet_figures import check_sheet_path, has_figures, sheet_figure
from bitepoint.workshop.vehicles import vehicle


@pytest.mark.parametrize(
    ("path", "figure"),
    [
        ("flywheel.tightening.final_nm", 65.0),
        ("flywheel.tightening.stages_nm.first", vehicle("A").flywheel.tightening.stages_nm[0]),
        ("gearbox.ratios.3", vehicle("A").gearbox.ratios[2]),
        ("gearbox.bell_bolts.last.torque_nm", vehicle("A").gearbox.bell_bolts[-1].torque_nm),
        ("flywheel.bolt_count", float(vehicle("A").flywheel.bolt_count)),
        ("flywheel.bolt_dmf.angle_deg", None),
        ("gearbox.ratios.60", None),
    ],
)
def test_a_path_leads_to_a_figure(path: str, figure: float | None) -> None:
    """Fields, places in a list, the two figures that a part works out; None where this car has none."""
    check_sheet_path(path)
    assert figure == sheet_figure(vehicle("A"), path)


def test_a_car_has_all_of_some_figures_or_not() -> None:
    """One that lacks one of them does not."""
    assert has_figures(vehicle("B"), ["release.slave_bolts.torque_nm", "engine.max_torque_nm"])
    assert not has_figures(vehicle("A"), ["release.slave_bolts.torque_nm", "engine.max_torque_nm"])


@pytest.mark.parametrize(
    "path",
    [
        "", ".", "engine", "engine.code", "engine.__class__", "__class__", "flywheel.tightening.final_nm.real", "name",
        "flywheel._x", "gearbox.ratios", "gearbox.ratios.0", "gearbox.ratios.-1", "gearbox.ratios.1e3", "gearbox.ratios.¹",
        "wheels.tyre", "opening", "flywheel.out_of_place_deg", "engine.max_torque_nm.__add__", "edition", "variants.first.splines",
        "a.b.c.d.e.f.g.h", "flywheel.tightening.final_nm " * 200,
    ],
)  # fmt: skip
def test_a_path_to_anything_else_is_refused_in_a_line(path: str) -> None:
    """Words, whole parts, attributes, what a part works out otherwise."""
    with pytest.raises(BadData) as refused:
        check_sheet_path(path)
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 300
