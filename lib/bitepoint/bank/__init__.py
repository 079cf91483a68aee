"""The exercises: one module a lesson, one function an exercise."""

from difflib import get_close_matches
from importlib import import_module

from bitepoint.bank.registry import Exercise, registered
from bitepoint.errors import BadInput

__all__ = ["Exercise", "exercise_named", "exercises", "exercises_of"]

_MODULES = (
    "start",
    "start_safety",
    "carry_parts",
    "carry",
    "carry_figures",
    "carry_lift",
    "carry_damper",
    "carry_sets",
    "carry_deeper",
    "safe",
    "safe_bay",
    "safe_lift",
    "safe_people",
    "safe_road",
    "fault_words",
    "fault_checks",
    "fault_play",
    "fault_tests",
    "fault_log",
    "fault_road",
    "fault_shake",
    "fault",
    "fault_decide",
    "kit",
    "kit_match",
    "kit_parts",
    "kit_names",
    "kit_bolts",
    "kit_change",
    "strip",
    "strip_bolts",
    "strip_look",
    "strip_bench",
    "strip_decide",
    "measure",
    "measure_turn",
    "measure_figures",
    "measure_sure",
    "measure_decide",
    "torque",
    "torque_wrench",
    "torque_scale",
    "torque_lever",
    "torque_bolts",
    "torque_use",
    "star_drills",
    "star_figures",
    "star",
    "star_rounds",
    "star_log",
    "star_impact",
    "star_jobs",
    "assembly",
    "assembly_flywheel",
    "assembly_clutch",
    "assembly_cover",
    "assembly_order",
    "assembly_judge",
    "release",
    "release_air",
    "release_bleed",
    "release_decide",
    "refit",
    "refit_fill",
    "refit_checks",
    "refit_road",
    "refit_log",
    "refit_hand",
    "job",
    "job_kit",
    "job_plan",
    "job_order",
    "job_inspect",
    "job_build",
    "job_measure",
    "job_refit",
    "job_wrench",
    "job_checks",
    "job_record",
)
"""In the order in which their exercises are asked; importing one registers its exercises."""


def exercises() -> dict[str, Exercise]:
    """Return every exercise by its id."""
    for module in _MODULES:
        import_module(f"bitepoint.bank.{module}")
    return registered()


def exercises_of(lesson: str) -> list[Exercise]:
    """Return the exercises of a lesson in the order in which they are asked."""
    return [e for e in exercises().values() if e.lesson == lesson]


def exercise_named(id: str) -> Exercise:
    """Return the exercise with this id.

    Raises
    ------
    BadInput
        There is no such exercise; the nearest id is named.
    """
    known = exercises()
    if id not in known:
        near = get_close_matches(str(id), known, n=1, cutoff=0.0)
        raise BadInput(f"There is no exercise {str(id)[:60]!r}. Did you mean {near[0]!r}?")
    return known[id]
