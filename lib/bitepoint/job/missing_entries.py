"""What a job's record does not say yet, stage by stage."""

from collections.abc import Callable, Iterator

from bitepoint.job.events import CautionRead, JobNote, Measurement, PartFitted, RoadTest, SecondCheck, Tightened
from bitepoint.job.order import cautions
from bitepoint.job.state import WorkshopJob
from bitepoint.workshop.criteria import measured_on
from bitepoint.workshop.joints import tightened_joints

_WHEN_BUILT = ("flywheel-runout", "finger-height")
"""Criteria that are measured once the new parts are on; the rest is measured in the stage of inspecting."""
_FLYWHEEL = ("flywheel.bolt", "flywheel.bolt_dmf")
_ON_THE_ENGINE = (*_FLYWHEEL, "clutch.cover")


def missing_in(now: WorkshopJob, stage: str) -> tuple[str, ...]:
    """Return what the record does not say yet of a stage, each as a short sentence."""
    asked = _ASKED.get(stage)
    return (*_unread(now, stage), *(asked(now) if asked else ()))


def missing(now: WorkshopJob) -> tuple[str, ...]:
    """Return what the record does not say yet, stages that are not done first."""
    stages = tuple(f"Stage “{stage.title}” is not done." for stage in now.stages if not stage.done)
    return (*stages, *(text for stage in now.stages for text in missing_in(now, stage.id)))


def _unread(now: WorkshopJob, stage: str) -> tuple[str, ...]:
    read = {event.stage for event in now.all_of(CautionRead)}
    title = next(known.title for known in now.stages if known.id == stage)
    return (f"Cautions of “{title}” not read.",) if cautions(now, stage) and stage not in read else ()


def _diagnose(now: WorkshopJob) -> Iterator[str]:
    if not now.opened.complaint:
        yield "The complaint in the driver's own words: record it as a note."


def _identify(now: WorkshopJob) -> Iterator[str]:
    if not now.erased and not (now.personal or {}).get("vin"):
        yield "The identification number (kept apart, can be erased)."


def _inspect(now: WorkshopJob) -> Iterator[str]:
    yield from _measurements(now, built=False)


def _assemble(now: WorkshopJob) -> Iterator[str]:
    if not now.all_of(PartFitted):
        yield "The parts fitted, with number and lot mark."
    yield from _measurements(now, built=True)
    yield from _joints(now, engine=True)


def _refit(now: WorkshopJob) -> Iterator[str]:
    yield from _joints(now, engine=False)


def _check(now: WorkshopJob) -> Iterator[str]:
    if not now.all_of(SecondCheck):
        yield "What a second person checked."
    if not now.all_of(RoadTest) and not any(note.stage == "check" for note in now.all_of(JobNote)):
        yield "The road test: a log, or a note in this stage of what the driver found."


def _measurements(now: WorkshopJob, *, built: bool) -> Iterator[str]:
    taken = {event.criterion for event in now.all_of(Measurement)}
    for item in measured_on(now.vehicle, ought=True):
        if (item.id in _WHEN_BUILT) == built and item.id not in taken:
            yield f"{item.part}, {item.what}: not measured ({item.id})."


def _joints(now: WorkshopJob, *, engine: bool) -> Iterator[str]:
    tight = {event.joint for event in now.all_of(Tightened)}
    for joint in tightened_joints(now.vehicle):
        # One flywheel is fitted, rigid or dual-mass, and its bolts alone are tightened.
        done = joint.key in tight or (joint.key in _FLYWHEEL and tight & set(_FLYWHEEL))
        if (joint.key in _ON_THE_ENGINE) == engine and not done:
            yield f"{joint.title}: not tightened ({joint.key})."


_ASKED: dict[str, Callable[[WorkshopJob], Iterator[str]]] = {
    "diagnose": _diagnose,
    "identify": _identify,
    "inspect": _inspect,
    "assemble": _assemble,
    "refit": _refit,
    "check": _check,
}
