"""What can hurt somebody in each stage of the job, and the caution that a page shows for it."""

from pathlib import Path
from typing import Literal

from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.fitted import Only, applies
from bitepoint.workshop.operations import job
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml
from bitepoint.workshop.vehicles import Vehicle

Harm = Literal["kills", "injures", "sickens"]
LOCAL_RULES = "Your vehicle's own repair data and local rules come first."


class Hazard(StrictStruct, frozen=True, kw_only=True):
    """A hazard: what happens (`danger`), what to do (`caution`), in which operations, and how bad it may get."""

    id: str
    stage: str
    operations: tuple[str, ...]
    harm: Harm
    title: str
    danger: str
    caution: str
    source: str = "common-practice"
    only: Only = ""

    @property
    def told(self) -> str:
        """The hazard as a caution that a learner can read."""
        return f"{self.title}: {self.danger}. {self.caution}."


class _Hazards(WholeFile, frozen=True, kw_only=True):
    hazards: tuple[Hazard, ...]


def read_hazards(path: Path) -> tuple[Hazard, ...]:
    """Read the list of hazards.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, _Hazards, what="list of hazards").hazards
    check_unique(path, "id", [hazard.id for hazard in read])
    check_sources(path, [(f"{hazard.id} source", hazard.source) for hazard in read])
    stage_of = {operation.id: operation.stage for operation in job().operations}
    for hazard in read:
        if hazard.stage not in stage_of.values():
            raise broken(path, f"{hazard.id} stage", f"{hazard.stage!r} is no stage of the job")
        if not hazard.operations:
            raise broken(path, f"{hazard.id} operations", "must name at least one operation")
        for name in hazard.operations:
            if stage_of.get(name) != hazard.stage:
                raise broken(path, f"{hazard.id} operations", f"{name!r} is no operation of the stage {hazard.stage!r}")
    return read


@once_a_set
def hazards() -> tuple[Hazard, ...]:
    """Return every hazard, stage by stage."""
    return read_hazards(data_files().path("hazards.toml"))


def hazards_in(stage: str, v: Vehicle | None = None) -> tuple[Hazard, ...]:
    """Hazards of one stage, on one vehicle only those it has the part for; may be none.

    Raises
    ------
    BadData
        There is no such stage.
    """
    known = [known.id for known in job().stages]
    if stage not in known:
        raise BadData(f"There is no stage {stage!r}. Choose one of {', '.join(known)}.")
    return tuple(h for h in hazards() if h.stage == stage and (v is None or applies(h.only, v)))
