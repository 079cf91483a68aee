"""The fields and the button under the table of observations: press Keep, and it is in the class's register."""

from datetime import date
from typing import Any, Protocol

from bitepoint.errors import BitepointError
from bitepoint.marking.registry.register import OBSERVED, Entry, Register
from bitepoint.page import html, output

_FIELDS = ("learner", "criterion", "result", "assessor", "date", "note")


class Sheet(Protocol):
    """What the form fills in: the observations of a register."""

    register: Register
    criteria: tuple[str, ...]
    learners: tuple[str, ...]

    @property
    def kept(self) -> bool:
        """Whether the register stays."""

    @property
    def place(self) -> str:
        """Where it is, in a sentence."""

    def keep_in(self, named: str) -> None:
        """Go over to the register of a class folder."""

    def record(self, *, learner: str, criterion: str, result: str, assessor: str, date: str, note: str = "") -> Entry:
        """Write one observation."""

    def card(self) -> output.Static:
        """Return the table as it counts now."""


class ObservationForm:
    """Fields and one button; what goes wrong is said under it, and the table above follows."""

    def __init__(self, sheet: Sheet, redraw: Any) -> None:
        import ipywidgets

        from bitepoint.page.staff.keys import KeysStayHere

        self._sheet, self._redraw = sheet, redraw
        wide = {"layout": {"width": "min(620px, 100%)"}, "style": {"description_width": "110px"}}
        self._fields: dict[str, Any] = {
            "class": ipywidgets.Text(
                description="Class folder",
                placeholder="such as autumn; left empty, you practise and nothing is kept",
                continuous_update=False,
                **wide,
            ),
            "learner": ipywidgets.Combobox(description="Learner", options=sheet.learners, ensure_option=False, **wide),
            "criterion": ipywidgets.Dropdown(description="Criterion", options=sheet.criteria, **wide),
            "result": ipywidgets.Dropdown(description="Result", options=("choose", *OBSERVED), **wide),
            "assessor": ipywidgets.Text(description="Assessor", **wide),
            "date": ipywidgets.Text(description="Date", value=date.today().isoformat(), **wide),
            "note": ipywidgets.Text(description="Note", placeholder="No names, nothing about health", **wide),
        }
        self._button = ipywidgets.Button(description="Keep", layout={"width": "160px", "height": "40px"})
        self._told = ipywidgets.HTML()
        self._button.on_click(self._pressed)
        self._named = ""
        self._fields["class"].observe(lambda _: self._class_named(), names="value")
        guard = KeysStayHere()
        self._box = ipywidgets.VBox([*self._fields.values(), self._button, self._told, guard])

    def show(self) -> None:
        output.show_live(self._box)

    def _class_named(self) -> bool:
        """Go over to the class that is named; return whether the form was its own already, so that it can be kept."""
        named = str(self._fields["class"].value).strip()
        if named == self._named:
            return True
        try:
            self._sheet.keep_in(named)
        except BitepointError as error:
            self._told.value = html.panel("not yet", "Nothing is kept.", html.paragraphs(str(error)))
            return False
        self._named = named
        self._fields["learner"].options = self._sheet.learners
        self._fields["criterion"].options = self._sheet.criteria
        self._redraw(self._sheet.card())
        counted = f"{len(self._sheet.learners)} learners, {len(self._sheet.criteria)} criteria"
        words = f"What you keep goes to {self._sheet.register.folder} ({counted}). Choose learner and criterion."
        self._told.value = html.panel("right", "The class is found.", html.paragraphs(words))
        return False

    def _pressed(self, _: Any) -> None:
        if not self._class_named():
            return
        self._button.disabled = True
        try:
            said = {key: str(self._fields[key].value) for key in _FIELDS}
            entry = self._sheet.record(**(said | {"result": said["result"].removeprefix("choose")}))
            words = f"{entry.learner}, {entry.criterion}: {entry.result}. {self._sheet.place}"
            self._told.value = html.panel("right", "Kept." if self._sheet.kept else "Tried.", html.paragraphs(words))
            self._fields["result"].value, self._fields["note"].value = "choose", ""
            self._redraw(self._sheet.card())
        except BitepointError as error:
            self._told.value = html.panel("not yet", "Not kept.", html.paragraphs(as_on_the_form(str(error))))
        finally:
            self._button.disabled = False


def as_on_the_form(words: str) -> str:
    """Return an error with the names of the form's fields instead of the command's options."""
    names = {"--by": "Assessor", "--text": "Note", "--criterion": "Criterion", "--result": "Result", "--date": "Date"}
    for option, label in (names | {"--learner": "Learner"}).items():
        words = words.replace(option, label)
    return words
