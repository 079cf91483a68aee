"""Which kit fits which car, and the first reason against each that does not."""

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.workshop import kits
from bitepoint.workshop.kits import CHECKS, Found, all_kits, fitting, found_on, kit_verdicts
from bitepoint.workshop.vehicles import vehicle

SCENARIOS = [
    ("A", {}, ("SK-1190",)),
    ("A", {"gearbox_code": "5E", "build": "2016-10"}, ()),
    ("B", {}, ("SK-2235-D",)),
    ("B", {"flywheel_wanted": "rigid"}, ("SK-2235-R",)),
    ("B", {"flywheel_now": "rigid"}, ("SK-2235-R",)),
    ("B", {"flywheel_now": "rigid", "flywheel_wanted": "dual-mass"}, ("SK-2235-D",)),
    ("B", {"build": "2015-04"}, ()),
    ("C", {}, ("SK-3240-D",)),
    ("C", {"options": ["S0"]}, ("SK-3240-D",)),
    ("C", {"options": ["S0"], "flywheel_wanted": "rigid"}, ("SK-3240-R",)),
    ("C", {"options": ["S1"], "flywheel_wanted": "rigid"}, ()),
    ("C", {"flywheel_wanted": "rigid"}, ()),
    ("D", {}, ("SK-4225-21",)),
    ("D", {"build": "2015-12"}, ("SK-4225-21",)),
    ("D", {"build": "2016-01"}, ()),
]


@pytest.mark.parametrize(("letter", "differs", "right"), SCENARIOS)
def test_exactly_the_right_kit(letter: str, differs: dict[str, object], right: tuple[str, ...]) -> None:
    """For each car as it is found exactly one kit fits, or none, and then it is a case to ask about."""
    assert right == fitting(found_on(vehicle(letter), **differs))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("letter", "differs", "kit", "check", "reason"),
    [
        ("A", {}, "SK-1200", "build date", "the kit is for cars from 2016-09, this one was built in 2016-03"),
        ("A", {"gearbox_code": "5E"}, "SK-1190", "gearbox", "the kit is for 5C, the car has 5E"),
        ("B", {}, "SK-2230-R", "engine code", "the kit is for KT16-D1, the car has KT16-D2"),
        ("B", {}, "SK-2235-R", "flywheel", "the kit is for a rigid flywheel, agreed is a dual-mass one"),
        ("C", {}, "SK-3235", "engine code", "the kit is for PB20-D3, the car has PB20-D4"),
        ("C", {}, "SK-3240-R", "option code", "only for cars with option code S0, and the option codes have not been"),
        ("C", {"options": []}, "SK-3240-R", "option code", "option code S0, this one does not have it"),
        ("D", {}, "SK-4225-23", "build date", "the kit is for cars from 2016-01, this one was built in 2014-09"),
        (
            "D",
            {"build": "2016-01"},
            "SK-4225-21",
            "build date",
            "for cars up to 2015-12, this one was built in 2016-01",
        ),
        ("D", {"build": "2016-01"}, "SK-4225-23", "splines", "the kit is for 23, the car has 21"),
    ],
)
def test_the_first_reason(letter: str, differs: dict[str, object], kit: str, check: str, reason: str) -> None:
    """A kit that does not fit is refused for the first check that it fails."""
    verdicts = {v.kit: v for v in kit_verdicts(found_on(vehicle(letter), **differs))}  # type: ignore[arg-type]

    assert (False, check) == (verdicts[kit].fits, verdicts[kit].check)
    assert reason in verdicts[kit].reason


WRONG = {
    "engine code": {"engine_code": "XX00"},
    "build date": {"build": "1999-01"},
    "gearbox": {"gearbox_code": "9Z9"},
    "plate diameter": {"plate_od_mm": 200.5},
    "splines": {"splines": 5},
    "cover bolts": {"cover_bolts": 12},
}


@given(st.sets(st.sampled_from(sorted(WRONG)), min_size=1))
@settings(deadline=None)
def test_the_stated_order_of_checks_holds(wrong: set[str]) -> None:
    """Whatever is wrong with the car together, the check that comes first in the stated order is named."""
    found = found_on(vehicle("B"))
    for check in wrong:
        found = msgspec.structs.replace(found, **WRONG[check])

    verdict = next(v for v in kit_verdicts(found) if v.kit == "SK-2235-D")

    assert min(wrong, key=CHECKS.index) == verdict.check


@given(st.permutations(all_kits()), st.sampled_from("ABCD"))
@settings(deadline=None)
def test_order_of_the_list_does_not_matter(shuffled: list[kits.Kit], letter: str) -> None:
    """A kit fits or not whatever stands beside it."""
    found = found_on(vehicle(letter))

    assert set(kit_verdicts(found)) == set(kit_verdicts(found, shuffled))


@pytest.mark.parametrize(
    ("change", "check"),
    [
        ({"release": "bearing for fork"}, "release"),
        ({"cover_bolts": 9}, "cover bolts"),
        ({"needs_target_ring": False}, ""),
        ({"plate_od_mm": 230.0}, "plate diameter"),
    ],
)
def test_what_is_measured_counts_as_much_as_a_code(change: dict[str, object], check: str) -> None:
    """Right codes do not help when a measured column differs."""
    found: Found = msgspec.structs.replace(found_on(vehicle("B")), **change)
    verdict = next(v for v in kit_verdicts(found) if v.kit == "SK-2235-D")

    assert check == verdict.check


def test_flywheel_without_target_ring() -> None:
    """A flywheel without a target ring is refused where the speed sensor reads the flywheel."""
    found = found_on(vehicle("B"), flywheel_wanted="rigid")
    bare = [msgspec.structs.replace(kit, target_ring=False) for kit in all_kits() if kit.kit == "SK-2235-R"]

    assert "flywheel: its flywheel has no target ring" in kit_verdicts(found, bare)[0].reason


def test_kit_without_flywheel_for_a_car_that_changes() -> None:
    """A kit that brings no flywheel cannot change the kind of flywheel."""
    found = found_on(vehicle("B"), flywheel_wanted="rigid")
    bare = [msgspec.structs.replace(kit, flywheel_in_kit=False) for kit in all_kits() if kit.kit == "SK-2235-R"]

    assert "the kit brings no flywheel, and the car has a dual-mass one" in kit_verdicts(found, bare)[0].reason


def test_rigid_flywheel_that_the_sheet_does_not_allow() -> None:
    """A rigid flywheel is refused where the sheet does not allow it, whatever was agreed."""
    found = msgspec.structs.replace(found_on(vehicle("B"), flywheel_wanted="rigid"), rigid_allowed=False)
    verdict = next(v for v in kit_verdicts(found) if v.kit == "SK-2235-R")

    assert verdict.reason == "flywheel: the data sheet does not allow a rigid flywheel on this car."


def test_bolts_in_the_kit_are_those_of_the_sheet() -> None:
    """The bolts in the kits of B and C are as many, and as long, as the sheet of the car says."""
    for letter in "BC":
        flywheel = vehicle(letter).flywheel
        assert flywheel.bolt_dmf is not None
        lengths = {"rigid": flywheel.bolt.length_mm, "dual-mass": flywheel.bolt_dmf.length_mm}
        for kit in all_kits():
            if kit.engine_code == vehicle(letter).engine.code:
                told = f"{flywheel.bolt_count} bolts {flywheel.bolt.thread}×{lengths[kit.flywheel]:g}"
                assert told in kit.contents
