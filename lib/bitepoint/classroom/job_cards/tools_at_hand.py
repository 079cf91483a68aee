"""The tools that are really at hand for a job: torque wrenches with their dates, adaptors, gauges with their uncertainty."""

from pathlib import Path
from typing import Annotated

from msgspec import Meta

from bitepoint.errors import BadData
from bitepoint.workshop.reading import StrictStruct, broken, check_unique, read_toml
from bitepoint.workshop.tools import Positive, Tool, TorqueWrench

TEMPLATE = """\
# The tools for this job. Copy from the wrench's own certificate and scale; leave out what is not at hand.

# [[torque_wrenches]]
# id = "wrench 2"
# lowest_nm = 20            # first and last mark of the scale
# highest_nm = 100
# tolerance_pct = 4         # permissible deviation by its certificate
# lever_mm = 410            # from the middle of the square drive to the grip mark
# iso_type = "II"
# iso_class = "A"
# calibrated = 2026-01-12
# due = 2027-01-12

# [[adaptors]]              # crow-foot or offset adaptor; a straight extension bar changes nothing
# id = "crow-foot 16"
# offset_mm = 45            # from the middle of the drive to the middle of the bolt

# [[gauges]]
# id = "dial gauge"
# uncertainty_mm = 0.006    # standard uncertainty of a reading, see lesson 06
# measures = ["flywheel-runout", "crank-end-float", "input-shaft-play"]
"""


class Adaptor(Tool, frozen=True, kw_only=True):
    """A crow-foot or offset adaptor: how far it moves the drive, and at which angle to the handle it is used."""

    offset_mm: Annotated[float, Meta(gt=0, le=500)]
    angle_deg: Annotated[float, Meta(ge=0, le=90)] = 0.0


class GaugeAtHand(Tool, frozen=True, kw_only=True):
    """A gauge: its standard uncertainty, and the ids of the criteria that are measured with it."""

    uncertainty_mm: Positive
    measures: tuple[str, ...]


class ToolsAtHand(StrictStruct, frozen=True, kw_only=True):
    """The tools for a job; whatever is not listed is not at hand."""

    torque_wrenches: tuple[TorqueWrench, ...] = ()
    adaptors: tuple[Adaptor, ...] = ()
    gauges: tuple[GaugeAtHand, ...] = ()

    def gauge_for(self, criterion: str) -> GaugeAtHand | None:
        """Return the gauge with which a criterion is measured, None where none is listed."""
        return next((gauge for gauge in self.gauges if criterion in gauge.measures), None)


def read_tools(path: Path) -> ToolsAtHand:
    """Read the tools of a job; a file that is not there lists none.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    if not path.exists():
        return ToolsAtHand()
    found = read_toml(path, ToolsAtHand, what="list of tools")
    check_unique(path, "id", [tool.id for tool in (*found.torque_wrenches, *found.adaptors, *found.gauges)])
    for wrench in found.torque_wrenches:
        if not wrench.lowest_nm < wrench.highest_nm or not wrench.calibrated < wrench.due:
            raise broken(path, f"torque_wrenches {wrench.id}", "lowest_nm before highest_nm, calibrated before due")
    _check_criteria(path, found)
    return found


def _check_criteria(path: Path, found: ToolsAtHand) -> None:
    from bitepoint.workshop.criteria import criteria

    known = {item.id for item in criteria().measured}
    for gauge in found.gauges:
        for name in gauge.measures:
            if name not in known:
                raise BadData(
                    f"{path.name}: gauges {gauge.id} measures {name[:40]!r}, which is no criterion. Choose from {', '.join(sorted(known))}."
                )
