"""Forms for what is measured, decided, fitted and tightened; their options come from the car's sheet."""

from pathlib import Path
from typing import get_args

from bitepoint.errors import BadInput
from bitepoint.job.findings import decide, fit_part, measure, reading
from bitepoint.job.forms.entry_form import EntryForm, FormField, Typed, day, needed, number, one, plain
from bitepoint.job.state import JobEntry, StageState, WorkshopJob
from bitepoint.job.tightening import Wrench, tighten
from bitepoint.workshop.criteria import Decision, criteria, measured_on
from bitepoint.workshop.joints import tightened_joints

_CHOOSE = (("choose", ""),)


def measure_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A reading, judged by the sheet's limit where it has one."""
    known = tuple((f"{item.part}: {item.what} [{item.unit}]", item.id) for item in measured_on(now.vehicle, ought=True))

    def keep(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
        value, unit = reading(typed.get("value", ""))
        return one(
            measure(
                folder,
                typed.get("what", "") or typed.get("other", ""),
                value,
                unit=unit,
                instrument=typed.get("instrument", ""),
                uncertainty=plain(typed, "uncertainty"),
            )
        )

    return EntryForm(
        key="measure",
        title="A measurement",
        button="Keep the reading",
        fields=(
            FormField(
                key="what", label="What", control="choice", options=(("something else, named below", ""), *known)
            ),
            FormField(key="other", label="Something else", hint="such as pedal free play"),
            FormField(key="value", label="Reading", hint="such as 0.05 mm"),
            FormField(key="instrument", label="Instrument", hint="such as dial gauge"),
            FormField(key="uncertainty", label="Uncertainty", hint="standard uncertainty, if known, in the same unit"),
        ),
        keep=keep,
    )


def decide_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """Reuse, replace, or stop and ask."""
    findings = (("none of the list", ""), *((f"{item.part}: {item.finding}", item.id) for item in criteria().seen))
    return EntryForm(
        key="decide",
        title="A decision about a part",
        button="Keep the decision",
        fields=(
            FormField(key="part", label="Part"),
            FormField(
                key="decision",
                label="Decision",
                control="choice",
                options=(*_CHOOSE, *((name, name) for name in get_args(Decision))),
            ),
            FormField(key="because", label="Because"),
            FormField(key="finding", label="Known finding", control="choice", options=findings),
        ),
        keep=lambda folder, typed, reason: one(
            decide(
                folder,
                typed.get("part", ""),
                typed.get("decision", ""),
                because=typed.get("because", ""),
                finding=typed.get("finding", ""),
                reason=reason,
            )
        ),
    )


def part_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A part fitted."""
    return EntryForm(
        key="part",
        title="A part fitted",
        button="Keep the part",
        fields=(
            FormField(key="name", label="Part"),
            FormField(key="number", label="Number"),
            FormField(key="lot", label="Lot mark"),
            FormField(key="used", label="It is a used part", control="tick"),
        ),
        keep=lambda folder, typed, reason: one(
            fit_part(
                folder,
                typed.get("name", ""),
                typed.get("number", ""),
                lot=typed.get("lot", ""),
                used=bool(typed.get("used")),
                reason=reason,
            )
        ),
    )


def tighten_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A joint tightened."""
    options = tuple(
        (f"{joint.title}: {joint.stages_nm[-1]:g} N·m" if joint.stages_nm else f"{joint.title}: look it up", joint.key)
        for joint in tightened_joints(now.vehicle)
    )

    def keep(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
        calibrated = day(typed, "calibrated", "Calibrated")
        if calibrated is None:
            raise BadInput("Calibrated is empty. Read the day on the wrench's label.")
        wrench = Wrench(
            name=typed.get("wrench", ""),
            calibrated=calibrated,
            due=day(typed, "due", "Due"),
            adaptor=typed.get("adaptor", ""),
            lever_mm=number(typed, "lever", "mm"),
            offset_mm=number(typed, "offset", "mm"),
        )
        setting = needed(typed, "setting", "N·m", "Set to")
        second = typed.get("second", "")
        return one(
            tighten(folder, typed.get("joint", ""), wrench, setting_nm=setting, second_round=second, reason=reason)
        )

    return EntryForm(
        key="tighten",
        title="A joint tightened",
        button="Keep the joint",
        fields=(
            FormField(key="joint", label="Joint", control="choice", options=(*_CHOOSE, *options)),
            FormField(key="wrench", label="Wrench"),
            FormField(key="calibrated", label="Calibrated", hint="day on its label, such as 2026-01-12"),
            FormField(key="due", label="Due", hint="day by which it is calibrated again"),
            FormField(key="setting", label="Set to", hint="N·m"),
            FormField(
                key="adaptor", label="Adaptor", hint="crow-foot, offset adaptor or straight extension; empty: none"
            ),
            FormField(key="lever", label="Lever", hint="mm, square drive to grip mark"),
            FormField(key="offset", label="Offset", hint="mm, drive to bolt"),
            FormField(key="second", label="Second round", hint="what was done"),
        ),
        keep=keep,
    )
