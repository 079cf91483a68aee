"""Which forms are due in which stage of a job."""

from collections.abc import Callable
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.events import CautionRead
from bitepoint.job.forms import order_forms, told_forms, work_forms
from bitepoint.job.forms.entry_form import EntryForm, FormField, Typed, needed
from bitepoint.job.opening import NewJob, open_for_training, open_on_sheet
from bitepoint.job.order import cautions, due
from bitepoint.job.reading import read_job
from bitepoint.job.state import PERSONAL_FIELDS, JobEntry, StageState, WorkshopJob

_FORMS: dict[str, Callable[[WorkshopJob, StageState], EntryForm]] = {
    "measure": work_forms.measure_form,
    "decide": work_forms.decide_form,
    "part": work_forms.part_form,
    "tighten": work_forms.tighten_form,
    "check": told_forms.check_form,
    "deviation": told_forms.deviation_form,
    "photo": told_forms.photo_form,
    "road-test": told_forms.road_test_form,
    "note": told_forms.note_form,
    "personal": told_forms.personal_form,
}
_IN_STAGE = {
    "diagnose": ("measure", "road-test"),
    "identify": ("personal", "decide"),
    "plan": ("part",),
    "remove": ("measure", "decide"),
    "strip": ("measure", "decide"),
    "inspect": ("measure", "decide"),
    "assemble": ("part", "measure", "tighten", "check"),
    "refit": ("part", "tighten", "measure", "check"),
    "check": ("measure", "check", "road-test"),
    "hand-over": ("measure", "check"),
}
_ALWAYS = ("deviation", "photo", "note")


def forms_due(now: WorkshopJob) -> tuple[EntryForm, ...]:
    """Return the forms that are due: cautions first, then steps, what the stage asks for, and the stage's end.

    A closed job takes notes only; one whose stages are all done waits for the supervisor.
    """
    found = due(now)
    last = now.stages[-1]
    if now.closed:
        return (told_forms.note_form(now, last),)
    if found is None:
        return (order_forms.close_form(now), *_of(now, last, _ALWAYS))
    stage = found.stage
    read = {event.stage for event in now.all_of(CautionRead)}
    first = [order_forms.cautions_form(now, stage)] if cautions(now, stage.id) and stage.id not in read else []
    names = (*_IN_STAGE[stage.id], *(name for name in _ALWAYS if not (now.erased and name == "photo")))
    end = (order_forms.stage_form(now, stage), order_forms.close_form(now))
    return (*first, order_forms.steps_form(now, stage), *_of(now, stage, names), *end)


def _of(now: WorkshopJob, stage: StageState, names: tuple[str, ...]) -> tuple[EntryForm, ...]:
    return tuple(_FORMS[name](now, stage) for name in names)


def begin_form() -> EntryForm:
    """The form that begins a job in a folder that has none."""

    def keep(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
        mileage = needed(typed, "mileage", "km", "Mileage") if typed.get("mileage", "").strip() else None
        said = NewJob(
            by=typed.get("by", "").strip(),
            complaint=typed.get("complaint", "").strip(),
            mileage_km=None if mileage is None else round(mileage),
        )
        apart = {key: typed[key] for key in PERSONAL_FIELDS if typed.get(key, "").strip()}
        sheet, letter = typed.get("sheet", "").strip().strip('"'), typed.get("training", "").strip()
        if bool(sheet) == bool(letter):
            raise BadInput(
                "A job needs one sheet: the file of your own, or the letter of a training vehicle to try it out."
            )
        if letter:
            open_for_training(folder, letter, said, apart)
        else:
            open_on_sheet(folder, Path(sheet).expanduser(), said, apart)
        return list(read_job(folder).entries)

    return EntryForm(
        key="begin",
        title="Begin a job",
        says="There is no job in this folder yet.",
        button="Begin the job",
        fields=(
            FormField(key="sheet", label="Sheet", hint="file of the car's own sheet, checked by a second person"),
            FormField(key="training", label="or training", hint="letter of a training vehicle, to try it out"),
            FormField(key="by", label="Who works", hint="name or initials"),
            FormField(key="complaint", label="Complaint", hint="in the driver's own words, without names"),
            FormField(key="mileage", label="Mileage", hint="km"),
            *(
                FormField(key=key, label=name.capitalize(), hint="kept apart, can be erased")
                for key, name in PERSONAL_FIELDS.items()
            ),
        ),
        keep=keep,
    )
