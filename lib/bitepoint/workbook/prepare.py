"""Run lessons as their learner before they are opened: `python -m bitepoint.workbook.prepare FOLDER NAME …`.

The first lesson is run before the page opens, the others behind it. A lesson is written only while it holds
the very bytes we put there and no session of the running server has it open. What is run is the lesson as shipped, never
the one in the folder, which may be anybody's.
"""

import json
import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import NoReturn

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import FILE, read_identity
from bitepoint.workbook.create import shipped_lessons
from bitepoint.workbook.execute import executed, use_selector_loop
from bitepoint.workbook.notebooks import Notebook, as_text, fingerprint, read_notebook
from bitepoint.workbook.running import open_notebooks
from bitepoint.workbook.runtime_folder import runtime_folder_of
from bitepoint.workbook.shipped_lessons import LessonFiles, read_lesson_files, write_lesson_files

Run = Callable[[Notebook, Path], Notebook]


def prepare(folder: Path, names: list[str], *, run: Run, in_use: Callable[[], set[str]]) -> list[str]:
    """Run those of the named lessons that nobody has touched yet; return a sentence for each that failed.

    `run` gives a notebook with fresh outputs; `in_use` the names of the notebooks that are open now.
    """
    identity = read_identity(folder / FILE)
    problems = []
    for name in names:
        record = read_lesson_files(folder)
        path = folder / name
        shipped = _as_shipped(path)
        if shipped is None or not record.as_we_left_it(path) or name in in_use():
            continue
        whom = _run_for(identity, shipped)
        if record.run_for.get(name) == whom:
            continue
        try:
            done = run(shipped, folder)
        # nbclient's words for a kernel that died and for a cell that takes too long.
        except (RuntimeError, TimeoutError) as error:
            problems.append(f"{name}: {type(error).__name__}: {error}")
            continue
        if problem := _first_error(done):
            problems.append(f"{name}: {problem}")
        elif record.as_we_left_it(path) and name not in in_use():
            _store(folder, path, done, whom, record)
    return problems


def _as_shipped(path: Path) -> Notebook | None:
    """Return the shipped lesson of this name, None if there is none or the one in the folder has other cells."""
    shipped = next((read_notebook(lesson) for lesson in shipped_lessons() if lesson.name == path.name), None)
    return shipped if shipped and fingerprint(shipped) == fingerprint(read_notebook(path)) else None


def _store(folder: Path, path: Path, done: Notebook, whom: str, record: LessonFiles) -> None:
    record.put(path, as_text(done).encode("utf-8"), record.files.get(path.name, ""))
    record.run_for[path.name] = whom
    write_lesson_files(folder, record)


def _run_for(identity: Identity, notebook: Notebook) -> str:
    who = [identity.learner, identity.class_word, identity.feedback, identity.sitting]
    return json.dumps([*who, identity.vehicle, *identity.vehicles, bank_digest(), fingerprint(notebook)])


def _first_error(notebook: Notebook) -> str:
    for cell in notebook["cells"]:
        for output in cell.get("outputs", []):
            if output.get("output_type") == "error":
                return f"{output.get('ename')}: {output.get('evalue')}"
    return ""


def main(arguments: list[str]) -> int:
    """Prepare the named lessons of a workbook; return 1 if one did not work."""

    ended = False

    def stop(number: int, frame: FrameType | None) -> NoReturn:
        nonlocal ended
        ended = True
        raise SystemExit(0)

    def run(notebook: Notebook, where: Path) -> Notebook:
        try:
            return executed(notebook, where, env=dict(os.environ))
        finally:
            # Inside a run our exit reaches us as the death of its kernel.
            if ended:
                sys.exit(0)

    signal.signal(signal.SIGTERM, stop)
    use_selector_loop()
    folder = Path(arguments[0])
    runtime = runtime_folder_of(folder)
    try:
        problems = prepare(folder, arguments[1:], run=run, in_use=lambda: open_notebooks(runtime))
    except (BitepointError, OSError) as error:
        problems = [str(error)]
    for problem in problems:
        print(problem, file=sys.stderr)
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
