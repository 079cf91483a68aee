"""The pieces of HTML: text is escaped by construction, a name that is missing is refused, cards keep their spelling."""

import re
from pathlib import Path

import pytest
from jinja2 import UndefinedError

import bitepoint
from bitepoint.page import html

HOSTILE = "<script>alert('1') & \"2\"</script>"
SAFE = "&lt;script&gt;alert(&#x27;1&#x27;) &amp; &quot;2&quot;&lt;/script&gt;"
LIB = Path(bitepoint.__file__).parent


@pytest.mark.parametrize(
    "made",
    [
        html.title(HOSTILE),
        html.lead(HOSTILE),
        html.paragraphs(HOSTILE),
        html.panel("note", HOSTILE, html.NOTHING),
        html.panel("note", "Note.", HOSTILE),  # type: ignore[arg-type]
        html.frame(HOSTILE),
        html.table([("Head",), (HOSTILE,)]),
        html.table([(HOSTILE,)], caption=HOSTILE),
        html.lettered([("a", HOSTILE)]),
        html.folded(HOSTILE, html.NOTHING),
        html.card(HOSTILE),  # type: ignore[arg-type]
    ],
)
def test_text_is_escaped_wherever_it_goes_in(made: str) -> None:
    """Also where a piece expects HTML and is given plain text; quotes are spelled as in the stored lessons."""
    assert SAFE in made
    assert "<script" not in made


def test_a_piece_inside_a_piece_is_not_escaped_again() -> None:
    """What comes out of one piece goes into the next as it is."""
    assert "<p style" in html.card(html.joined([html.paragraphs("a & b")]))
    assert "a &amp; b" in html.card(html.paragraphs("a & b"))


def test_lines_break_and_empty_lines_part() -> None:
    """Nothing stands between two elements, and spaces at the ends are gone."""
    style = '<p style="margin:6px 0">'
    assert html.paragraphs("one\ntwo\n\n\n\n three ") == f"{style}one<br>two</p>{style}three</p>"
    assert html.paragraphs(" \n") == ""


def test_a_code_does_not_break_at_its_hyphen() -> None:
    """A short text with a hyphen stays in one line, a long one may break."""
    page = html.table([("Part", "Why"), ("SK-1190", "a self-adjusting cover")])
    assert re.findall(r'<td style="[^"]*?(;white-space:nowrap)?">', page) == [";white-space:nowrap", ""]


def test_a_name_that_is_missing_is_refused() -> None:
    """A template that is not given all its values does not show a card with holes."""
    with pytest.raises(UndefinedError):
        html.render("card.html.jinja", title="t")


def test_html_is_made_by_templates_alone() -> None:
    """No module writes an element by hand, and none but the page's pieces and the drawings escapes text itself."""
    allowed = {"page/html.py", "pictures/canvas.py"}
    found = []
    for path in LIB.rglob("*.py"):
        name, text = path.relative_to(LIB).as_posix(), path.read_text(encoding="utf-8")
        if (
            re.search(r"^from html import|^import html\b|markupsafe\.escape|import escape", text, re.M)
            and name not in allowed
        ):
            found.append(name)
        if re.search(r"</(p|div|td|tr|table|b|h3|details|summary|figure)>", text):
            found.append(name)
    assert found == []
