"""The table of what was asked again weeks later, recall.csv: one row an answer; no mark hangs on any."""

import csv
import io

from bitepoint.marking.marks import cell, decimal
from bitepoint.marking.result import Result

FILE = "recall.csv"
COLUMNS = (
    "learner",
    "exercise",
    "at",
    "days",
    "turn",
    "score",
    "right",
    "critical",
    "put_right",
    "mistake",
    "answer",
    "own_words",
)


def recall_lines(result: Result) -> str:
    """Return a learner's lines of recall.csv, oldest first; `days` is empty where nobody knows the answer before, `put_right` where none was dangerous."""
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\n")
    for one in result.recalled:
        writer.writerow(
            [
                cell(result.name),
                cell(one.exercise),
                one.at.isoformat(timespec="seconds"),
                "" if one.days is None else f"{one.days:.2f}",
                str(one.turn),
                decimal(one.score),
                "yes" if one.right else "no",
                "yes" if one.critical else "no",
                ("yes" if one.put_right else "no") if one.critical else "",
                cell(one.mistake),
                cell(one.answer),
                cell(one.own_words),
            ]
        )
    return file.getvalue()
