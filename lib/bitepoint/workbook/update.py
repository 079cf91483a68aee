"""A new version of a lesson arrives: in place where the learner changed nothing, beside it where they did."""

from pathlib import Path

from bitepoint.workbook.create import shipped_lessons
from bitepoint.workbook.notebooks import Notebook, fingerprint, read_notebook
from bitepoint.workbook.shipped_lessons import LessonFiles, read_lesson_files, write_lesson_files


def update_lessons(folder: Path) -> list[str]:
    """Bring the lessons of a workbook up to date; return what happened, one sentence a lesson.

    Only while no server of ours is open on the folder: a notebook that may be open is never written.
    A lesson whose cells are as handed out is replaced; a changed one stays, and the new one is put beside it.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    record = read_lesson_files(folder)
    said = [_update(folder / lesson.name, lesson, record) for lesson in shipped_lessons()]
    write_lesson_files(folder, record)
    return [sentence for sentence in said if sentence]


def _update(target: Path, lesson: Path, record: LessonFiles) -> str:
    notebook = read_notebook(lesson)
    return brought_up_to_date(target, notebook, record) if notebook else ""


def brought_up_to_date(target: Path, lesson: Notebook, record: LessonFiles) -> str:
    """Bring one lesson of a workbook up to date and note it in the record; return what happened, "" for nothing."""
    new = fingerprint(lesson)
    if record.offered.get(target.name) == new:
        return ""
    now = fingerprint(read_notebook(target))
    record.offered[target.name] = new
    if now == new:
        record.files[target.name] = new
        return ""
    if now and now == record.files.get(target.name):
        record.put_notebook(target, lesson)
        return f"{target.name} was brought up to date; you had changed nothing in it."
    beside = _name_beside(target, record)
    record.put_notebook(beside, lesson)
    return f"{target.name} has a new version. Yours stays as it is; the new one is beside it: {beside.name}"


def _name_beside(target: Path, record: LessonFiles) -> Path:
    number = 1
    while True:
        mark = "new" if number == 1 else f"new {number}"
        path = target.with_name(f"{target.stem} ({mark}){target.suffix}")
        untouched = path.is_file() and fingerprint(read_notebook(path)) == record.files.get(path.name)
        if untouched or not (path.exists() or path.is_symlink()):
            return path
        number += 1
