"""A room of two learners with a register: hand-ins are put into it, marked, and what came out about one learner is read."""

import csv
import io
import json
import zipfile
from datetime import datetime, timedelta
from functools import cache
from html import unescape
from pathlib import Path
from typing import Any

from test_flags import OAK, ONE, TWO

from bitepoint.bank import exercises
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.record import write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.reading.notebooks import MIME
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rules import ClassRules

WORD, SECOND = "red-kite", "grey-heron"
HOME, IN = "2026-06-20T16:00:00+00:00", "2026-06-30T07:10:00+00:00"
NEXT_DAY = "2026-07-01T17:00:00+00:00"
WINDOW = {"begins": "2026-06-30T09:00+02:00", "ends": "2026-06-30T11:00+02:00"}
SUPERVISED = "supervised by A. Assessor"


@cache
def critical() -> tuple[str, int]:
    """Return an exercise under the pass rule and which of its known mistakes could hurt someone, for learner and word."""
    for found in exercises().values():
        drawn = [found.draw(class_word=OAK, learner=ONE, sitting=s) for s in ("", WORD, SECOND)]
        mistakes = [[q.mark(a).critical for a, _ in q.known_mistakes()] for q in drawn]
        for n in range(min(map(len, mistakes))):
            if not found.beyond and all(m[n] for m in mistakes) and drawn[0].tries_allowed > 2:
                return found.id, n
    raise AssertionError("the bank has no critical mistake")


def asked() -> list[str]:
    """Return the exercises under the pass rule of the lesson with the critical mistake."""
    lesson = exercises()[critical()[0]].lesson
    return [e.id for e in exercises().values() if e.lesson == lesson and not e.beyond]


RULES: dict[str, Any] = {"lessons": (exercises()[critical()[0]].lesson,)}


def right(sitting: str = "", *, learner: str = ONE, **more: Any) -> list[dict[str, Any]]:
    """Return everything answered right."""
    return [answer(e, sitting, learner=learner, **more) for e in asked()]


def wrong(sitting: str = "", *, learner: str = ONE, **more: Any) -> list[dict[str, Any]]:
    """Return everything right but the mistake that could hurt someone."""
    return [answer(e, sitting, learner=learner, bad=e == critical()[0], **more) for e in asked()]


def answer(exercise: str, sitting: str = "", *, learner: str = ONE, bad: bool = False, **more: Any) -> dict[str, Any]:
    """Return the fields of one answer, without its time; in a sitting no score is written."""
    question = exercises()[exercise].draw(class_word=OAK, learner=learner, sitting=sitting)
    given = [a for a, _ in question.known_mistakes()][critical()[1]] if bad else question.right_answer()
    said = {"learner": learner, "class": OAK, "device": "aaaaaaaa", **asked_fields(question, 1), "how": "typed"}
    told = {"sitting": sitting} if sitting else {"score": question.mark(given).score}
    return {**said, "answer": given, **told, **more}


def chained(answers: list[dict[str, Any]], begin: str, *, every: float = 60) -> list[str]:
    """Return answers as one chain of lines, one a minute; `at` of an answer wins."""
    lines: list[str] = []
    prev = ""
    for n, fields in enumerate(answers, start=1):
        at = (datetime.fromisoformat(begin) + timedelta(seconds=every * n)).isoformat()
        lines.append(write_line({"at": at, **fields}, n=n, prev=prev))
        prev = json.loads(lines[-1])["hash"]
    return lines


class Room:
    """A folder of hand-ins with its register, marked as often as wanted."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.hand_ins, self.book = folder, folder / "hand-ins", Register(folder / "register")
        self.hand_ins.mkdir()
        (folder / "roster.csv").write_text(f"learner,class_word\n{ONE},{OAK}\n{TWO},{OAK}\n", "utf-8")

    def zip(self, name: str, *chains: list[str], hint: str = ONE) -> Path:
        """Hand in a zip; each chain is a logbook of its own."""
        path = self.hand_ins / f"{name}.zip"
        with zipfile.ZipFile(path, "w") as archive:
            if hint:
                archive.writestr("workbook.toml", f'learner = "{hint}"\nclass_word = "{OAK}"\n')
            for n, lines in enumerate(chains):
                archive.writestr(f"logbook/lesson.{n}.jsonl", "".join(f"{line}\n" for line in lines))
        return path

    def notebook(self, name: str, lines: list[str]) -> None:
        """Hand in a notebook alone."""
        output = {"output_type": "display_data", "data": {"text/plain": "", MIME: {"lines": lines}}}
        cells = [{"cell_type": "code", "outputs": [output]}]
        (self.hand_ins / f"{name}.ipynb").write_text(json.dumps({"nbformat": 4, "cells": cells}), "utf-8")

    def sits(self, **more: Any) -> None:
        """Enter the sitting of the room."""
        self.book.add(Entry(**{"kind": "sitting", "word": WORD, "by": "A. Assessor", "room": "12", **WINDOW, **more}))

    def declares(self, **more: Any) -> None:
        """Enter the declaration of the first learner."""
        self.book.add(Entry(**{"kind": "declaration", "learner": ONE, "by": ONE, "date": "2026-06-30", **more}))

    def confirms(self, **more: Any) -> None:
        """Confirm the time of the whole room."""
        said = {"kind": "confirmation", "word": WORD, "by": "A. Assessor", "text": "I was there", **more}
        self.book.add(Entry(**said))

    def page(self, out: str, who: str = ONE) -> str:
        """Return the words of a learner's page as they are read."""
        return unescape((self.folder / out / "assessor" / f"{who}.html").read_text("utf-8"))

    def marked(self, who: str = ONE, out: str = "marks", **rules: Any) -> "Marked":
        """Mark everything and return what came out about one learner."""
        done = mark_hand_ins(
            [self.hand_ins],
            roster=self.folder / "roster.csv",
            out=self.folder / out,
            register=self.folder / "register",
            rules=ClassRules(**{**RULES, **rules}),
        )
        return Marked(self.folder / out, who, done.problems)


class Marked:
    """What marks.csv and learners.csv say about one learner."""

    def __init__(self, out: Path, who: str, problems: list[str]) -> None:
        self.problems = problems
        texts = [(out / f).read_text("utf-8-sig") for f in ("learners.csv", "marks.csv")]
        tables = [csv.DictReader(io.StringIO(text, newline="")) for text in texts]
        (learner,), rows = ([r for r in table if r["learner"] == who] for table in tables)
        self.evidence, self.sitting, self.learner = learner["evidence"], learner["sitting"], learner
        self.flags = {f for f in learner["flags"].split("; ") if f}
        self.row = next((r for r in rows if r["exercise"] == critical()[0]), {})
