"""What the record of a job can say: one type an event, told apart by its `kind` in the line.

No event holds personal data: customer, telephone, registration, identification number and photos lie in the side file, and an
event has their salted hashes alone.
"""

from datetime import date

from msgspec import Struct

from bitepoint.workshop.criteria import Decision


class Event(Struct, frozen=True, kw_only=True, tag_field="kind"):
    """Base of the events: `by` is who did or typed it, "" for who opened the job."""

    by: str = ""


class Opened(Event, frozen=True, kw_only=True, tag="opened"):
    """The job and its sheet: `sheet_sha256` is the digest of sheet.toml as copied, `figures` that over its figures.

    `training` is the letter of a training vehicle, or "" on an own sheet. `complaint` is in the driver's own words.
    """

    sheet: str
    sheet_sha256: str
    figures: str
    vehicle: str
    entered_by: str = ""
    checked_by: str = ""
    document: str = ""
    pages: str = ""
    training: str = ""
    complaint: str = ""
    mileage_km: int | None = None


class PersonalKept(Event, frozen=True, kw_only=True, tag="personal"):
    """Personal data were put into the side file: the salted hash of each field."""

    hashes: dict[str, str]


class StageBegun(Event, frozen=True, kw_only=True, tag="stage begun"):
    """A stage of the job was begun; begun out of a safe order, `warned` says of what and `reason` why it was done all the same."""

    stage: str
    warned: tuple[str, ...] = ()
    reason: str = ""


class StageDone(Event, frozen=True, kw_only=True, tag="stage done"):
    """A stage was called done; `left_open` are ids of its operations that were not ticked, then with a reason."""

    stage: str
    left_open: tuple[str, ...] = ()
    reason: str = ""


class StepDone(Event, frozen=True, kw_only=True, tag="step"):
    """An operation was done (its id); out of a safe order, `warned` says of what and `reason` why."""

    operation: str
    warned: tuple[str, ...] = ()
    reason: str = ""


class CautionRead(Event, frozen=True, kw_only=True, tag="caution read"):
    """The cautions of a stage were shown and confirmed as read; `hazards` are their ids."""

    stage: str
    hazards: tuple[str, ...]


class Measurement(Event, frozen=True, kw_only=True, tag="measurement"):
    """A reading with its instrument, and what the sheet's limit makes of it.

    `criterion` is an id of the criteria or "" for what is measured freely; `uncertainty` is standard, in the same unit.
    `decision` is None where the sheet has no limit (`reason` then says: look it up) and for what is measured freely.
    """

    what: str
    value: float
    unit: str
    instrument: str
    criterion: str = ""
    uncertainty: float | None = None
    lower: float | None = None
    upper: float | None = None
    decision: Decision | None = None
    reason: str = ""


class PartDecision(Event, frozen=True, kw_only=True, tag="decision"):
    """What was decided about a part and why; `finding` and `advised` where a known finding has a decision of its own.

    Decided against it, `warned` says so, and the reason holds why.
    """

    part: str
    decision: Decision
    reason: str
    finding: str = ""
    advised: Decision | None = None
    advice: str = ""
    warned: tuple[str, ...] = ()


class PartFitted(Event, frozen=True, kw_only=True, tag="part fitted"):
    """A part with its number and lot mark; a used one says why in `reason`."""

    name: str
    number: str
    lot: str = ""
    used: bool = False
    reason: str = ""


class Tightened(Event, frozen=True, kw_only=True, tag="tightened"):
    """A joint tightened: `joint` is its key (see joints.py), `target_nm` the sheet's last stage, None where it has none.

    `setting_nm` is what the wrench was set to and `expected_nm` what the sheet's torque asks for with this wrench and adaptor.
    `warned` says what does not fit: date, range, setting.
    """

    joint: str
    title: str
    wrench: str
    setting_nm: float
    calibrated: date
    due: date | None = None
    lowest_nm: float | None = None
    highest_nm: float | None = None
    adaptor: str = ""
    lever_mm: float | None = None
    offset_mm: float | None = None
    stages_nm: tuple[float, ...] = ()
    target_nm: float | None = None
    angle_deg: float | None = None
    expected_nm: float | None = None
    second_round: str = ""
    warned: tuple[str, ...] = ()
    reason: str = ""


class Deviation(Event, frozen=True, kw_only=True, tag="deviation"):
    """What was done other than the repair data or the order say, why, and who agreed."""

    what: str
    why: str
    agreed_by: str


class SecondCheck(Event, frozen=True, kw_only=True, tag="check"):
    """What a second person looked at; `checked_by` is not who did the work."""

    what: str
    checked_by: str


class Photo(Event, frozen=True, kw_only=True, tag="photo"):
    """A picture in photos/: its neutral file name, the salted hash of the stripped file, what it shows."""

    file: str
    salted_sha256: str
    shows: str


class RoadTest(Event, frozen=True, kw_only=True, tag="road test"):
    """What a road-test log said: a neutral name, SHA-256 of the file, the words to print, the result as JSON for who draws it.

    `log` and `map` are the copy in the folder, which has the channels that were read and no other, and the map of the copy.
    """

    name: str
    log_sha256: str
    words: tuple[str, ...]
    result: str
    log: str = ""
    map: str = ""


class JobNote(Event, frozen=True, kw_only=True, tag="note"):
    """Something said in words, `stage` where it belongs to one."""

    text: str
    stage: str = ""


class PersonalErased(Event, frozen=True, kw_only=True, tag="erased"):
    """The personal data were erased; `fields` names which kinds, `photos` how many pictures."""

    fields: tuple[str, ...] = ()
    photos: int = 0


class Closed(Event, frozen=True, kw_only=True, tag="closed"):
    """A supervisor closed the job. A typed name or initials are a note: the printed page is what is signed."""

    supervisor: str
    left_open: tuple[str, ...] = ()
    reason: str = ""


AnyEvent = (
    Opened
    | PersonalKept
    | StageBegun
    | StageDone
    | StepDone
    | CautionRead
    | Measurement
    | PartDecision
    | PartFitted
    | Tightened
    | Deviation
    | SecondCheck
    | Photo
    | RoadTest
    | JobNote
    | PersonalErased
    | Closed
)
