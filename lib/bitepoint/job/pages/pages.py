"""The pages of a job by their names, and the folder that they are printed into, with the list that holds them together."""

from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any

from markupsafe import Markup

from bitepoint.classroom.job_cards.pages import JOB_FRAME, card_pages
from bitepoint.classroom.job_cards.tools_at_hand import read_tools
from bitepoint.classroom.render import Paper, render
from bitepoint.errors import BadInput
from bitepoint.job.events import PartDecision, PartFitted, Photo, RoadTest, SecondCheck
from bitepoint.job.lines import page_lines
from bitepoint.job.missing_entries import missing
from bitepoint.job.pages.label import label_values
from bitepoint.job.pages.road_test import road_test_pictures
from bitepoint.job.reading import refuse_link
from bitepoint.job.state import NOT_SIGNED, PERSONAL_FIELDS, TRAINING_RECORD, WorkshopJob
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.hazards import LOCAL_RULES

TOOLS, PRINTED, MANIFEST = "tools.toml", "print", "manifest"
_MOST_PHOTO = 8_000_000


def frame_of_job(job: WorkshopJob) -> str:
    """Return the frame of a job's pages; on a training vehicle that of its invented figures."""
    return job.vehicle.frame if job.training else JOB_FRAME


def pages_of(job: WorkshopJob, *, paper: Paper = "A4", on: date | None = None) -> dict[str, str]:
    """Return every page of a job by its name: cards, record, customer's page, label, photos, and last the manifest.

    Parameters
    ----------
    job : WorkshopJob
        As its record tells it.
    paper : "A4" or "letter"
        Page size.
    on : date
        Day of the job, by which wrenches are in date; None: the day of the last entry.

    Raises
    ------
    BadData
        The list of tools in the job's folder cannot be used.
    """
    frame = frame_of_job(job)
    day = on or date.fromisoformat(job.entries[-1].at[:10])
    pages = card_pages(job.vehicle, read_tools(job.folder / TOOLS), on=day, frame=frame, paper=paper)
    common: dict[str, Any] = {"paper": paper, "frame": frame, "job": job, "v": job.vehicle, "local_rules": LOCAL_RULES}
    common |= {"training_record": TRAINING_RECORD, "not_signed": NOT_SIGNED, "class_title": ""}
    pages["record"] = render("job-record.html.jinja", title="Job record", **common, **_record(job))
    pages["customer"] = render("job-customer.html.jinja", title="What was done", **common, **_customer(job))
    if label := label_values(job):
        pages["label"] = render("job-label.html.jinja", title="Label: flywheel type changed", **common, **label)
    photos, left_out = _photos(job)
    if photos or left_out:
        pages["photos"] = render("job-photos.html.jinja", title="Photos", photos=photos, left_out=left_out, **common)
    pages[MANIFEST] = render(
        "job-manifest.html.jinja", title="What belongs together", files=_digests(pages), open=missing(job), **common
    )
    return pages


def write_pages(job: WorkshopJob, *, paper: Paper = "A4", on: date | None = None) -> list[Path]:
    """Write every page into `print` of the job's folder, those of an earlier time replaced, and return the files.

    Raises
    ------
    BadInput
        The folder cannot be written, or is a link to another place.
    """
    refuse_link(job.folder, PRINTED)
    pages = pages_of(job, paper=paper, on=on)
    out = job.folder / PRINTED
    try:
        out.mkdir(exist_ok=True)
        for old in out.glob("*.html"):
            if old.stem not in pages:
                old.unlink()
        for name, page in pages.items():
            write_in_one_step(out / f"{name}.html", page.encode("utf-8"))
    except OSError as error:
        raise BadInput(f"{out} cannot be written ({error.strerror}). Make room, or move the job elsewhere.") from None
    return [out / f"{name}.html" for name in pages]


def _record(job: WorkshopJob) -> dict[str, Any]:
    return {
        "lines": page_lines(job.entries),
        "open": missing(job),
        "who": _who(job),
        "pictures": [picture for test in job.all_of(RoadTest) for picture in road_test_pictures(job, test)],
    }


def _who(job: WorkshopJob) -> list[tuple[str, str]]:
    """Return the personal data that are there, in the order of the side file; once erased a line that says so."""
    if job.personal is None:
        return [("Customer and vehicle", "erased")] if job.erased else []
    return [
        (name[:1].upper() + name[1:], job.personal[key]) for key, name in PERSONAL_FIELDS.items() if key in job.personal
    ]


def _customer(job: WorkshopJob) -> dict[str, Any]:
    return {
        "who": _who(job),
        "parts": job.all_of(PartFitted),
        "decisions": list({one.part.casefold(): one for one in job.all_of(PartDecision)}.values()),
        "checks": job.all_of(SecondCheck),
        "road_tests": job.all_of(RoadTest),
    }


def _photos(job: WorkshopJob) -> tuple[list[tuple[str, Markup]], list[tuple[str, str]]]:
    """Return each photo as an image with what it shows, and of each that is too large or not there what it shows and its file."""
    found, left_out = [], []
    for photo in () if job.erased else job.all_of(Photo):
        path = job.photo(photo.file)
        if path and path.stat().st_size <= _MOST_PHOTO:
            found.append((photo.shows, _as_image(path, photo.shows)))
        else:
            left_out.append((photo.shows, photo.file))
    return found, left_out


def _as_image(path: Path, shows: str) -> Markup:
    from base64 import b64encode

    kind = "png" if path.suffix.casefold() == ".png" else "jpeg"
    source = f"data:image/{kind};base64,{b64encode(path.read_bytes()).decode()}"
    return Markup('<img alt="{}" src="{}">').format(shows, source)


def _digests(pages: dict[str, str]) -> list[tuple[str, str, int]]:
    """Return name, SHA-256 and size of each page."""
    return [
        (f"{name}.html", sha256(page.encode("utf-8")).hexdigest(), len(page.encode("utf-8")))
        for name, page in pages.items()
    ]
