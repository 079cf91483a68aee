"""A job in a notebook: where it stands as a card that stands by itself, and the forms that are due where a page can show them."""

from pathlib import Path
from typing import Any

from bitepoint.errors import BadInput
from bitepoint.job.forms import EntryForm, begin_form, forms_due
from bitepoint.job.job_file import JobFile
from bitepoint.job.lines import page_lines, sentences
from bitepoint.job.reading import read_job
from bitepoint.job.state import TRAINING_RECORD, JobEntry, WorkshopJob
from bitepoint.job.telling import status
from bitepoint.page import html, output

HOW = (
    "Write in the field “Job's folder” below where the job lies, or where it is to be made. The forms need JupyterLab; the "
    "same is done from the command window: bitepoint job --help"
)
_NO_FORM = "No form below? Click here, then press Shift and Enter."


class JobPanel:
    """The forms of one job. Nothing personal is shown here, so that none is kept in the notebook."""

    def __init__(self, folder: str = "") -> None:
        self.folder = _place(folder) if folder.strip() else None

    def __repr__(self) -> str:
        return "JobPanel"

    def name(self, typed: str) -> None:
        """Go over to the job in a folder: the whole path, or the name of a folder in the home folder.

        Raises
        ------
        BadInput
            The field is empty.
        """
        if not typed.strip():
            raise BadInput("Write where the job lies, such as job-1.")
        self.folder = _place(typed)

    def now(self) -> WorkshopJob | None:
        """Return the job as its record tells it now; None where none is begun."""
        if self.folder is None or not (self.folder.is_dir() and JobFile(self.folder).lines()):
            return None
        return read_job(self.folder)

    def forms(self) -> tuple[EntryForm, ...]:
        """Return the forms that are due; of a folder without a job the one that begins it."""
        now = self.now()
        return forms_due(now) if now else (begin_form(),)

    def keep(self, form: EntryForm, typed: dict[str, str], reason: str = "") -> list[str]:
        """Keep what was typed and return what was recorded, in sentences.

        Raises
        ------
        ReasonNeeded
            It is warned of, and no reason is given.
        BadInput, NotUnderstood, NotRecorded
            Something cannot be used or written.
        """
        if self.folder is None:
            raise BadInput("Write first where the job lies, in “Job's folder”.")
        entries: list[JobEntry] = form.keep(self.folder, typed, reason)
        return [sentences(row) for row in page_lines(tuple(entries))]

    def card(self) -> output.Static:
        """Return where the job stands."""
        now = self.now()
        lines = [line.strip() for line in status(now)] if now else [TRAINING_RECORD, HOW]
        frame = html.frame(now.vehicle.frame) if now and now.training else ""
        body = html.joined([html.title("The job"), html.paragraphs("\n\n".join([*lines, _NO_FORM]))])
        return output.Static("\n".join(lines), html.card(frame + body if frame else body))


def _place(typed: str) -> Path:
    folder = Path(typed.strip().strip('"')).expanduser()
    return folder if folder.is_absolute() else Path.home() / folder


def as_text(values: dict[str, Any]) -> dict[str, str]:
    """Return the values of fields as text: several options one a line, a tick as "yes" or nothing."""
    return {key: _text(value) for key, value in values.items()}


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else ""
    return "\n".join(value) if isinstance(value, tuple) else str(value or "")
