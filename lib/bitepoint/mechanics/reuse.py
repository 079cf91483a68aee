"""Whether a bolt that came out may go in again. What is not known for certain means: replace."""

from typing import Literal

from msgspec import Struct

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within


class ReuseDecision(Struct, frozen=True):
    """What to do with a bolt that came out, and why."""

    decision: Literal["reuse", "replace"]
    reason: str


def reuse_decision(
    sheet_allows: bool | None,
    *,
    tightened_by_angle: bool | None,
    locking_patch: bool | None,
    thread_good: bool | None,
    length_mm: float | None,
    longest_mm: float | None,
) -> ReuseDecision:
    """Reuse or replace, the first reason against reuse given; None means not known.

    Parameters
    ----------
    sheet_allows : bool or None
        Whether the vehicle's repair data allow the bolt to be used again.
    tightened_by_angle, locking_patch, thread_good : bool or None
        How it was tightened, whether it carries a locking patch, whether its thread is clean and whole.
    length_mm, longest_mm : float or None
        Length measured, and the greatest length the repair data allow [mm], 1 to 500.

    Validity
    --------
    The vehicle's own repair data come first. Without them: common practice, no published source.

    Source
    ------
    common-practice
    No published figure: a decision by rules, no number comes out.

    Examples
    --------
    >>> reuse_decision(True, tightened_by_angle=False, locking_patch=False, thread_good=True,
    ...                length_mm=40.1, longest_mm=40.5).decision
    'reuse'
    >>> reuse_decision(True, tightened_by_angle=None, locking_patch=False, thread_good=True,
    ...                length_mm=40.1, longest_mm=40.5).reason
    'It is not known whether it was tightened by angle.'
    """
    checks = (
        ("sheet_allows", sheet_allows, True, "whether the repair data allow it",
         "The repair data call for new bolts."),
        ("tightened_by_angle", tightened_by_angle, False, "whether it was tightened by angle",
         "It was tightened by angle and may have been stretched."),
        ("locking_patch", locking_patch, False, "whether it carries a locking patch",
         "Its locking patch has done its work."),
        ("thread_good", thread_good, True, "whether its thread is good",
         "Its thread is damaged or dirty."),
    )  # fmt: skip
    for name, given, *_ in checks:
        _yes_no_unknown(name, given)
    _length_or_unknown("length_mm", length_mm, "Measure from under the head to the end of the bolt.")
    _length_or_unknown("longest_mm", longest_mm, "Take it from the repair data.")
    for _, given, wanted, unknown, against in checks:
        if given is None:
            return ReuseDecision("replace", f"It is not known {unknown}.")
        if given is not wanted:
            return ReuseDecision("replace", against)
    return _by_length(length_mm, longest_mm)


def _by_length(length_mm: float | None, longest_mm: float | None) -> ReuseDecision:
    if length_mm is None:
        return ReuseDecision("replace", "Its length was not measured.")
    if longest_mm is None:
        return ReuseDecision("replace", "The greatest length allowed is not known.")
    if length_mm > longest_mm:
        told = f"It is {length_mm:g} mm long, more than {longest_mm:g} mm: it has stretched."
        return ReuseDecision("replace", told)
    return ReuseDecision("reuse", f"The repair data allow it; {length_mm:g} mm is not above {longest_mm:g} mm.")


def _yes_no_unknown(name: str, given: object) -> None:
    if given is not None and not isinstance(given, bool):
        raise OutOfRange(name, "True, False or None (not known)", repr(given)[:60], "Look at the bolt and the sheet.")


def _length_or_unknown(name: str, given: float | None, advice: str) -> None:
    if given is not None:
        within(name, given, 1, 500, "mm", advice)
