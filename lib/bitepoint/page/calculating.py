"""The verb `calculator`: labelled fields over a trade calculation, with its working and picture."""

from typing import Any

from markupsafe import Markup

from bitepoint import pictures
from bitepoint.errors import BitepointError
from bitepoint.page import html, output
from bitepoint.page.calculators import Calculation, Calculator, calculator_named
from bitepoint.sources import source
from bitepoint.workshop.vehicles import FRAME


def calculator(name: str) -> None:
    """Show the calculator `name`: a static card worked with its first figures, and live fields where a page can."""
    try:
        found = calculator_named(name)
    except BitepointError as error:
        output.say(error)
        return
    text = f"Calculator: {found.title}"
    output.show_static(output.Static(text, _card(found)))
    if output.page_watches():
        _show_fields(found)


def _card(calc: Calculator) -> Markup:
    rows = [("Field", "Figure")]
    defaults = calc.defaults()
    for field in (f for f in calc.fields if calc.applies(f, {})):
        rows.append((field.label, f"{defaults[field.key]} {field.unit}".strip()))
    worked = html.joined([html.table(rows), result_html(calc, calc.answer({}))])
    return html.render(
        "calculator.html.jinja",
        name=calc.name,
        title=calc.title,
        frame=FRAME if calc.vehicle else "",
        about=calc.about,
        # Folded away where live fields stand right below.
        worked=html.folded("Worked with its first figures", worked, is_open=not output.page_watches()),
        source=source(calc.source).title,
    )


def result_html(calc: Calculator, result: Calculation) -> Markup:
    """Return results, working, warnings and picture as HTML."""
    picture = result.picture
    return html.render(
        "result.html.jinja",
        results=[("Result", "Figure"), *result.results],
        working=result.working,
        working_head=result.working_head,
        warnings=result.warnings,
        picture=html.figure(pictures.draw(picture.key, **picture.parameters)) if picture else html.NOTHING,
        picture_first=result.picture_first,
    )


def _show_fields(calc: Calculator) -> None:
    from bitepoint.page import widgets

    spec = {
        "title": calc.title,
        "frame": FRAME if calc.vehicle else "",
        "fields": [
            {
                "key": f.key,
                "label": f.label,
                "unit": f.unit,
                "kind": "choice" if f.options else "number",
                "low": f.low,
                "high": f.high,
                "step": f.step,
                "options": list(f.options),
                "slider": f.slider,
                "only_for": list(f.only_for),
            }
            for f in calc.fields
        ],
    }
    form = widgets.CalculatorForm(spec=spec, values=calc.defaults(), shown=_shown(calc, {}))

    def changed(change: dict[str, Any]) -> None:
        form.shown = _shown(calc, change["new"])

    form.observe(changed, names="values")
    output.show_live(form)


def _shown(calc: Calculator, typed: dict[str, object]) -> str:
    try:
        return result_html(calc, calc.answer(typed))
    except BitepointError as error:
        return html.panel("not yet", "Not yet.", html.paragraphs(str(error)))
