"""The verb `show`: a figure with its alt text."""

from typing import Any

from bitepoint import pictures
from bitepoint.errors import BitepointError
from bitepoint.page import html, output


def show(key: str, **parameters: Any) -> None:
    """Show the picture `key`; its parameters are those of the function that draws it.

    The alt text goes out with the picture in one HTML output: the only form that keeps it everywhere. A picture that
    follows a slider goes out standing still as well, hidden on screen where the slider lives.
    """
    try:
        drawing = pictures.draw(key, **parameters)
    except BitepointError as error:
        output.say(error)
        return
    moving = pictures.motion(key, **parameters) if output.page_watches() else None
    figure = html.figure(drawing)
    output.show_static(
        output.Static(drawing.alt, html.render("moving.html.jinja", figure=figure) if moving else figure)
    )
    if moving:
        from bitepoint.page import widgets

        output.show_live(widgets.SlidingPicture(spec=widgets.slide_spec(moving)))
