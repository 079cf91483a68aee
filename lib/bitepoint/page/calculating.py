"""The verb `calculator`: labelled fields over a trade calculation, with its working and picture."""

import re
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from bitepoint import pictures
from bitepoint.errors import BitepointError
from bitepoint.page import html, output
from bitepoint.page.calculators import Calculation, Calculator, Field, calculator_named
from bitepoint.sources import source
from bitepoint.workshop.vehicles import FRAME

if TYPE_CHECKING:
    from bitepoint.page.widgets import CalculatorForm


def calculator(name: str, *, folded: bool = False) -> None:
    """Show the calculator `name`: a static card worked with its first figures, and live fields where a page can.

    `folded`: the live fields wait behind a button; a lesson with many calculators stays short enough to scroll through.
    """
    try:
        found = calculator_named(name)
    except BitepointError as error:
        output.say(error)
        return
    text = f"Calculator: {found.title}"
    output.show_static(output.Static(text, _card(found)))
    if output.page_watches():
        output.show_live(fields_form(found, folded=folded))


def _card(calc: Calculator) -> Markup:
    rows = [("Field", "Figure")]
    defaults = calc.defaults()
    for field in (f for f in (*calc.shown_first(), *calc.folded()) if calc.applies(f, {})):
        rows.append((field.label, f"{defaults[field.key]} {field.unit}".strip()))
    worked = html.joined([html.table(rows), result_html(calc, calc.answer({}))])
    return html.render(
        "calculator.html.jinja",
        name=calc.name,
        title=calc.title,
        frame=FRAME if calc.vehicle else "",
        about=calc.about,
        worked=html.folded("Worked with its first figures", worked, is_open=True),
        source=source(calc.source).title,
    )


def result_html(calc: Calculator, result: Calculation) -> Markup:
    """Return results, working, warnings and picture as HTML."""
    picture = result.picture
    return html.render(
        "result.html.jinja",
        results=[("Result", "Figure"), *((name, _minus(figure)) for name, figure in result.results)],
        working=[_minus(line) for line in result.working],
        working_head=result.working_head,
        warnings=result.warnings,
        picture=html.figure(pictures.draw(picture.key, **picture.parameters)) if picture else html.NOTHING,
        picture_first=result.picture_first,
    )


def _minus(text: str) -> str:
    """Return a text with a minus, not a hyphen, before its negative figures."""
    return re.sub(r"(?<![\w-])-(?=[\d.])", "−", text)


def fields_form(calc: Calculator, *, folded: bool = False) -> "CalculatorForm":
    """Return the live fields of a calculator, answered by this kernel."""
    from bitepoint.page import widgets

    spec = {
        "title": calc.title,
        "frame": FRAME if calc.vehicle else "",
        "folds": folded,
        "fields": [
            *(_spec(field) for field in calc.shown_first()),
            *({**_spec(field), "folded": True} for field in calc.folded()),
        ],
    }
    shown = result_html(calc, calc.answer({}))
    form = widgets.CalculatorForm(spec=spec, values=calc.defaults(), shown=shown, opened=not folded)

    def changed(change: dict[str, Any]) -> None:
        """Show what the new figures give, or what is wrong with which of them; the result before then stays."""
        with form.hold_sync():
            try:
                form.shown, form.wrong = result_html(calc, calc.answer(change["new"])), {}
            except BitepointError as error:
                form.wrong = calc.wrong(change["new"]) or {getattr(error, "key", ""): str(error)}
            form.answered += 1

    form.observe(changed, names="values")
    return form


def _spec(field: Field) -> dict[str, Any]:
    return {
        "key": field.key,
        "label": field.label,
        "unit": field.unit,
        "kind": "choice" if field.options else "number",
        "low": field.low,
        "high": field.high,
        "step": field.step,
        "options": list(field.options),
        "slider": field.slider,
        "only_for": list(field.only_for),
        "group": field.group,
        "short": field.short,
    }
