"""Who works here: shown as a card, changed in a small form that guards against mistyping."""

from collections.abc import Callable
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
from bitepoint.questions.draw import STANDARD, own_letter


def who() -> None:
    """Show who works in this folder and offer a form to change it."""
    try:
        identity = output.who_asks()
    except BitepointError as error:
        output.say(error)
        return
    redraw = output.show_static(_card(identity))
    if identity.folder is not None and output.page_watches():
        output.show_live(_Form(identity, redraw).room)


def _card(identity: Identity) -> output.Static:
    if not identity.kept:
        text = "You work as the practice learner: the same figures for everyone, nothing is kept."
        advice = "To keep your work, open the course with “bitepoint open”."
    elif _is_nobody(identity):
        text = "Who are you?"
        advice = "Class word and number stand on your slip. No slip? Then press “I learn on my own”."
    else:
        text = f"You are {identity.learner} in class {identity.class_word}."
        letter = identity.vehicle or own_letter(identity.class_word, identity.learner)
        advice = f"Your training vehicle is {letter}."
    return output.Static(text, html.card(html.joined([html.lead(text), html.paragraphs(advice)])))


def _is_nobody(identity: Identity) -> bool:
    """Whether nobody has said who they are in this folder."""
    return same_name(identity.learner, SELF_STUDY) and same_name(identity.class_word, SELF_STUDY)


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


class _Form:
    """Class word and learner id to type; folded behind a button where it is known already who works here."""

    def __init__(self, identity: Identity, redraw: Callable[[output.Static], None]) -> None:
        import ipywidgets

        self.identity, self.redraw = identity, redraw
        nobody = _is_nobody(identity)
        self.word = _field("Class word", "" if nobody else identity.class_word)
        self.learner = _field("Number and letter", "" if nobody else identity.learner)
        buttons = [_button("This is me", self.say, "primary")]
        if nobody:
            buttons.append(_button("I learn on my own", self.say_nobody))
        self.told = ipywidgets.HTML()
        self.open = (self.word, self.learner, ipywidgets.HBox(buttons), self.told)
        folded = (_button("Not you?", self.unfold), self.told)
        self.room = ipywidgets.VBox(folded if _is_settled(identity) else self.open)

    def unfold(self, _: Any) -> None:
        self.room.children = self.open

    def say(self, _: Any) -> None:
        try:
            new = changed(self.identity, class_word=self.word.value, learner=self.learner.value)
            keep(new)
        except (BitepointError, OSError) as error:
            self.told.value = html.panel("not yet", "Not yet.", html.paragraphs(str(error)))
            return
        self.redraw(_card(new))
        words = (
            f"You are {new.learner} in class {new.class_word}. The exercises below now come with your own figures. "
            "If one does not: menu Run, Run All Cells."
        )
        self.told.value = html.panel("right", "Kept.", html.paragraphs(words))

    def say_nobody(self, _: Any) -> None:
        words = (
            "You learn on your own, and what you answer is kept in this folder. Go on below. "
            "If you are given a slip one day, say here who you are."
        )
        self.told.value = html.panel("right", "Good.", html.paragraphs(words))


def _is_settled(identity: Identity) -> bool:
    """Whether somebody said who they are, or has begun to answer without."""
    return not _is_nobody(identity) or bool(identity.folder and any(read_folder(identity.folder).values()))


def _field(words: str, value: str) -> Any:
    import ipywidgets

    style = {"description_width": "170px"}
    return ipywidgets.Text(description=words, value=value, layout={"width": "420px"}, style=style)


def _button(words: str, act: Callable[[Any], None], style: str = "") -> Any:
    import ipywidgets

    layout = {"width": "auto", "min_width": "180px", "height": "36px"}
    button = ipywidgets.Button(description=words, button_style=style, layout=layout)
    button.on_click(act)
    return button
