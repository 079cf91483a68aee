"""What every text of a college's question must keep: something in it, not too long, readable, no markup, places that are known."""

import re
from collections.abc import Iterator
from string import Formatter

from bitepoint.bank.forms.form import Form
from bitepoint.bank.forms.places import plain_places
from bitepoint.bank.own.rows import OwnQuestion
from bitepoint.printable import on_page

LONG, SENTENCE, SHORT = 600, 300, 120
"""Most letters of a text that is read in rest, of one read beside others, of a name."""
_TAG = re.compile(r"<[A-Za-z/!?]|```|&#?\w+;|\]\(")
_CALL = re.compile(r"\b(?:__\w+__|import\s+\w+|eval\(|exec\(|lambda\b)|\$\(|\{\{")

Text = tuple[str, str, int, frozenset[str]]
"""Where it stands, the text, how many letters it may have, the places it may have."""


def text_faults(row: OwnQuestion) -> Iterator[tuple[str, str]]:
    """Yield where a text breaks a rule, and the rule."""
    for where, text, most, places in texts_of(row):
        if rule := _broken(text, most, places):
            yield where, rule


def texts_of(row: OwnQuestion) -> Iterator[Text]:
    """Yield every text of a question that has to be there or is there."""
    none: frozenset[str] = frozenset()
    yield "outcome", row.outcome, SHORT, none
    yield "source", row.source, SENTENCE, none
    for where, text, most in (("title", row.title, SHORT), ("danger", row.danger, SENTENCE)):
        if text:
            yield where, text, most, none
    figures = frozenset({*row.fields, *(("car", "Car") if row.sheet_paths else ())})
    for mistake in row.mistake:
        yield f"mistake {mistake.key!r}, name", mistake.name, SHORT, none
        yield f"mistake {mistake.key!r}, says", mistake.says, SENTENCE, figures
    for key, option in row.shared.items():
        yield f"shared option {key!r}, text", option.text, SENTENCE, none
        yield from _told(f"shared option {key!r}", option.name, option.says)
    for form in row.form:
        yield from _form_texts(f"form {form.key!r}", form, figures, row.of_kind.worked_out)


def _form_texts(of: str, form: Form, figures: frozenset[str], worked_out: bool) -> Iterator[Text]:
    none: frozenset[str] = frozenset()
    right = figures | {"answer"} if worked_out else figures
    yield f"{of}, ask", form.ask, LONG, figures
    yield f"{of}, why", form.why, LONG, right
    yield f"{of}, step", form.step, LONG, figures
    if form.solution:
        yield f"{of}, solution", form.solution, LONG, right | {"right", "why", "listed", "first", "last"}
    for line in form.table:
        for cell in line:
            yield f"{of}, table", cell, SHORT, figures
    for option in form.option:
        yield f"{of}, option {option.key!r}, text", option.text, SENTENCE, none
        yield from _told(f"{of}, option {option.key!r}", option.name, option.says)
    for item in form.steps:
        yield f"{of}, item {item.key!r}, text", item.text, SENTENCE, none
    for rule in form.rule:
        yield f"{of}, rule {rule.first} before {rule.then}, because", rule.because, SENTENCE, none


def _told(of: str, name: str, says: str) -> Iterator[Text]:
    """What is said of an option; that a wrong one has both is a rule of every forms file."""
    for where, text, most in (("name", name, SHORT), ("says", says, SENTENCE)):
        if text:
            yield f"{of}, {where}", text, most, frozenset()


def _broken(text: str, most: int, places: frozenset[str]) -> str:
    if not text.strip():
        return "is empty; write the words"
    if len(text) > most:
        return f"has {len(text)} characters, and {most} is the most; write it shorter"
    if on_page(text) != text:
        return "holds a sign that cannot be seen or printed; type the text again"
    if _TAG.search(text) or _CALL.search(text):
        return "holds markup or code; write plain words"
    if not plain_places(text):
        return "has braces that hold no plain name; write {lever_mm}, or leave them out"
    unknown = sorted({name for _, name, _, _ in Formatter().parse(text) if name} - places)
    if unknown:
        known = (
            f"; here can stand {', '.join(f'{{{name}}}' for name in sorted(places))}" if places else "; leave it out"
        )
        return f"the place {{{unknown[0][:40]}}} is filled by nothing{known}"
    return ""
