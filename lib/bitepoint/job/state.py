"""A job as its record tells it: what the pages, the command line and the notebook show."""

from pathlib import Path
from typing import TypeVar

from msgspec import Struct

from bitepoint.job.events import AnyEvent, Closed, Event, Opened
from bitepoint.workshop.own_sheets.own_sheet import OwnSheet
from bitepoint.workshop.sheets import Vehicle

RECORD, SHEET, PERSONAL = "job.jsonl", "sheet.toml", "personal.json"
PHOTOS, PRINTED, ROAD_TESTS = "photos", "print", "road-tests"
"""Names in the folder of a job."""
TRAINING_RECORD = "This is a training record. Compare every figure with the vehicle's own repair data before use: it and local rules come first."
NOT_SIGNED = "Typed initials are a note. The printed page is what is signed."
PERSONAL_FIELDS = {
    "customer": "customer",
    "telephone": "telephone",
    "registration": "registration",
    "vin": "identification number",
}
"""Fields of the side file and how a page calls them."""

_LONGEST_NAME = 100
T = TypeVar("T", bound=Event)


def is_plain_name(file: str) -> bool:
    """Whether what a record calls a file is a name in the job's own folder: a forged one may lead out of it."""
    return 0 < len(file) <= _LONGEST_NAME and file not in (".", "..") and not set(file) & set("/\\:\0")


class JobEntry(Struct, frozen=True):
    """One line of the record: its number, when it was written (UTC), its hash, what it says."""

    n: int
    at: str
    hash: str
    event: AnyEvent


class StageState(Struct, frozen=True, kw_only=True):
    """A stage of this car's job: `steps` are ids of its operations, `ticked` those done."""

    id: str
    title: str
    steps: tuple[str, ...]
    ticked: tuple[str, ...] = ()
    begun: bool = False
    done: bool = False


class WorkshopJob(Struct, frozen=True, kw_only=True):
    """A job. `personal` holds the fields of the side file, None once erased; the record stands without them.

    `sheet` is None on a training vehicle. `problems` says where the record does not hold, each as one sentence.
    """

    folder: Path
    vehicle: Vehicle
    sheet: OwnSheet | None
    opened: Opened
    entries: tuple[JobEntry, ...]
    stages: tuple[StageState, ...]
    personal: dict[str, str] | None
    erased: bool
    problems: tuple[str, ...]
    check_code: str

    @property
    def training(self) -> bool:
        """Whether the pages keep the frame of a training vehicle: its figures are invented."""
        return self.sheet is None

    @property
    def closed(self) -> Closed | None:
        """How it was closed, None while it is open."""
        return next((entry.event for entry in reversed(self.entries) if isinstance(entry.event, Closed)), None)

    @property
    def frame(self) -> str:
        """What stands on every page."""
        return f"{self.vehicle.frame} · {TRAINING_RECORD}" if self.training else TRAINING_RECORD

    def all_of(self, kind: type[T]) -> list[T]:
        """Return every event of a kind, oldest first."""
        return [entry.event for entry in self.entries if isinstance(entry.event, kind)]

    def entries_of(self, kind: type[Event]) -> list[JobEntry]:
        """Return every line that says an event of a kind, oldest first."""
        return [entry for entry in self.entries if isinstance(entry.event, kind)]

    def photo(self, file: str) -> Path | None:
        """Return where a photo lies, None once it is erased."""
        if not is_plain_name(file):
            return None
        path = self.folder / PHOTOS / file
        return path if path.is_file() and not path.is_symlink() else None
