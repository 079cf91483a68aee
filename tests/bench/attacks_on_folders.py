"""Attacks on what a learner's, a college's and a job's folder hold: small files that a person or a disk may spoil."""

import json
import shutil
from pathlib import Path
from random import Random

from attacks import Attack, believed, clean, one_line
from corpus import SHEET, class_files, column_map, job_files, jpeg, png, results_files, road_log
from mutations import mutated

from bitepoint import places
from bitepoint.bank.own import template
from bitepoint.bank.own_checks import check_questions
from bitepoint.job.erasing import erase
from bitepoint.job.missing_entries import missing
from bitepoint.job.pages.pages import pages_of
from bitepoint.job.reading import read_job
from bitepoint.job.recording import note
from bitepoint.job.state import PERSONAL, RECORD
from bitepoint.job.stripping import stripped
from bitepoint.job.telling import status
from bitepoint.logbook.bookmark import keep_bookmark, lesson_stopped_in
from bitepoint.logbook.draft import Owner, keep_draft, read_draft
from bitepoint.logbook.identity import read_identity
from bitepoint.logbook.own_files import digest_of_files, packed
from bitepoint.marking.outputs.read_back import read_results
from bitepoint.workbook.class_file import read_class_file
from bitepoint.workbook.notebooks import fingerprint, read_notebook
from bitepoint.workbook.save_hook import without_live_views
from bitepoint.workbook.shipped_lessons import read_lesson_files
from bitepoint.workshop.kit_list import read_kits
from bitepoint.workshop.own_log import judge_log, map_from, propose_map, read_log
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.questioning.questioned import questioned
from bitepoint.workshop.vehicles import vehicle

OWNER = Owner(learner="L01-X", class_word="oak-2026", sitting="", exercise="star.six-bolts", turn=1, facts="5c2d")


def attack_workbook_file(folder: Path, random: Random) -> None:
    (folder / "workbook.toml").write_bytes(mutated(class_files().workbook, random))
    one_line(lambda: read_identity(folder / "workbook.toml"))


def attack_start_file(folder: Path, random: Random) -> None:
    files = {"vehicles/k7v.toml": SHEET.read_bytes()}
    own = f'own = "{digest_of_files(files)}"\n[own_files]\n{json.dumps("vehicles/k7v.toml")} = "{packed(files)["vehicles/k7v.toml"]}"\n'
    content = class_files().workbook + (own.encode() if random.random() < 0.3 else b"")
    (folder / "L01-X.toml").write_bytes(mutated(content, random))
    one_line(lambda: read_class_file(folder / "L01-X.toml"))


def attack_small_files(folder: Path, random: Random) -> None:
    """Draft, bookmark and the record of lessons: whatever is wrong with them, they count as not there."""
    (folder / "workbook.toml").write_bytes(class_files().workbook)
    keep_draft(folder, OWNER, [1, 4, "two", None])
    keep_bookmark(folder, "star", "ask-star-six-bolts", 12)
    lessons = folder / ".bitepoint-lessons.json"
    lessons.write_bytes(b'{"files":{"08-star-tightening.ipynb":"ab12"},"offered":{"08-star-tightening.ipynb":"ab12"}}')
    for path in (folder / ".drafts" / "star.six-bolts.json", folder / ".bookmark.json", lessons):
        path.write_bytes(mutated(path.read_bytes(), random))
    read_draft(folder, OWNER)
    lesson_stopped_in(folder)
    read_lesson_files(folder)


def attack_lesson(folder: Path, random: Random) -> None:
    """A notebook as `open` and the saving of JupyterLab meet it."""
    path = folder / "08-star-tightening.ipynb"
    path.write_bytes(mutated(class_files().notebook, random))
    found = read_notebook(path)
    fingerprint(found)
    if found:
        without_live_views(found)


def attack_own_sheet(folder: Path, random: Random) -> None:
    path = folder / "k7v.toml"
    path.write_bytes(mutated(SHEET.read_bytes(), random))
    one_line(lambda: questioned(read_own_sheet(path).vehicle))


def attack_own_questions(folder: Path, random: Random) -> None:
    path = folder / "questions.toml"
    path.write_bytes(mutated(template().encode("utf-8"), random))
    found = check_questions(path)
    for text in (*found.refused, *found.look, *found.told):
        clean(text)


def attack_kits(folder: Path, random: Random) -> None:
    path = folder / "kits.csv"
    path.write_bytes(mutated(b"".join((places.assets() / "kits.csv").read_bytes().splitlines(True)[:8]), random))
    one_line(lambda: read_kits(path))


def attack_road_log(folder: Path, random: Random) -> None:
    """Log and column map, one or both damaged, as far as the verdict; then a map proposed for the damaged log."""
    which = random.choice(("log", "map", "both"))
    log = mutated(road_log(), random) if which != "map" else road_log()
    columns = mutated(column_map(), random) if which != "log" else column_map()
    one_line(lambda: judge_log(vehicle("A"), read_log(log, map_from(columns), name="a.csv"), gear=3))
    if which != "map":
        one_line(lambda: propose_map(log, name="a.csv"))


def attack_job(folder: Path, random: Random) -> None:
    """A job's record with right hashes or without, as far as its pages, a further entry and the erasing."""
    job = folder / "job"
    shutil.rmtree(job, ignore_errors=True)
    for name, content in job_files().items():
        (job / name).parent.mkdir(parents=True, exist_ok=True)
        (job / name).write_bytes(content)
    record = mutated(job_files()[RECORD], random)
    (job / RECORD).write_bytes(believed(record) if random.random() < 0.7 else record)
    if random.random() < 0.2:
        (job / PERSONAL).write_bytes(mutated(job_files()[PERSONAL], random))
    one_line(lambda: _shown(job))
    one_line(lambda: note(job, "one more"))
    one_line(lambda: erase(job))


def _shown(job: Path) -> None:
    found = read_job(job)
    for text in (*found.problems, *status(found), *missing(found)):
        clean(text)
    for page in pages_of(found).values():
        page.encode("utf-8")


def attack_personal(folder: Path, random: Random) -> None:
    job = folder / "job"
    if not job.is_dir():
        for name, content in job_files().items():
            (job / name).parent.mkdir(parents=True, exist_ok=True)
            (job / name).write_bytes(content)
    (job / PERSONAL).write_bytes(mutated(job_files()[PERSONAL], random))
    one_line(lambda: [clean(text) for text in read_job(job).problems])


def attack_photo(folder: Path, random: Random) -> None:
    content = mutated(jpeg() if random.random() < 0.6 else png(), random)
    one_line(lambda: stripped(stripped(content)[0]))


def attack_results(folder: Path, random: Random) -> None:
    """A set of results whose manifest or tables a disk spoilt."""
    results = folder / "results"
    if not results.is_dir():
        results.mkdir()
    for name, content in results_files().items():
        (results / name).write_bytes(mutated(content, random) if random.random() < 0.3 else content)
    one_line(lambda: read_results(results, clean))


ON_FOLDERS: dict[str, tuple[Attack, int]] = {
    "workbook.toml": (attack_workbook_file, 1200),
    "start file": (attack_start_file, 800),
    "small files": (attack_small_files, 400),
    "lesson": (attack_lesson, 800),
    "own sheet": (attack_own_sheet, 500),
    "own questions": (attack_own_questions, 40),
    "kits": (attack_kits, 900),
    "road log": (attack_road_log, 250),
    "job": (attack_job, 150),
    "personal.json": (attack_personal, 150),
    "photo": (attack_photo, 800),
    "results": (attack_results, 300),
}
"""The attacks, and how many cases of each the tests try."""
