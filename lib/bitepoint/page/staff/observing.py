"""The form for observations at the vehicle: what an assessor watched, written into the register at once."""

import csv
from collections.abc import Sequence
from pathlib import Path

from bitepoint.classroom.bench_sheets.observing import STANDARD
from bitepoint.classroom.class_folder import read_class_folder
from bitepoint.errors import BadInput, BitepointError
from bitepoint.logbook.identity import REHEARSAL, key_of, learner_id
from bitepoint.marking.registry.lists import add_all, read_observations
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.page import html, output
from bitepoint.page.staff.folder import practice_folder
from bitepoint.page.staff.output import tell, tell_table

PRACTICE_DAY = "2026-06-30"
PRACTICE = "You practise: this register goes when the notebook is closed. To keep what you see, name your class folder in the form."
REGISTER = "register"
"""Folder of the register in a class folder."""


class Observations:
    """The observations of a register: a table that stands by itself, and a form where a page can show one."""

    def __init__(
        self, register: Register, criteria: Sequence[str], learners: Sequence[str], *, practice: bool = False
    ) -> None:
        self.register, self.criteria, self.learners = register, tuple(criteria), tuple(learners)
        self._practice = practice

    def __repr__(self) -> str:
        return "Observations"

    def keep_in(self, named: str) -> None:
        """Go on in the register of a class folder, with the learners and criteria of that class.

        Parameters
        ----------
        named : str
            The whole path, or the name of a folder in the home folder.

        Raises
        ------
        BadInput
            There is no such class; nothing changes then.
        """
        folder = Path(named.strip().strip('"')).expanduser()
        group = read_class_folder(folder if folder.is_absolute() else Path.home() / folder)
        self.register, self._practice = Register(group.folder / REGISTER), False
        self.criteria = group.rules.criteria or tuple(STANDARD)
        self.learners = tuple(enrolled.learner for enrolled in group.learners)

    def record(self, *, learner: str, criterion: str, result: str, assessor: str, date: str, note: str = "") -> Entry:
        """Write one observation; it is on the disk when this returns.

        Raises
        ------
        BadInput
            Something is missing or cannot be used.
        NotRecorded
            The folder does not take it.
        """
        entry = Entry(
            kind="observation",
            learner=learner.strip(),
            criterion=criterion.strip(),
            result=result,
            by=assessor.strip(),
            date=date.strip(),
            text=note.strip(),
        )
        if self.kept and self.learners and key_of(entry.learner) not in map(key_of, ("", *self.learners)):
            raise BadInput(
                f"{entry.learner[:40]} is not in this class. Choose from the list, or look at the sheet again."
            )
        return self.register.add(entry)

    def rows(self) -> list[tuple[str, ...]]:
        """Return the observations as they count now: of each learner and criterion the newest, headings first."""
        newest: dict[tuple[str, str], Entry] = {}
        for e in self.register.entries():
            if e.kind == "observation":
                newest[e.learner.casefold(), e.criterion.strip().casefold()] = e
        found = sorted(newest.values(), key=lambda e: (e.learner.casefold(), self._place(e.criterion)))
        # A hyphen at which no line breaks: a day stays in one piece.
        lines = [(e.learner, e.criterion, e.result, e.by, e.date.replace("-", "\u2011"), e.text) for e in found]
        return [("Learner", "Criterion", "Result", "Assessor", "Date", "Note"), *lines]

    def _place(self, criterion: str) -> int:
        return self.criteria.index(criterion) if criterion in self.criteria else len(self.criteria)

    def form(self) -> None:
        """Show what is recorded so far and, where a page can, the form below it."""
        redraw = output.show_static(self.card())
        if output.page_watches():
            from bitepoint.page.staff.observation_form import ObservationForm

            ObservationForm(self, redraw).show()

    def card(self) -> output.Static:
        rows = self.rows()
        where = "Nothing is recorded yet." if len(rows) == 1 else ""
        advice = "No form below? Click here, then press Shift and Enter."
        note = self.place
        text = "\n".join(" | ".join(row) for row in rows)
        table = html.paragraphs(where) if where else html.table(rows, caption="What was watched")
        body = table + html.paragraphs(f"{note}\n\n{advice}")
        return output.Static(f"{where or text}\n{note}", html.card(body))

    @property
    def kept(self) -> bool:
        """Whether the register stays when the notebook is closed."""
        return not self._practice

    @property
    def place(self) -> str:
        """Where the register is, in a sentence."""
        return f"Kept in {self.register.folder}." if self.kept else PRACTICE

    def table(self) -> None:
        """Show the observations as they count now."""
        tell_table("What was watched", self.rows())

    def bring(self, path: str | Path) -> None:
        """Bring a list (CSV) to the register; what is there already is not written twice."""
        try:
            new, known = add_all(self.register, read_observations(Path(path)))
            tell(f"{new} observations recorded, {known} were there already.")
        except BitepointError as error:
            output.say(error)

    def example_list(self) -> Path:
        """Write a list to practise with, show it as it stands in the file, and return its path."""
        path = self.register.folder / "observations.csv"
        path.parent.mkdir(parents=True, exist_ok=True)
        first, second = learner_id(REHEARSAL, 7), learner_id(REHEARSAL, 8)
        day = (PRACTICE_DAY, "A. Assessor")
        listed = [
            (first, self.criteria[0], "done right", *day, ""),
            (first, self.criteria[1], "not right yet", *day, "strap forgotten until asked"),
            (second, self.criteria[0], "not watched", *day, ""),
        ]
        with path.open("w", encoding="utf-8-sig", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(("learner", "criterion", "result", "date", "assessor", "note"))
            writer.writerows(listed)
        tell(f"{path.name} holds:", *path.read_text(encoding="utf-8-sig").splitlines())
        return path


def observations(register: str = "", *, class_file: str = "", roster: str = "") -> Observations:
    """Return the observations of a register; without one, of a practice register that nothing is kept of.

    Parameters
    ----------
    register : str
        Folder of the register, as for marking.
    class_file : str
        class.toml with the criteria of the class; the standard criteria when left out.
    roster : str
        The class list, for the learner ids to choose from; they may be typed too.

    Raises
    ------
    BadInput
        A file is not there or cannot be used.
    """
    criteria = read_rules(Path(class_file)).criteria if class_file else ()
    learners = [e.learner for e in read_roster(Path(roster)).values()] if roster else []
    if not register and not roster:
        learners = [learner_id(REHEARSAL, number) for number in range(1, 13)]
    folder = Path(register) if register else practice_folder()
    return Observations(Register(folder), criteria or tuple(STANDARD), learners, practice=not register)
