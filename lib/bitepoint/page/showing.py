"""The verb `show`: a figure with its alt text."""

from typing import Any

from bitepoint import pictures
from bitepoint.errors import BitepointError
from bitepoint.page import html, shell


def show(key: str, **parameters: Any) -> None:
    """Show the picture `key`; its parameters are those of the function that draws it.

    The alt text goes out with the picture in one HTML output: the only form that keeps it everywhere.
    """
    try:
        drawing = pictures.draw(key, **parameters)
    except BitepointError as error:
        shell.say(error)
        return
    shell.show_static(shell.Static(drawing.alt, html.figure(drawing)))
