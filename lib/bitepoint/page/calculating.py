"""The verb `calculator`: labelled fields over a trade calculation, with its working and picture."""

from html import escape
from typing import Any

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


def _card(calc: Calculator) -> str:
    rows = [("Field", "Figure")]
    defaults = calc.defaults()
    for field in calc.fields:
        rows.append((field.label, f"{defaults[field.key]} {field.unit}".strip()))
    parts = [
        f'<div style="font-size:13px;opacity:0.8">Calculator · {escape(calc.name)}</div>',
        f'<h3 style="margin:2px 0 6px;font-size:18px">{escape(calc.title)}</h3>',
        html.frame(FRAME) if calc.vehicle else "",
        html.paragraphs(calc.about),
        _folded(html.table(rows) + result_html(calc, calc.answer({})), is_open=not output.page_watches()),
        f'<p style="margin:6px 0;font-size:13px;opacity:0.85">Source: {escape(source(calc.source).title)}. '
        "No fields below? Click here, then press Shift and Enter.</p>",
    ]
    return html.card("".join(parts), edge="#009e73")


def _folded(body: str, *, is_open: bool) -> str:
    """Fold the worked figures away where live fields stand right below."""
    opened = " open" if is_open else ""
    summary = '<summary style="padding:6px 0;cursor:pointer">Worked with its first figures</summary>'
    return f"<details{opened}>{summary}{body}</details>"


def result_html(calc: Calculator, result: Calculation) -> str:
    """Return results, working, warnings and picture as HTML."""
    parts = [html.table([("Result", "Figure"), *result.results])]
    if result.working:
        lines = "".join(f'<div style="margin:2px 0">{escape(line)}</div>' for line in result.working)
        parts.append(f'<div style="margin:8px 0"><b>{escape(result.working_head)}</b>{lines}</div>')
    parts += [html.panel("not yet", "Take care.", html.paragraphs(warning)) for warning in result.warnings]
    if result.picture:
        drawn = html.figure(pictures.draw(result.picture.key, **result.picture.parameters))
        parts.insert(0 if result.picture_first else len(parts), drawn)
    return "".join(parts)


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
