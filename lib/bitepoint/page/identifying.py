"""Who works here: shown as a card, changed in a small form that guards against mistyping."""

from typing import Any

import msgspec

from bitepoint.errors import BadInput, BitepointError
from bitepoint.logbook import read_folder
from bitepoint.logbook.identity import (
    FILE,
    SELF_STUDY,
    Identity,
    checked_learner,
    checked_name,
    read_identity,
    same_learner,
    same_name,
    write_identity,
)
from bitepoint.page import html, output
from bitepoint.questions.draw import STANDARD


def who() -> None:
    """Show who works in this folder and offer a form to change it."""
    try:
        identity = output.who_asks()
    except BitepointError as error:
        output.say(error)
        return
    redraw = output.show_static(_card(identity))
    if identity.folder is not None and output.page_watches():
        _show_form(identity, redraw)


def _card(identity: Identity) -> output.Static:
    if not identity.kept:
        text = "You work as the practice learner: the same figures for everyone, nothing is kept."
        advice = "To keep your work, open the course with “bitepoint open”."
    else:
        text = f"You are {identity.learner} in class {identity.class_word}, right?"
        advice = "If not, say who you are in the form below."
    return output.Static(text, html.card(html.joined([html.lead(text), html.paragraphs(advice)])))


def changed(identity: Identity, *, class_word: str, learner: str) -> Identity:
    """Return the identity for what was typed.

    Raises
    ------
    BadInput
        The class word or learner id cannot be used, or its check letter does not fit.
    """
    word = checked_name(class_word.strip(), "The class word")
    who = checked_learner(learner.strip(), word)
    if same_name(word, identity.class_word) and same_name(who, identity.learner):
        return msgspec.structs.replace(identity, class_word=word, learner=who)
    # A car that a start file recorded is that learner's alone.
    return msgspec.structs.replace(identity, class_word=word, learner=who, vehicle="", vehicles=STANDARD, bank="")


def keep(new: Identity) -> None:
    """Write who works in a folder into it.

    Raises
    ------
    BadInput
        Another learner's answers are in it.
    OSError
        It cannot be written.
    """
    if new.folder is None:
        return
    now = read_identity(new.folder / FILE)
    answered = [line.record for lines in read_folder(new.folder).values() for line in lines if line.record]
    if not same_learner(now, new) and now.learner != SELF_STUDY and answered:
        raise BadInput(
            f"This folder holds the answers of {now.learner} in class {now.class_word} and stays theirs. Close the course "
            f"(Ctrl+C in its window), then type: bitepoint open --learner {new.learner} --class-word {new.class_word}"
        )
    write_identity(new, new.folder)


def _show_form(identity: Identity, redraw: Any) -> None:
    import ipywidgets

    wide = {"width": "420px"}
    style = {"description_width": "170px"}
    word = ipywidgets.Text(description="Class word", value=identity.class_word, layout=wide, style=style)
    learner = ipywidgets.Text(description="Number and letter", value=identity.learner, layout=wide, style=style)
    button = ipywidgets.Button(description="This is me", layout={"width": "160px", "height": "40px"})
    told = ipywidgets.HTML()

    def pressed(_: Any) -> None:
        try:
            new = changed(identity, class_word=word.value, learner=learner.value)
            keep(new)
            redraw(_card(new))
            words = f"You are {new.learner} in class {new.class_word}. The exercises below now come "
            "with your own figures. If one does not: menu Run, Run All Cells."
            told.value = html.panel("right", "Kept.", html.paragraphs(words))
        except (BitepointError, OSError) as error:
            told.value = html.panel("not yet", "Not yet.", html.paragraphs(str(error)))

    button.on_click(pressed)
    output.show_live(ipywidgets.VBox([word, learner, button, told]))
