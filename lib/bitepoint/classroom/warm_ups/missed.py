"""What a class missed most, read from a set of results: in recall, and where nobody was asked again, in the lessons."""

import csv
from collections import Counter
from collections.abc import Collection, Iterator
from pathlib import Path

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.marking.marks import BOM
from bitepoint.marking.outputs.manifest import MANIFEST, broken, read_manifest, refuse_deleted_since
from bitepoint.marking.recall_table import FILE as RECALL_TABLE
from bitepoint.marking.roster import key_of

_FEW = 5
"""Below so many answers in recall the lessons are asked instead (our choice)."""


class Missed(Struct, frozen=True, kw_only=True):
    """One exercise over the class: how many answers, how many of them right, and the mistake made most often."""

    exercise: str
    right: int
    answers: int
    mistake: str

    @property
    def share(self) -> float:
        """The share right, with one answer more on either side, so that a single miss does not come first."""
        return (self.right + 1) / (self.answers + 2)


class ClassMissed(Struct, frozen=True, kw_only=True):
    """A class: its word, whether recall says what it missed or the lessons do, and the exercises, the weakest first."""

    class_word: str
    from_recall: bool
    exercises: tuple[Missed, ...]


def read_missed(results: Path, *, gone: Collection[str] = ()) -> ClassMissed:
    """Return what the class of a results folder missed most.

    Raises
    ------
    BadInput
        The folder holds no results, they were changed, or they hold a learner deleted on request since.
    """
    manifest = read_manifest(results / MANIFEST)
    if manifest is None:
        raise BadInput(f"{results}: holds no marked class. Run: bitepoint mark HANDINS --out {results}")
    refuse_deleted_since(results, manifest, gone)
    spoilt = sorted(set(broken(manifest, results)) & {RECALL_TABLE, "marks.csv", "learners.csv"})
    if spoilt:
        raise BadInput(f"{results}: {spoilt[0]} was changed since it was marked. Mark again first.")
    words = Counter(key_of(row["class_word"]) for row in _rows(results / "learners.csv") if row["class_word"])
    recalled = _counted(results / RECALL_TABLE, "score") if RECALL_TABLE in manifest.names else []
    enough = sum(m.answers for m in recalled) >= _FEW
    return ClassMissed(
        class_word=words.most_common(1)[0][0] if words else "class",
        from_recall=enough,
        exercises=tuple(recalled if enough else _counted(results / "marks.csv", "first_score")),
    )


def _rows(path: Path) -> Iterator[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        file.seek(len(BOM.encode()) if file.read(1) == BOM else 0)
        yield from csv.DictReader(file)


def _counted(path: Path, score: str) -> list[Missed]:
    right, answers, mistakes = Counter[str](), Counter[str](), dict[str, Counter[str]]()
    for row in _rows(path):
        id = row["exercise"]
        if row[score] and id in exercises():
            answers[id] += 1
            right[id] += row[score] == "1"
            mistakes.setdefault(id, Counter())[row["mistake"]] += bool(row["mistake"])
    found = [Missed(exercise=id, right=right[id], answers=n, mistake=_most(mistakes[id])) for id, n in answers.items()]
    return sorted(found, key=lambda m: (m.share, m.exercise))


def _most(counts: Counter[str]) -> str:
    name, count = min(counts.items(), key=lambda item: (-item[1], item[0]), default=("", 0))
    return name if count else ""
