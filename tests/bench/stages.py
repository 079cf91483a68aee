"""Where marking spends its processor time: a college marked in this process, each stage counted without those inside it."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from functools import wraps
from importlib import import_module
from inspect import isgenerator
from pathlib import Path
from time import process_time
from typing import Any

STAGES = {
    "read": "unpack zips and notebooks, find the lines, join them",
    "check": "decode each line, its hash, keys that stand twice",
    "draw": "draw the question again, also others' to look for copies",
    "facts": "digest of its facts",
    "mark": "the verdict and the time to read",
    "trail": "marks.jsonl, lines kept for the results",
    "result": "what counts in each exercise, flags",
    "pages": "three pages a learner",
    "write": "write, hash, read back",
    "report": "report.html with the item statistics",
    "rest": "tables, counts, manifest",
}
"""Every stage with what it does."""
_WHERE = (
    ("bitepoint.marking.batch", "_guarded", "trail"),
    ("bitepoint.marking.batch", "marked_by_exercise", "mark"),
    ("bitepoint.marking.shared_reading", "read_and_mark_all", "read"),
    ("bitepoint.marking.reading.gather", "read_without_text", "check"),
    ("bitepoint.marking.reading.notebooks", "read_without_text", "check"),
    ("bitepoint.bank.registry:Exercise", "draw", "draw"),
    ("bitepoint.questions.question:Question", "facts_digest", "facts"),
    ("bitepoint.marking.classwork:ClassWork", "take", "trail"),
    ("bitepoint.marking.classwork:ClassWork", "result_of", "result"),
    ("bitepoint.marking.learner_set", "learner_page", "pages"),
    ("bitepoint.marking.learner_set", "assessor_page", "pages"),
    ("bitepoint.marking.learner_set", "evidence_page", "pages"),
    ("bitepoint.marking.outputs.new_set:NewSet", "write", "write"),
    ("bitepoint.marking.outputs.new_set:NewSet", "seal", "write"),
    ("bitepoint.marking.writing", "report_page", "report"),
)


class _Spent:
    """Processor time by stage [s]: the time of what runs inside a stage counts to that alone."""

    def __init__(self) -> None:
        self.seconds = dict.fromkeys(STAGES, 0.0)
        self._open, self._since = ["rest"], process_time()

    def _turn(self) -> None:
        now = process_time()
        self.seconds[self._open[-1]] += now - self._since
        self._since = now

    def wrapped(self, call: Callable[..., Any], stage: str) -> Callable[..., Any]:
        @wraps(call)
        def counted(*args: Any, **named: Any) -> Any:
            with self._inside(stage):
                found = call(*args, **named)
            return self._steps(found, stage) if isgenerator(found) else found

        return counted

    def _steps(self, steps: Iterator[Any], stage: str) -> Iterator[Any]:
        """Yield what a generator yields; what it does for that counts to the stage, and not what is done with it."""
        nothing = object()
        while True:
            with self._inside(stage):
                found = next(steps, nothing)
            if found is nothing:
                return
            yield found

    @contextmanager
    def _inside(self, stage: str) -> Iterator[None]:
        self._turn()
        self._open.append(stage)
        try:
            yield
        finally:
            self._turn()
            self._open.pop()

    def end(self) -> None:
        self._turn()


def main(college: Path, out: Path) -> None:
    """Mark a folder of classes and print a line a stage: its name and µs of processor time a record.

    Its first class is marked once before: what is read and compiled once in a process is no cost of a record.
    """
    from bitepoint.marking.college.folder import find_classes
    from bitepoint.marking.college.one_class import SameForAll, mark_class

    same = SameForAll(out=out, marked=datetime.fromisoformat("2026-06-30T12:00+02:00"))
    places, _, _ = find_classes(college, leave_out=out)
    mark_class(places[0], same)
    spent = _Spent()
    for where, name, stage in _WHERE:
        module, _, inside = where.partition(":")
        holder = getattr(import_module(module), inside) if inside else import_module(module)
        setattr(holder, name, spent.wrapped(getattr(holder, name), stage))
    for place in places:
        found = mark_class(place, same)
        assert not found.refused, found.refused
    spent.end()
    records = sum(path.read_bytes().count(b'"line":"') for path in out.glob("*/marks.jsonl"))
    for stage, seconds in spent.seconds.items():
        print(stage, f"{1e6 * seconds / records:.1f}")


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
