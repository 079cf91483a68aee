"""A drawing as an image on a page: with its alt text, and cut to the part that the page needs."""

import re
from base64 import b64encode

from markupsafe import Markup

from bitepoint.pictures import Drawing

_BOX = re.compile(r'viewBox="[^"]*" width="[^"]*" height="[^"]*"')
_SIZE = re.compile(r'font-size="([\d.]+)"')


def image(drawing: Drawing, *, cut: tuple[float, float, float, float] | None = None, letters: float = 1.0) -> Markup:
    """Return a drawing as an image.

    Parameters
    ----------
    drawing : Drawing
        What is shown; its own alt text goes with it.
    cut : (x, y, width, height)
        Only this part of it, in the drawing's own units.
    letters : float
        How many times larger its words are written, where the page shows it small.
    """
    content = drawing.content
    if isinstance(content, bytes):
        kind, data = "png", content
    else:
        x, y, width, height = cut or (0, 0, 0, 0)
        box = f'viewBox="{x:g} {y:g} {width:g} {height:g}" width="{width:g}" height="{height:g}"'
        larger = _SIZE.sub(lambda size: f'font-size="{float(size[1]) * letters:g}"', content)
        kind, data = "svg+xml", (_BOX.sub(box, larger, count=1) if cut else larger).encode()
    source = f"data:image/{kind};base64,{b64encode(data).decode()}"
    return Markup('<img alt="{}" src="{}">').format(drawing.alt, source)
