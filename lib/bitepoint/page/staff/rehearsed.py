"""A rehearsed class marked step by step: one verb a step, each showing what the files of marking hold."""

import csv
from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import REHEARSAL, learner_id
from bitepoint.marking import Outcome, mark_hand_ins
from bitepoint.marking.registry.lists import add_all, read_codes, read_observations
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.place import HAND_INS, REGISTER, ROSTER
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.rules import read_rules
from bitepoint.page.staff.folder import practice_folder
from bitepoint.page.staff.output import tell, tell_table

DAY = "2026-06-30"
"""The day on which everything of the rehearsal is decided."""
WORD = "red-kite"
"""Word of a sitting in which nobody of the rehearsal answered."""


class RehearsedClass:
    """An invented class in a folder that goes when the notebook's kernel ends; the same for the same seed."""

    def __init__(self, *, learners: int, seed: int, lessons: Sequence[str] = ()) -> None:
        self.folder = practice_folder()
        self._register = Register(self.folder / "class" / REGISTER)
        self._marked: Outcome | None = None
        rehearse(self.folder / "class", learners=learners, seed=seed, planted=True, lessons=lessons)

    def __repr__(self) -> str:
        return "A rehearsed class"

    def files(self) -> None:
        """Show what an assessor has before marking."""
        place = self.folder / "class"
        rows = [("File", "What for")]
        rows += [
            (HAND_INS, f"{len(list((place / HAND_INS).iterdir()))} zips, as learners send them"),
            (ROSTER, f"{len(_rows(place / ROSTER))} learners who should have handed in"),
            ("class.toml", "pass share, due date, lessons that count, criteria to observe"),
            ("codes.csv", f"{len(_rows(place / 'codes.csv'))} check codes noted at the end of the lessons"),
            ("planted.csv", "the cases that were planted: look at it last"),
        ]
        tell_table("The class folder", rows)

    def note_codes(self) -> None:
        """Put the noted check codes into the register."""
        new, _ = add_all(self._register, read_codes(self.folder / "class" / "codes.csv"))
        tell(f"{new} check codes recorded in the register.")

    def mark(self) -> None:
        """Mark every hand-in and say what it came to."""
        place = self.folder / "class"
        done = self._marked = mark_hand_ins(
            [place / HAND_INS],
            roster=place / ROSTER,
            out=self.folder / "marks",
            register=self._register.folder,
            rules=read_rules(place / "class.toml"),
        )
        tell(
            f"Learners: {done.learners}. Marks: {done.rows}. Flags for a person to look at: {done.flags}. "
            f"Held or not readable: {done.unread}."
        )

    def marks(self, learner: int, *, exercise: str = "", most: int = 12) -> None:
        """Show the first rows of marks.csv for one learner, by number, or the row of one exercise."""
        who = learner_id(REHEARSAL, learner)
        found = [row for row in self._table("marks.csv") if row["learner"] == who and exercise in ("", row["exercise"])]
        decided = ("override", "mark") if any(row["override"] for row in found) else ()
        columns = ("exercise", "first_score", "last_score", *decided, "tries", "turns", "reason")
        rows = [[row[c] for c in columns] for row in found]
        tell_table(f"marks.csv, {who}", [[c.replace("_", " ") for c in columns], *rows], most=most)

    def results(self, *learners: int) -> None:
        """Show the rows of learners.csv for some learners, by number."""
        wanted = [learner_id(REHEARSAL, number) for number in learners]
        columns = ("learner", "evidence", "sitting", "observation", "right", "needed", "critical_open")
        found = {row["learner"]: row for row in self._table("learners.csv")}
        rows = [[found[who][c] for c in columns] for who in wanted if who in found]
        tell_table("learners.csv", [[c.replace("_", " ") for c in columns], *rows])

    def flags(self) -> None:
        """Show every flag with its evidence."""
        rows = [(f.learner, f.kind, f.evidence) for f in self._done().summary.flags]
        tell_table("Flags: a person should look", [("Learner", "Flag", "Evidence"), *rows])

    def planted(self) -> None:
        """Compare the flags with what was planted."""
        raised = {(f.learner, f.kind) for f in self._done().summary.flags}
        planted = _rows(self.folder / "class" / "planted.csv")
        rows = [(r["learner"], r["case"], _came(r, raised)) for r in planted]
        tell_table("Planted, and what marking said", [("Learner", "Planted", "Raised"), *rows])
        extra = raised - {(r["learner"], r["flag"]) for r in planted}
        tell(f"Flags on anybody else: {len(extra)}.")

    def stuck(self) -> None:
        """Show where the class is stuck."""
        rows = [
            (e.id, f"{100 * e.first_share:.0f} %", e.commonest[0] or "no named mistake", str(e.commonest[1] or ""))
            for e in self._done().summary.stuck()
        ]
        tell_table(
            "Where the class is stuck", [("Exercise", "Right at first try", "Commonest mistake", "Times"), *rows]
        )

    def statistics(self, lesson: str) -> None:
        """Show how the exercises of a lesson behave, and the reliability of its first answers."""
        items = self._done().summary.items
        rows = [
            (i.id, str(i.answered), _figure(i.right_first), _figure(i.item_rest), i.says or "nothing odd")
            for i in items.lines()
            if i.id.partition(".")[0] == lesson
        ]
        tell_table(
            f"Lesson {lesson}",
            [("Exercise", "Learners", "Right at first try", "Tells strong from weak", "What is odd"), *rows],
        )
        tell(*(f"KR-20 of lesson {key}: {words}." for key, words in items.reliability() if key == lesson))

    def second_marks(self, learner: int, scores: dict[str, float], *, by: str) -> None:
        """Enter what a second marker gave one learner, mark again, and tell how far the two agree."""
        who = learner_id(REHEARSAL, learner)
        for exercise, score in scores.items():
            self._add("second mark", who, by, exercise=exercise, score=score)
        tell(f"{len(scores)} second marks recorded.")
        self.mark()
        tell(f"First and second marking agree in {self._done().summary.items.agreement()} marks.")

    def override(self, learner: int, exercise: str, score: float, *, by: str, text: str) -> None:
        """Enter an override; it counts at the next marking."""
        who = learner_id(REHEARSAL, learner)
        self._add("override", who, by, exercise=exercise, score=score, text=text)
        tell(f"Override recorded: {who}, {exercise}, {score:g}, by {by}: {text}.")

    def sitting(self, learner: int, *, by: str) -> None:
        """Enter a sitting, in which nobody of this class answered, and the learner's declaration."""
        who = learner_id(REHEARSAL, learner)
        self._add("sitting", who, by, word=WORD, begins=f"{DAY}T09:00+02:00", ends=f"{DAY}T11:00+02:00")
        self._add("declaration", who, who)
        tell(f"Recorded for {who}: sitting {WORD} supervised by {by}, and the learner's declaration.")

    def observe(self, learner: int, results: Sequence[str], *, by: str) -> None:
        """Write an observation list as CSV, one result for each criterion of the class, and bring it to the register."""
        who, path = learner_id(REHEARSAL, learner), self.folder / "observations.csv"
        criteria = read_rules(self.folder / "class" / "class.toml").criteria
        with path.open("w", encoding="utf-8-sig", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(["criterion", "result", "learner", "assessor", "date"])
            writer.writerows([c, result, who, by, DAY] for c, result in zip(criteria, results, strict=True))
        new, _ = add_all(self._register, read_observations(path))
        tell(f"{new} observations recorded.")

    def verify(self) -> None:
        """Say whether the register's chain holds."""
        problems = self._register.problems()
        tell(*(problems or [f"The chain holds: {len(self._register.entries())} entries."]))

    def _add(self, kind: str, learner: str, by: str, **said: object) -> None:
        self._register.add(Entry(kind=kind, learner=learner, by=by, date=DAY, **said))  # type: ignore[arg-type]

    def _done(self) -> Outcome:
        if self._marked is None:
            raise BadInput("Nothing is marked yet. Run the cell with mark() first.")
        return self._marked

    def _table(self, name: str) -> list[dict[str, str]]:
        self._done()
        return _rows(self.folder / "marks" / name)


def rehearsed_class(*, learners: int = 30, seed: int = 7, lessons: Sequence[str] = ()) -> RehearsedClass:
    """Make an invented class with planted cases: fixed seed, fixed days."""
    return RehearsedClass(learners=learners, seed=seed, lessons=lessons)


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def _came(row: dict[str, str], raised: set[tuple[str, str]]) -> str:
    if row["flag"]:
        return "flagged" if (row["learner"], row["flag"]) in raised else "MISSED"
    return "FLAGGED" if any(learner == row["learner"] for learner, _ in raised) else "honest, not flagged"


def _figure(value: float | None) -> str:
    return "none" if value is None else f"{round(value, 2) + 0:.2f}"
