"""Plots by matplotlib: one size, one dress, the same bytes each time. Matplotlib is imported when one is drawn."""

import logging
from io import BytesIO
from typing import TYPE_CHECKING, Any

from bitepoint.pictures.framing import frame_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

WIDTH_IN, DPI, WORDS_PT = 9.0, 80, 15
"""720 dots across; 15 pt at 80 dots an inch is 16.7 dots, as large as the words of the drawings."""
_FONT = "DejaVu Sans"


def figure(height_in: float, *, top_in: float = 0.25) -> "Figure":
    """Return an empty white figure, 720 dots wide, that carries the training vehicles' frame; `top_in` is kept free."""
    # On a new computer it looks for fonts once and says so; in a lesson that would stand as a warning.
    logging.getLogger("matplotlib.font_manager").setLevel(logging.ERROR)
    from matplotlib import rcdefaults
    from matplotlib.figure import Figure

    # It takes settings from a file in the folder it works in, which may be anybody's.
    rcdefaults()
    made = Figure(figsize=(WIDTH_IN, height_in), dpi=DPI, facecolor="white")
    # Margins by hand: the library's own layout takes twice as long as the plot.
    made.subplots_adjust(left=0.13, right=0.96, bottom=1.15 / height_in, top=1 - top_in / height_in, hspace=0.45)
    made.text(0.5, 0.12 / height_in, frame_words(), fontsize=WORDS_PT, fontweight="bold", fontfamily=_FONT, ha="center")
    return made


def dress(axes: "Axes", x_words: str, y_words: str) -> None:
    """Give axes their grid and their words, with the unit in them."""
    axes.grid(color="#B8B8B8", linewidth=0.8)
    axes.set_axisbelow(True)
    axes.tick_params(labelsize=WORDS_PT)
    for setter, words in ((axes.set_xlabel, x_words), (axes.set_ylabel, y_words)):
        setter(words, fontsize=WORDS_PT, fontfamily=_FONT)


def png(made: "Figure") -> bytes:
    """Return the figure as PNG, without the library's name and version in it."""
    written = BytesIO()
    told: dict[str, Any] = {"Software": None}
    made.savefig(written, format="png", dpi=DPI, metadata=told)
    return written.getvalue()
