"""Real files, as the course makes them and as people bring them: what the fuzzing damages."""

import io
import zipfile
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any, NamedTuple

from bitepoint.job.findings import decide
from bitepoint.job.opening import NewJob, open_on_sheet
from bitepoint.job.photos import add_photo
from bitepoint.job.recording import deviation, note, second_check
from bitepoint.job.stages import begin_stage
from bitepoint.job.state import RECORD
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.workshop.own_log import propose_map
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.questioning.checking import answer_question, open_questions, record_check
from bitepoint.workshop.simulator import simulate
from bitepoint.workshop.vehicles import vehicle

SHEET = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
LESSONS, LINES = ("star", "torque", "fault"), 4


class ClassFiles(NamedTuple):
    """Files of an invented class: one hand-in taken apart and its notebook, list of learners, class file."""

    logbooks: dict[str, bytes]
    workbook: bytes
    notebook: bytes
    roster: bytes
    class_file: bytes
    learner: str


def zipped(contents: dict[str, bytes]) -> bytes:
    """Return files packed as a hand-in is."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in contents.items():
            archive.writestr(name, content)
    return packed.getvalue()


@cache
def class_files() -> ClassFiles:
    """Return the files of a rehearsed learner; of each of three lessons the first lines, so that one case is quick."""
    made = Path(mkdtemp(prefix="bitepoint-corpus-"))
    for form in ("zip", "notebook"):
        rehearse(made / form, learners=2, seed=5, form=form, lessons=LESSONS)
    packed = min((made / "zip" / "hand-ins").iterdir())
    with zipfile.ZipFile(packed) as archive:
        whole = {name: archive.read(name) for name in archive.namelist()}
    logbooks = {
        name: b"".join(text.splitlines(True)[:LINES]) for name, text in whole.items() if name.startswith(FOLDER)
    }
    notebook = min((made / "notebook" / "hand-ins").rglob("*.ipynb"), key=lambda path: path.stat().st_size)
    return ClassFiles(
        logbooks=logbooks,
        workbook=whole[FILE],
        notebook=notebook.read_bytes(),
        roster=_with_names((made / "zip" / "roster.csv").read_bytes()),
        class_file=(made / "zip" / "class.toml").read_bytes(),
        learner=packed.name.split("-2")[0],
    )


def _with_names(roster: bytes) -> bytes:
    head, *rows = roster.splitlines()
    return b"\n".join([head + b",name", *(row + b",Ana" for row in rows), b""])


def checked_sheet(folder: Path) -> Path:
    """Return a college's own sheet that a second person has checked."""
    path = folder / SHEET.name
    path.write_bytes(SHEET.read_bytes())
    for one in open_questions(read_own_sheet(path)):
        answer_question(path, one.key, by="A. Tutor", why="page 14, seen twice")
    record_check(path, "C. Second")
    return path


@cache
def results_files() -> dict[str, bytes]:
    """Return the files of a marking's results that other programs read."""
    made = Path(mkdtemp(prefix="bitepoint-corpus-"))
    rehearse(made / "class", learners=2, seed=5, lessons=LESSONS)
    mark_hand_ins([made / "class" / "hand-ins"], roster=made / "class" / "roster.csv", out=made / "results")
    return {
        path.name: path.read_bytes()
        for path in (made / "results").iterdir()
        if path.suffix in (".csv", ".json", ".jsonl")
    }


@cache
def job_files() -> dict[str, bytes]:
    """Return the files of a job on an own sheet: record, sheet, side file, a photo."""
    made = Path(mkdtemp(prefix="bitepoint-corpus-"))
    job = made / "job"
    said = NewJob(by="T. Prentice", complaint="It slips uphill in fourth", mileage_km=143_200)
    open_on_sheet(job, checked_sheet(made), said, {"customer": "Wilhelmina Quist", "registration": "ZZ-417 KV"})
    begin_stage(job, "diagnose")
    decide(job, "disc", "replace", because="worn to the rivets")
    (made / "p.png").write_bytes(png())
    add_photo(job, made / "p.png", shows="the disc")
    deviation(job, "other bolts", why="none to be had", agreed_by="A. Head")
    second_check(job, "flywheel bolts", checked_by="A. Head")
    note(job, "Smells of burnt lining")
    return {path.relative_to(job).as_posix(): path.read_bytes() for path in job.rglob("*") if path.is_file()}


def job_record() -> bytes:
    """Return the record of that job."""
    return job_files()[RECORD]


def png() -> bytes:
    """Return a small picture with a comment."""
    from PIL import Image
    from PIL.PngImagePlugin import PngInfo

    words = PngInfo()
    words.add_text("Comment", "N48.2082 E16.3738")
    return _picture(Image, "PNG", pnginfo=words)


def jpeg() -> bytes:
    """Return a small photo that is held sideways, with a comment."""
    from PIL import Image

    exif = Image.Exif()
    exif[0x0112] = 6
    return _picture(Image, "JPEG", exif=exif.tobytes(), comment=b"N48.2082 E16.3738")


def _picture(image: Any, kind: str, **more: Any) -> bytes:
    out = io.BytesIO()
    image.linear_gradient("L").convert("RGB").resize((16, 10)).save(out, kind, **more)
    return out.getvalue()


@cache
def road_log() -> bytes:
    """Return a log of a drive, as long as a short part of one."""
    rows = [
        (s.t_s, s.engine_rpm, s.driven_wheel_km_h, s.throttle_pct)
        for s in simulate(vehicle("A"), "slip", seed=1).samples
    ]
    lines = [
        "Time [s],Engine [rpm],Vehicle speed [km/h],Throttle [%]",
        *(",".join(f"{x:.2f}" for x in row) for row in rows[:400]),
    ]
    return ("\n".join(lines) + "\n").encode("ascii")


@cache
def column_map() -> bytes:
    """Return the map of that log, as proposed and confirmed."""
    return propose_map(road_log(), name="a.csv").text.replace("confirmed = false", "confirmed = true").encode()
