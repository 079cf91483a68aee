"""The live part of a job's page: where it lies, what to record, its fields, one button; what goes wrong is said under it."""

from typing import Any

from bitepoint.errors import BitepointError, ReasonNeeded
from bitepoint.job.forms import EntryForm, FormField
from bitepoint.page import html, output
from bitepoint.page.job.job_panel import JobPanel, as_text

_LAYOUT = {"width": "min(680px, 100%)"}
_STYLE = {"description_width": "160px"}


class JobWidgets:
    """Fields and a button for each form that is due, one form at a time."""

    def __init__(self, panel: JobPanel, redraw: Any) -> None:
        import ipywidgets

        from bitepoint.page.staff.keys import KeysStayHere

        self._make, self._panel, self._redraw = ipywidgets, panel, redraw
        wide: dict[str, Any] = {"layout": _LAYOUT, "style": _STYLE}
        placed = str(panel.folder or "")
        self.folder = ipywidgets.Text(
            description="Job's folder",
            value=placed,
            placeholder="such as job-1 in your home folder",
            continuous_update=False,
            **wide,
        )
        self.chosen = ipywidgets.Dropdown(description="To record", options=(), **wide)
        self.fields: dict[str, Any] = {}
        self.reason = ipywidgets.Text(description="Reason", placeholder="ask your supervisor first; it is kept", **wide)
        self.button = ipywidgets.Button(layout={"width": "240px", "height": "40px", "align_self": "flex-start"})
        self.says, self.told = ipywidgets.HTML(), ipywidgets.HTML()
        self._form_box, self._forms, self._loading = ipywidgets.VBox(), dict[str, EntryForm](), False
        self.folder.observe(lambda _: self._placed(), names="value")
        self.chosen.observe(lambda _: self._form_chosen(), names="value")
        self.button.on_click(lambda _: self._pressed())
        self._box = ipywidgets.VBox([self.folder, self.chosen, self._form_box, KeysStayHere()])
        self._load()

    def show(self) -> None:
        output.show_live(self._box)

    def _placed(self) -> None:
        try:
            self._panel.name(str(self.folder.value))
            self._load()
            self._redraw(self._panel.card())
            self._say("note", "Job's folder:", str(self._panel.folder))
        except BitepointError as error:
            self._say("not yet", "Not found.", str(error))

    def _load(self, chosen: str = "") -> None:
        """Take the forms that are due now; the one that was chosen stays where it is still due."""
        self._forms = {form.key: form for form in self._panel.forms()}
        self._loading = True
        self.chosen.options = [(form.title, key) for key, form in self._forms.items()]
        self.chosen.value = chosen if chosen in self._forms else next(iter(self._forms))
        self._loading = False
        self._draw()

    def _form_chosen(self) -> None:
        if not self._loading:
            self._draw()

    def _draw(self) -> None:
        form = self._forms[str(self.chosen.value)]
        self.fields = {field.key: self._field(field) for field in form.fields}
        self.button.description = form.button
        self.says.value = html.paragraphs(form.says) if form.says else ""
        self.reason.value, self.told.value = "", ""
        self._lay_out(with_reason=False)

    def _lay_out(self, *, with_reason: bool) -> None:
        asked = [self.reason] if with_reason else []
        self._form_box.children = [self.says, *self.fields.values(), *asked, self.button, self.told]

    def _field(self, field: FormField) -> Any:
        wide: dict[str, Any] = {"layout": _LAYOUT, "style": _STYLE, "description": field.label}
        if field.control == "choice":
            return self._make.Dropdown(options=list(field.options), **wide)
        if field.control == "several":
            return self._make.SelectMultiple(options=list(field.options), rows=min(12, len(field.options) or 1), **wide)
        if field.control == "tick":
            return self._make.Checkbox(value=False, **wide)
        return self._make.Text(placeholder=field.hint, **wide)

    def _pressed(self) -> None:
        form = self._forms[str(self.chosen.value)]
        typed = as_text({key: field.value for key, field in self.fields.items()})
        self.button.disabled = True
        try:
            sentences = self._panel.keep(form, typed, str(self.reason.value))
        except ReasonNeeded as error:
            self._lay_out(with_reason=True)
            self._say("danger", "Careful.", f"{' '.join(error.warned)}\n\n{error.advice}")
        except BitepointError as error:
            self._say("not yet", "Not kept.", str(error))
        else:
            self._load(form.key)
            self._redraw(self._panel.card())
            self._say("right", "Kept.", "\n\n".join(sentences))
        finally:
            self.button.disabled = False

    def _say(self, tone: str, word: str, text: str) -> None:
        self.told.value = html.panel(tone, word, html.paragraphs(text))
