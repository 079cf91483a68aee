"""The form for observations at the vehicle: what an assessor watched, written into the register at once."""

import csv
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from bitepoint.classroom.bench_sheets.observing import STANDARD
from bitepoint.errors import BitepointError
from bitepoint.logbook.identity import REHEARSAL, learner_id
from bitepoint.marking.registry.lists import add_all, read_observations
from bitepoint.marking.registry.register import OBSERVED, Entry, Register
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.page import html, output
from bitepoint.page.staff.folder import practice_folder
from bitepoint.page.staff.output import tell, tell_table

PRACTICE_DAY = "2026-06-30"
PRACTICE = "You practise: this register goes when the notebook is closed. To keep what you see, name your own folder: "
_FIELDS = ("learner", "criterion", "result", "assessor", "date", "note")


class Observations:
    """The observations of a register: a table that stands by itself, and a form where a page can show one."""

    def __init__(
        self, register: Register, criteria: Sequence[str], learners: Sequence[str], *, practice: bool = False
    ) -> None:
        self.register, self.criteria, self.learners = register, tuple(criteria), tuple(learners)
        self._practice = practice

    def __repr__(self) -> str:
        return "Observations"

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
        redraw = output.show_static(self._card())
        if output.page_watches():
            _Form(self, redraw).show()

    def _card(self) -> output.Static:
        rows = self.rows()
        where = "Nothing is recorded yet." if len(rows) == 1 else ""
        advice = "No form below? Click here, then press Shift and Enter."
        note = f'{PRACTICE}observations("register").form()' if self._practice else f"Kept in {self.register.folder}."
        text = "\n".join(" | ".join(row) for row in rows)
        table = html.paragraphs(where) if where else html.table(rows, caption="What was watched")
        body = table + html.paragraphs(f"{note}\n\n{advice}")
        return output.Static(f"{where or text}\n{note}", html.card(body, edge="#009e73"))

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
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(("learner", "criterion", "result", "date", "assessor", "note"))
            writer.writerows(listed)
        tell(f"{path.name} holds:", *path.read_text(encoding="utf-8").splitlines())
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


class _Form:
    """Fields and one button; what goes wrong is said under it, and the table above follows."""

    def __init__(self, sheet: Observations, redraw: Any) -> None:
        import ipywidgets

        from bitepoint.page.staff.keys import KeysStayHere

        self._sheet, self._redraw = sheet, redraw
        wide = {"layout": {"width": "min(620px, 100%)"}, "style": {"description_width": "110px"}}
        self._fields: dict[str, Any] = {
            "learner": ipywidgets.Combobox(description="Learner", options=sheet.learners, ensure_option=False, **wide),
            "criterion": ipywidgets.Dropdown(description="Criterion", options=sheet.criteria, **wide),
            "result": ipywidgets.Dropdown(description="Result", options=("choose", *OBSERVED), **wide),
            "assessor": ipywidgets.Text(description="Assessor", **wide),
            "date": ipywidgets.Text(description="Date", value=date.today().isoformat(), **wide),
            "note": ipywidgets.Text(description="Note", placeholder="No names, nothing about health", **wide),
        }
        self._button = ipywidgets.Button(description="Record", layout={"width": "160px", "height": "40px"})
        self._told = ipywidgets.HTML()
        self._button.on_click(self._pressed)
        guard = KeysStayHere()
        self._box = ipywidgets.VBox([*self._fields.values(), self._button, self._told, guard])

    def show(self) -> None:
        output.show_live(self._box)

    def _pressed(self, _: Any) -> None:
        self._button.disabled = True
        try:
            said = {key: str(self._fields[key].value) for key in _FIELDS}
            entry = self._sheet.record(**(said | {"result": said["result"].removeprefix("choose")}))
            words = f"{entry.learner}, {entry.criterion}: {entry.result}."
            self._told.value = html.panel("right", "Recorded.", html.paragraphs(words))
            self._fields["result"].value, self._fields["note"].value = "choose", ""
            self._redraw(self._sheet._card())
        except BitepointError as error:
            self._told.value = html.panel("not yet", "Not recorded.", html.paragraphs(_as_on_the_form(str(error))))
        finally:
            self._button.disabled = False


def _as_on_the_form(words: str) -> str:
    """Return an error with the names of the form's fields instead of the command's options."""
    names = {"--by": "Assessor", "--text": "Note", "--criterion": "Criterion", "--result": "Result", "--date": "Date"}
    for option, label in (names | {"--learner": "Learner"}).items():
        words = words.replace(option, label)
    return words
