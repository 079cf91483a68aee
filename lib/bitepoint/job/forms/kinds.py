"""One form a kind of entry, its options taken from the job as it is now."""

from pathlib import Path
from typing import get_args

from bitepoint.errors import BadInput
from bitepoint.job.closing import close
from bitepoint.job.findings import decide, fit_part, measure, reading
from bitepoint.job.forms.entry_form import EntryForm, FormField, Typed, day, needed, number, one
from bitepoint.job.opening import keep_personal
from bitepoint.job.order import cautions, due, settled
from bitepoint.job.photos import add_photo
from bitepoint.job.reading import read_job
from bitepoint.job.recording import deviation, note, second_check
from bitepoint.job.road_tests import road_test
from bitepoint.job.stages import begin_stage, cautions_read, do_steps, end_stage
from bitepoint.job.state import PERSONAL_FIELDS, JobEntry, StageState, WorkshopJob
from bitepoint.job.tightening import Wrench, job_joints, tighten
from bitepoint.workshop.criteria import Decision, criteria, measured_on
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.operations import operation

_CHOOSE = (("choose", ""),)


def cautions_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """The cautions of a stage, to be confirmed as read."""
    told = "\n\n".join([*(hazard.told for hazard in cautions(now, stage.id)), LOCAL_RULES])
    return EntryForm(
        key="cautions",
        title=f"Cautions of “{stage.title}”",
        says=told,
        button="I have read them",
        fields=(),
        keep=lambda folder, typed, reason: one(cautions_read(folder, stage.id)),
    )


def stage_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A stage begun or done."""
    what = "done" if stage.begun else "begun"
    do = end_stage if stage.begun else begin_stage
    return EntryForm(
        key="stage",
        title=f"Stage “{stage.title}”",
        button=f"The stage is {what}",
        fields=(),
        keep=lambda folder, typed, reason: one(do(folder, stage.id, reason=reason)),
    )


def steps_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """Operations of the stage ticked as done; those held back come last and say so."""
    found = due(now)
    held = dict(found.held) if found else {}
    open_steps = [step for step in stage.steps if step not in settled(now)]
    rows = sorted(open_steps, key=lambda step: step in held)
    options = tuple(
        (f"{step}  {operation(step).short}" + (" (held back)" if step in held else ""), step) for step in rows
    )
    return EntryForm(
        key="steps",
        title="Steps that are done",
        button="Tick them",
        fields=(FormField(key="steps", label="Steps", kind="several", options=options),),
        keep=lambda folder, typed, reason: do_steps(folder, typed.get("steps", "").split(), reason=reason),
    )


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
                uncertainty=_plain(typed, "uncertainty"),
            )
        )

    return EntryForm(
        key="measure",
        title="A measurement",
        button="Keep the reading",
        fields=(
            FormField(key="what", label="What", kind="choice", options=(("something else, named below", ""), *known)),
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
                kind="choice",
                options=(*_CHOOSE, *((name, name) for name in get_args(Decision))),
            ),
            FormField(key="because", label="Because"),
            FormField(key="finding", label="Known finding", kind="choice", options=findings),
        ),
        keep=lambda folder, typed, reason: one(
            decide(
                folder,
                typed.get("part", ""),
                typed.get("decision", ""),
                because=typed.get("because", ""),
                finding=typed.get("finding", ""),
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
            FormField(key="used", label="It is a used part", kind="tick"),
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
        for joint in job_joints(now.vehicle)
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
            FormField(key="joint", label="Joint", kind="choice", options=(*_CHOOSE, *options)),
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


def check_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """What a second person looked at."""
    return EntryForm(
        key="check",
        title="Checked by a second person",
        button="Keep the check",
        fields=(FormField(key="what", label="What"), FormField(key="by", label="Checked by")),
        keep=lambda folder, typed, reason: one(
            second_check(folder, typed.get("what", ""), checked_by=typed.get("by", ""))
        ),
    )


def deviation_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A deviation."""
    return EntryForm(
        key="deviation",
        title="A deviation",
        button="Keep the deviation",
        fields=(
            FormField(key="what", label="What"),
            FormField(key="why", label="Why"),
            FormField(key="agreed", label="Agreed by"),
        ),
        keep=lambda folder, typed, reason: one(
            deviation(folder, typed.get("what", ""), why=typed.get("why", ""), agreed_by=typed.get("agreed", ""))
        ),
    )


def photo_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A photo."""
    return EntryForm(
        key="photo",
        title="A photo",
        says="Position, time and camera are taken out. It is kept apart and can be erased.",
        button="Keep the photo",
        fields=(
            FormField(key="file", label="File", hint="where the JPEG or PNG lies"),
            FormField(key="shows", label="It shows", hint="no names, no number plate"),
        ),
        keep=lambda folder, typed, reason: one(add_photo(folder, _path(typed, "file"), shows=typed.get("shows", ""))),
    )


def road_test_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A road-test log."""
    return EntryForm(
        key="road-test",
        title="The log of the road test",
        says="Only an authorised driver drives. The column map is made by: bitepoint job road-test FOLDER LOG.csv",
        button="Judge the log",
        fields=(
            FormField(key="log", label="Log", hint="CSV file"),
            FormField(key="map", label="Column map", hint="compared with the log, confirmed = true in it"),
            FormField(key="gear", label="Gear", hint="empty: the sheet's"),
        ),
        keep=lambda folder, typed, reason: one(
            road_test(folder, _path(typed, "log"), _path(typed, "map"), gear=_whole(typed, "gear"))
        ),
    )


def note_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A note."""
    return EntryForm(
        key="note",
        title="A note",
        button="Keep the note",
        fields=(FormField(key="text", label="Note", hint="nothing personal"),),
        keep=lambda folder, typed, reason: one(note(folder, typed.get("text", ""), stage=stage.id)),
    )


def personal_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """What is personal."""

    def keep(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
        said = {key: value for key, value in typed.items() if value.strip()}
        if not said:
            raise BadInput("Every field is empty. Fill in at least one.")
        keep_personal(folder, said)
        return [read_job(folder).entries[-1]]

    return EntryForm(
        key="personal",
        title="Customer and car",
        says="Kept apart from the record, never in a hand-in; it can be erased.",
        button="Keep apart",
        fields=tuple(FormField(key=key, label=name.capitalize()) for key, name in PERSONAL_FIELDS.items()),
        keep=keep,
    )


def close_form(now: WorkshopJob) -> EntryForm:
    """The job closed by a supervisor."""
    return EntryForm(
        key="close",
        title="Close the job",
        says="By the supervisor. What is typed is a note; the printed page is what is signed.",
        button="Close the job",
        fields=(FormField(key="by", label="Supervisor", hint="name or initials"),),
        keep=lambda folder, typed, reason: one(close(folder, supervisor=typed.get("by", ""), reason=reason)),
    )


def _plain(typed: Typed, key: str) -> float | None:
    text = typed.get(key, "").strip()
    return reading(text)[0] if text else None


def _whole(typed: Typed, key: str) -> int | None:
    value = _plain(typed, key)
    if value is not None and value != int(value):
        raise BadInput(f"{key} must be a whole number, but you gave {value:g}.")
    return None if value is None else int(value)


def _path(typed: Typed, key: str) -> Path:
    text = typed.get(key, "").strip().strip('"')
    if not text:
        raise BadInput(f"{key} is empty. Write where the file lies.")
    return Path(text).expanduser()
