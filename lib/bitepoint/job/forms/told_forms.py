"""Forms for what is told and shown: checks, deviations, photos, road tests, notes, and what is personal."""

from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.forms.entry_form import EntryForm, FormField, Typed, one, plain
from bitepoint.job.opening import keep_personal
from bitepoint.job.photos import add_photo
from bitepoint.job.reading import read_job
from bitepoint.job.recording import deviation, note, second_check
from bitepoint.job.road_tests import road_test
from bitepoint.job.state import PERSONAL_FIELDS, JobEntry, StageState, WorkshopJob


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


def _whole(typed: Typed, key: str) -> int | None:
    value = plain(typed, key)
    if value is not None and value != int(value):
        raise BadInput(f"{key} must be a whole number, but you gave {value:g}.")
    return None if value is None else int(value)


def _path(typed: Typed, key: str) -> Path:
    text = typed.get(key, "").strip().strip('"')
    if not text:
        raise BadInput(f"{key} is empty. Write where the file lies.")
    return Path(text).expanduser()
