"""A college to measure with: classes in folders of their own, each learner with so many answers, made by several processes.

`PYTHONPATH=lib python tests/bench/college.py FOLDER --learners 10000 --answers 100`
"""

import argparse
import csv
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from time import perf_counter

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.marking.rehearsal.forms import as_zip, written
from bitepoint.marking.rehearsal.invented import invented_class
from bitepoint.marking.rehearsal.place import CLASS, HAND_INS, ROSTER
from bitepoint.questions.draw import STANDARD

SIZE = 25
"""Learners of a class: 10,000 make 400 classes."""
_FROM_A_LESSON = 12
"""Fewer answers than any lesson brings."""


def make_class(number: int, folder: Path, learners: int, answers: int) -> int:
    """Write one class; return how many lines its learners handed in.

    The lessons go round from class to class, so that all exercises come up; who answers less in them has fewer lines.
    """
    place, word = folder / f"class-{number:03}", f"word-{number}"
    (place / HAND_INS).mkdir(parents=True)
    keys = list(lessons_in_use())
    some = [keys[(number + i) % len(keys)] for i in range(min(len(keys), 1 + answers // _FROM_A_LESSON))]
    count, rows = 0, []
    for person in invented_class(learners, number, lessons=some, class_word=word):
        person.written = person.written[:answers]
        as_zip(place / HAND_INS, person, written(person))
        count += len(person.written)
        rows.append([person.learner, word, person.vehicle, " ".join(STANDARD)])
    with (place / ROSTER).open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([["learner", "class_word", "vehicle", "cars"], *rows])
    (place / CLASS).write_text(f'class_word = "{word}"\ntitle = "Class {number}"\n', encoding="utf-8")
    return count


def make_college(folder: Path, learners: int, answers: int, processes: int = 2) -> int:
    """Write a college of classes of 25, the last one smaller; return how many lines were handed in."""
    sizes = [SIZE] * (learners // SIZE) + ([learners % SIZE] if learners % SIZE else [])
    work = partial(make_class, folder=folder, answers=answers)
    with get_context("fork").Pool(processes) as pool:
        made = [pool.apply_async(work, (number,), {"learners": size}) for number, size in enumerate(sizes, start=1)]
        return sum(result.get() for result in made)


def main() -> None:
    """Make a college and say how long it took."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--learners", type=int, default=10_000)
    parser.add_argument("--answers", type=int, default=100)
    parser.add_argument("--processes", type=int, default=2)
    given = parser.parse_args()
    began = perf_counter()
    count = make_college(given.folder, given.learners, given.answers, given.processes)
    print(f"{count:,} answers of {given.learners:,} learners in {perf_counter() - began:.0f} s")


if __name__ == "__main__":
    main()
