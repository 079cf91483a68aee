"""Pieces of HTML for cards that must survive an untrusted notebook.

Only what stays there is used: plain elements, inline styles with literal or rgba colours, images with a data address.
No style element, no svg, no role, no aria attribute, no var(). Colour never carries meaning alone: every panel starts
with a word.
"""

from base64 import b64encode
from collections.abc import Sequence
from html import escape

from bitepoint.pictures import Drawing

FONT = "font-size:15px;line-height:1.5"
_TINTS = {
    "right": ("rgba(0,114,178,0.12)", "#0072b2"),
    "not yet": ("rgba(213,94,0,0.12)", "#d55e00"),
    "note": ("rgba(128,128,128,0.14)", "#767676"),
}


def paragraphs(text: str) -> str:
    """Return text as escaped paragraphs: an empty line parts them, a line end breaks."""
    blocks = [block for block in text.split("\n\n") if block.strip()]
    return "".join(f'<p style="margin:6px 0">{escape(block.strip()).replace(chr(10), "<br>")}</p>' for block in blocks)


def panel(tone: str, word: str, body: str) -> str:
    """Return a tinted panel that starts with a word in bold; `body` is HTML."""
    tint, edge = _TINTS[tone]
    style = f"background:{tint};border-left:6px solid {edge};padding:8px 12px;margin:8px 0;border-radius:4px"
    return f'<div style="{style}"><b>{escape(word)}</b> {body}</div>'


def frame(text: str) -> str:
    """Return the line that marks invented figures."""
    style = (
        "border:2px dashed #d55e00;padding:4px 10px;margin:8px 0;font-weight:bold;letter-spacing:0.04em;font-size:13px"
    )
    return f'<div style="{style}">{escape(text)}</div>'


_MANY = 8
"""From so many columns on, a table keeps them closer together."""


def table(rows: Sequence[Sequence[str]], *, caption: str = "", plain: bool = False) -> str:
    """Return a table; the first row holds the headings."""
    beside = 12 if len(rows[0]) < _MANY else 6
    cell = f"padding:4px {beside}px;text-align:left;border-bottom:1px solid rgba(128,128,128,0.4)"
    head = "".join(f'<th scope="col" style="{cell}">{escape(c)}</th>' for c in rows[0])
    kept = f"{cell};white-space:nowrap"
    body = "".join(
        "<tr>"
        + "".join(f'<td style="{kept if _is_code(c) else cell}">{c if plain else escape(c)}</td>' for c in row)
        + "</tr>"
        for row in rows[1:]
    )
    title = f'<caption style="text-align:left;font-weight:bold">{escape(caption)}</caption>' if caption else ""
    style = f"border-collapse:collapse;margin:8px 0;{FONT}"
    return f'<table style="{style}">{title}<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


def _is_code(text: str) -> bool:
    """Whether a cell holds a code or month that must not break at its hyphen, such as SK-1190, from 2015-05."""
    return "-" in text and len(text) <= 12


def data_address(drawing: Drawing) -> str:
    """Return the picture as a data: address."""
    if isinstance(drawing.content, str):
        return f"data:image/svg+xml;base64,{b64encode(drawing.content.encode('utf-8')).decode('ascii')}"
    return f"data:image/png;base64,{b64encode(drawing.content).decode('ascii')}"


def figure(drawing: Drawing, *, caption: bool = True) -> str:
    """Return a picture with its alt text, the one form in which both survive everywhere."""
    image = (
        f'<img alt="{escape(drawing.alt, quote=True)}" src="{data_address(drawing)}" '
        f'style="width:100%;max-width:{drawing.width_px}px;height:auto;background:#ffffff;border-radius:4px">'
    )
    below = f'<figcaption style="{FONT};opacity:0.85">{escape(drawing.caption)}</figcaption>' if caption else ""
    return f'<figure style="margin:10px 0">{image}{below}</figure>'


def card(body: str, *, edge: str = "#0072b2") -> str:
    """Return a bordered card round some HTML."""
    style = (
        f"border:1px solid rgba(128,128,128,0.5);border-top:4px solid {edge};border-radius:6px;"
        f"padding:10px 16px;margin:6px 0;max-width:820px;{FONT}"
    )
    return f'<div style="{style}">{body}</div>'
